"""The day a book is looked at: asked for, else its newest date; a clock only when asked."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook

from builder.book import open_book
from builder.pipeline.checking.book_check import check_book

JOB = "tansy-subwoofer-finished"
TANSY = "ostrel-tansy-2017-hatch-base"


@pytest.fixture
def book(small_book: Path) -> Path:
    """The small book with a job that was finished on 2025-04-15 and heard of on 2025-05-02."""
    (small_book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / f"{JOB}.yaml", small_book / "jobs")
    return small_book


def late(book: Path, *arguments: str) -> set[tuple[str, str]]:
    """Rule and file of everything that is said to lie in the future."""
    done = loombook("check", book, "--format", "json", *arguments)
    found = json.loads(done.output)["findings"]
    return {
        (one["rule"], Path(one["file"]).stem)
        for one in found
        if "the day the book is checked for" in one["message"]
    }


def test_without_a_day_nothing_of_a_book_lies_in_the_future(book: Path) -> None:
    assert late(book) == set()
    assert check_book(open_book(book)).as_of == "2025-05-02"


def test_a_ring_out_is_of_the_book_like_a_reading(book):
    place = book / "looms" / "straight-16.yaml"
    text = place.read_text("utf-8")
    place.write_text(text.replace("date: 2023-03-02", "date: 2025-09-01"), "utf-8")
    assert check_book(open_book(book)).as_of == "2025-09-01"
    early = check_book(replace(open_book(book), as_of="2025-08-31"))
    assert "LOM112" in {finding.rule_id for finding in early.findings}


def test_a_day_before_a_session_and_a_result_finds_both(book: Path) -> None:
    found = late(book, "--as-of", "2019-01-01")
    assert ("SAF111", JOB) in found
    assert any(rule == "EVD106" for rule, _ in found)


def test_the_day_of_the_last_word_finds_nothing_and_the_day_before_finds_it(book: Path) -> None:
    assert late(book, "--as-of", "2025-05-02") == set()
    assert late(book, "--as-of", "2025-05-01") == {("SAF111", JOB)}


def test_the_day_asked_for_is_what_rules_and_pages_are_given(book: Path) -> None:
    checked = check_book(replace(open_book(book), as_of="2026-01-31"))
    assert checked.as_of == checked.shelf.as_of == "2026-01-31"


def test_today_is_the_only_word_that_reads_a_clock(book: Path) -> None:
    tomorrow = date.fromordinal(date.today().toordinal() + 1).isoformat()
    path = book / "jobs" / f"{JOB}.yaml"
    path.write_text(path.read_text("utf-8").replace("date: 2025-05-02", f"date: {tomorrow}"))
    assert late(book) == set()
    assert late(book, "--as-of", "today") == {("SAF111", JOB)}


def test_a_visit_and_an_edit_that_are_to_come_are_found_where_they_stand(book: Path) -> None:
    (visit,) = (book / "visits").rglob("alder-pit-audio-2024-11-25-k7m2.yaml")
    places = {
        visit: ("date: 2024-11-25", "date: 2098-11-25", "EVD106"),
        book / "jobs" / f"{JOB}.yaml": ("edited: 2025-05-02", "edited: 2098-11-26", "SAF111"),
        book / "vehicles" / "ostrel" / f"{TANSY}.yaml": ("edited: 2024", "edited: 2097", "EVD106"),
    }
    for path, (old, new, _) in places.items():
        path.write_text(path.read_text("utf-8").replace(old, new), "utf-8")
    assert late(book, "--as-of", "2026-01-31") == {(r, p.stem) for p, (_, _, r) in places.items()}
    assert late(book) == late(book, "--as-of", "2098-11-26") == set()
    assert check_book(open_book(book)).as_of == "2098-11-26"


@pytest.mark.parametrize("day", ["2025-13-01", "yesterday", "2025-5-1", ""])
def test_a_day_that_is_none_is_wrong_use(book: Path, day: str) -> None:
    done = loombook("check", book, "--as-of", day)
    assert done.exit_code == 2 and "2024-06-20" in done.output


def test_two_builds_of_one_day_are_alike_byte_for_byte(book: Path, tmp_path: Path) -> None:
    sites = []
    for name in ("one", "two"):
        done = loombook("build", book, "-o", tmp_path / name, "--as-of", "2026-01-31")
        assert done.exit_code == 0, done.output
        files = [path for path in (tmp_path / name).rglob("*") if path.is_file()]
        sites.append({path.relative_to(tmp_path / name): path.read_bytes() for path in files})
    assert sites[0] == sites[1]
