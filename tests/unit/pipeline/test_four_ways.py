"""A car added by questions, by a table and by hand is one record.

The fourth way, the page, needs a browser: `tests/browser/test_four_ways_page.py`.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from four_ways_car import ANSWERS, BY_HAND, ID, TABLE
from shipped_book import PINOUTS

from builder.book import open_book
from builder.cli.main import main
from builder.loading import load_file, load_text
from builder.pipeline.checking.book_check import check_book


@pytest.fixture
def book(small_book: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (small_book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    shutil.copytree(PINOUTS.parent / "schema", small_book / "schema")
    monkeypatch.chdir(small_book.parent)
    return small_book


def place_in(book: Path) -> Path:
    return book / "vehicles" / "zorvex" / f"{ID}.yaml"


def by_questions(book: Path) -> None:
    typed = "".join(f"{line}\n" for line in ANSWERS)
    done = CliRunner().invoke(main, ["new", "vehicle", "-b", str(book)], input=typed)
    assert done.exit_code in (0, 3), done.output


def by_table(book: Path) -> None:
    Path("car.csv").write_text(TABLE, "utf-8")
    done = CliRunner().invoke(main, ["import", "car.csv", "--into", str(book)])
    assert done.exit_code in (0, 3), done.output


def by_hand(book: Path) -> None:
    place_in(book).parent.mkdir()
    place_in(book).write_text(BY_HAND, "utf-8")


@pytest.mark.parametrize("way", [by_questions, by_table, by_hand])
def test_every_way_ends_as_the_same_record(book, way):
    way(book)
    assert load_file(place_in(book), ID).data == load_text(BY_HAND, "").data
    found = check_book(open_book(book)).findings
    mine = {f.rule_id for f in found if f.file.endswith(f"{ID}.yaml") and f.stands_open}
    assert mine == {"EVD101"}  # nobody has measured the supplies
    assert not any(f.fails_check for f in found)


def test_the_ways_that_write_end_as_the_same_text(book):
    by_questions(book)
    asked = place_in(book).read_bytes()
    place_in(book).unlink()
    by_table(book)
    assert place_in(book).read_bytes() == asked
