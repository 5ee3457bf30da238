"""Every command that writes records, killed before each change it makes to the book's folder.

What it does inside is not known here: the interpreter itself tells of each file that is opened
for writing, renamed, linked or removed, by whatever library.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from four_ways_car import TABLE
from shipped_book import PINOUTS, loombook
from test_new_mend_tidy import CAR, TANSY, options

from builder.cli import main

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs fork and SIGKILL")
CHANGES = ("os.rename", "os.link", "os.symlink", "os.remove", "os.rmdir", "os.mkdir", "os.truncate")
WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC
HALF_SEEN = 3
"""Exit code of a child that was about to write into a file that a check would read."""
SHEET = """schema: 1
vehicle: ostrel-tansy-2017-hatch-base
job: tansy-subwoofer
session:
  by: quayside-fitters
  date: 2024-12-02
  car: {tag: moss-4, year: 2018}
  method: meter
  read_from: wire_side
  against: battery_negative
readings:
  - {plug: A, cavity: 5, state: tuner, quantity: dc_v, value: 12.01, battery_v: 12.40}
results:
  - {test: battery-rest, value: 12.6}
"""


def is_read(path: Path) -> bool:
    """Whether a check would take a file for a record or for the settings."""
    return path.suffix in (".yaml", ".yml")


def read_by_a_check(book: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in book.rglob("*") if is_read(path)}


def left_behind(book: Path) -> list[Path]:
    return [path for path in book.rglob("*") if path.is_file() and path.suffix == ".tmp"]


def run_child(arguments: list[str], book: Path, number: int) -> int:
    """Run the command in a child that is killed before its n-th change; its wait status."""
    child = os.fork()
    if child:
        return os.waitpid(child, 0)[1]
    try:
        sys.addaudithook(signalling(book, number, signal.SIGKILL))
        CliRunner().invoke(main, arguments)
    finally:
        os._exit(0)


def signalling(
    book: Path, number: int, told: signal.Signals
) -> Callable[[str, tuple[Any, ...]], None]:
    """What the interpreter tells of changes to, and what tells this process before the n-th."""
    count = 0

    def hook(event: str, about: tuple[Any, ...]) -> None:
        nonlocal count
        opens = event == "open" and bool((about[2] or 0) & WRITING)
        if not (opens or event in CHANGES) or not isinstance(about[0], str | os.PathLike):
            return
        path = Path(about[0])
        if not path.is_relative_to(book):
            return
        if opens and is_read(path):
            os._exit(HALF_SEEN)
        count += 1
        if count == number:
            os.kill(os.getpid(), told)

    return hook


def damaged_mend(book: Path) -> list[str]:
    for name, old, new in (
        (TANSY, "base: pink", "base: Pink"),
        ("amplifiers/amn-4.yaml", "min_v: 9.0", "min_v: 9.0 V"),
    ):
        path = book / name
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new), "utf-8")
    return ["mend", str(book)]


def untidy_tidy(book: Path) -> list[str]:
    for name in (TANSY, "amplifiers/amn-4.yaml"):
        path = book / name
        path.write_text(path.read_text("utf-8").replace("\n", "\r\n"), "utf-8")
    return ["tidy", str(book)]


def new_vehicle(book: Path) -> list[str]:
    return ["new", "vehicle", "-b", str(book), *options(CAR)]


def evidence(book: Path) -> list[str]:
    (book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / "tansy-subwoofer.yaml", book / "jobs")
    sheet = book.parent / "sheet.yaml"
    sheet.write_text(SHEET, "utf-8")
    return ["evidence", "add", str(sheet), "-b", str(book)]


def imported(book: Path) -> list[str]:
    table = book.parent / "car.csv"
    table.write_text(TABLE, "utf-8")
    return ["import", str(table), "--into", str(book)]


def imported_again(book: Path) -> list[str]:
    arguments = imported(book)
    CliRunner().invoke(main, arguments)
    table = Path(arguments[1])
    table.write_text(TABLE.replace("steering wheel", "driver's seat"), "utf-8")
    return [*arguments, "--replace"]


COMMANDS = [new_vehicle, damaged_mend, untidy_tidy, evidence, imported, imported_again]


@pytest.mark.parametrize("prepared", COMMANDS)
def test_a_command_killed_at_any_change_leaves_old_files_or_new(small_book, tmp_path, prepared):
    (small_book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    kept = tmp_path / "kept"
    arguments = prepared(small_book)
    shutil.copytree(small_book, kept)
    old = read_by_a_check(small_book)
    done = CliRunner().invoke(main, arguments)
    new = read_by_a_check(small_book)
    changed = {name for name in new if new[name] != old.get(name)}
    assert changed, done.output
    assert old.keys() <= new.keys()
    seen, number, cleared = set(), 1, 0
    while True:
        shutil.rmtree(small_book)
        shutil.copytree(kept, small_book)
        status = run_child(arguments, small_book, number)
        assert os.waitstatus_to_exitcode(status) != HALF_SEEN
        found = read_by_a_check(small_book)
        for name in found.keys() | new.keys():
            assert found.get(name) in (old.get(name), new.get(name)), f"{name} at change {number}"
        seen.add(frozenset(name for name in changed if found.get(name) == new[name]))
        if left_behind(small_book):
            cleared += 1
            CliRunner().invoke(main, arguments)
            assert left_behind(small_book) == [], f"left at change {number}"
        if not os.WIFSIGNALED(status):
            break
        number += 1
    assert number > 2
    assert {frozenset(), frozenset(changed)} <= seen
    assert cleared > 0


def test_a_book_whose_start_was_killed_is_finished_by_the_next(tmp_path):
    whole = tmp_path / "whole" / "ours"
    assert loombook("start", whole, "--alone").exit_code == 0
    wanted = {name.replace("/whole/", "/"): text for name, text in read_by_a_check(whole).items()}
    book = tmp_path / "ours"
    arguments = ["start", str(book), "--alone"]
    for number in range(1, 200, 9):
        status = run_child(arguments, book, number)
        assert os.waitstatus_to_exitcode(status) != HALF_SEEN
        found = read_by_a_check(book)
        assert found.items() <= wanted.items()
        if not os.WIFSIGNALED(status):
            break
        assert loombook(*arguments).exit_code == 0
        assert read_by_a_check(book) == wanted
        shutil.rmtree(book)
    assert 20 < number < 199
