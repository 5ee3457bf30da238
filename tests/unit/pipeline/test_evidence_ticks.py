"""Ticked steps of a bay sheet: kept in the job, the newest counts, and shown on its sheets."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from evidence_book import JOB, SESSION, TANSY, job_file, small_book
from shipped_book import loombook

from builder.book import open_book
from builder.pipeline.answers.packs import packed
from builder.planning.job.ticked import step_name, steps_done
from builder.planning.sheet_rows import Step


def sheet(place: Path, *ticks: tuple[str, str], date: str = "2025-11-02", by: str = "") -> Path:
    session = SESSION.rstrip().replace("tag: zz1, year: 2020", "tag: fern-2, year: 2018")
    session = session.replace("2025-11-02", date).replace("third-bay", by or "third-bay")
    items = [f"  - {{at: {json.dumps(at)}, done: {done}}}" for at, done in ticks]
    head = ["schema: 1", f"vehicle: {TANSY}", f"job: {JOB}", session, "ticked:", *items]
    place.write_text("\n".join(head) + "\n", "utf-8")
    return place


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return small_book(tmp_path / "book")


def steps_of(book: Path) -> tuple[Step, ...]:
    return packed(open_book(book), JOB).pack.steps


def done_in(book: Path) -> list[int]:
    made = packed(open_book(book), JOB)
    return sorted(steps_done(made.pack.steps, made.parts.job.ticked))


def add(book: Path, place: Path) -> str:
    found = loombook("evidence", "add", place, "--book", book)
    assert found.exit_code == 0, found.output
    return str(found.output)


def test_ticks_go_into_the_job_once_and_the_newest_counts(book: Path, tmp_path: Path) -> None:
    names = [step_name(step) for step in steps_of(book)]
    place = tmp_path / "sheet.yaml"
    first = sheet(place, (names[0], "yes"), (names[1], "yes"))
    assert "2 steps ticked" in add(book, first)
    assert done_in(book) == [1, 2]
    text = job_file(book).read_text("utf-8")
    assert "nothing changed" in add(book, first)
    other = sheet(place, (names[0], "yes"), (names[1], "yes"), (names[2], "yes"), by="alder-pit")
    assert "1 step ticked" in add(book, other), "what another phone ticked is no news"
    assert job_file(book).read_text("utf-8") != text
    off = sheet(place, (names[1], "no"), date="2025-11-03")
    assert f"{names[1]}: not done" in add(book, off)
    assert done_in(book) == [1, 3]


def test_a_tick_goes_to_no_step_of_other_words(book: Path, tmp_path: Path) -> None:
    add(book, sheet(tmp_path / "sheet.yaml", ("step 1: what an older plan said here", "yes")))
    assert done_in(book) == []


def test_a_begun_job_shows_what_was_ticked_later(book: Path, tmp_path: Path) -> None:
    begun = ("begin", JOB, "--by", "third-bay", "--date", "2025-11-01", "--book", book)
    assert loombook(*begun).exit_code == 0
    name = step_name(steps_of(book)[3])
    add(book, sheet(tmp_path / "sheet.yaml", (name, "yes")))
    assert done_in(book) == [4]
    printed = loombook("plan", JOB, "--book", book).output
    assert "[x]  4  " in printed and printed.count("[x]") == 1
    assert loombook("check", "--book", book).exit_code == 0


def test_a_tick_says_whether_the_step_is_done(book: Path, tmp_path: Path) -> None:
    place = sheet(tmp_path / "sheet.yaml", ("step 1: battery off", "perhaps"))
    found = loombook("evidence", "add", place, "--book", book)
    assert found.exit_code == 1
    assert f"{place.name}:" in found.output and "done" in found.output


def test_ticks_without_a_job_are_refused(book: Path, tmp_path: Path) -> None:
    place = sheet(tmp_path / "sheet.yaml", ("step 1: battery off", "yes"))
    place.write_text(place.read_text("utf-8").replace(f"job: {JOB}\n", ""), "utf-8")
    found = loombook("evidence", "add", place, "--book", book)
    assert found.exit_code == 1 and "name the job" in found.output
