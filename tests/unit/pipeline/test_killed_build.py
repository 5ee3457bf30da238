"""A build that is killed at any moment leaves the old site or the new one, never a mixture."""

from __future__ import annotations

import hashlib
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from shipped_book import ROOT

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL")
CAR = "ostrel-kavo-2017-hatch-base"
AT_THE_SWAP = """
import os, signal, sys
from builder.rendering import writing
exchange = writing.exchange
def die(one, other):
    if sys.argv[1] == "after":
        exchange(one, other)
    os.kill(os.getpid(), signal.SIGKILL)
writing.exchange = die
from builder.cli import main
main(sys.argv[2:])
"""


def command(book: Path) -> list[str]:
    return ["build", str(book), "--output", str(book.parent / "site")]


def start(*arguments: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, *arguments],
        cwd=ROOT,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )


def state(site: Path) -> str:
    """One sum of every path and byte of a site."""
    total = hashlib.sha256()
    for path in sorted(site.rglob("*")):
        total.update(path.relative_to(site).as_posix().encode())
        total.update(path.read_bytes() if path.is_file() else b"/")
    return total.hexdigest()


def change(book: Path, variant: str) -> None:
    record = book / "vehicles" / "ostrel" / f"{CAR}.yaml"
    text = record.read_text("utf-8")
    record.write_text(re.sub(r"^variant: .*$", f"variant: {variant}", text, flags=re.M), "utf-8")


def built(book: Path, variant: str) -> str:
    change(book, variant)
    assert start("-m", "builder", *command(book)).wait() == 0
    return state(book.parent / "site")


@pytest.mark.parametrize("moment", ["before", "after"])
def test_a_kill_at_the_swap_itself_leaves_a_whole_site(small_book: Path, moment: str) -> None:
    new = built(small_book, "new")
    old = built(small_book, "old")
    change(small_book, "new")
    assert start("-c", AT_THE_SWAP, moment, *command(small_book)).wait() == -signal.SIGKILL
    assert state(small_book.parent / "site") == (new if moment == "after" else old)
    assert built(small_book, "old") == old  # what was left lying beside it is in nobody's way
