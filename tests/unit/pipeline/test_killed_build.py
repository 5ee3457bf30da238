"""A build that is killed at any moment leaves the old site or the new one, never a mixture."""

from __future__ import annotations

import hashlib
import os
import re
import signal
from collections.abc import Callable
from pathlib import Path

import forked
import pytest

from builder.rendering import writing

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL")
CAR = "ostrel-tansy-2017-hatch-base"


def command(book: Path) -> list[str]:
    return ["build", str(book), "--output", str(book.parent / "site")]


def dying(moment: str) -> Callable[[], None]:
    """What makes a build kill itself at the swap of the new site for the old."""

    def patch() -> None:
        exchange = writing.exchange

        def die(one: Path, other: Path) -> None:
            if moment == "after":
                exchange(one, other)
            os.kill(os.getpid(), signal.SIGKILL)

        writing.exchange = die

    return patch


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
    assert forked.command(*command(book)).returncode == 0
    return state(book.parent / "site")


@pytest.mark.parametrize("moment", ["before", "after"])
def test_a_kill_at_the_swap_itself_leaves_a_whole_site(small_book: Path, moment: str) -> None:
    new = built(small_book, "new")
    old = built(small_book, "old")
    change(small_book, "new")
    killed = forked.command(*command(small_book), before=dying(moment))
    assert killed.returncode == -signal.SIGKILL
    assert state(small_book.parent / "site") == (new if moment == "after" else old)
    assert built(small_book, "old") == old  # what was left lying beside it is in nobody's way
