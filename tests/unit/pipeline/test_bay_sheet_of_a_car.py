"""`new bay-sheet CAR`: every reading that the check or a plan waits for, by state, and no other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

import pytest
from shipped_book import PINOUTS

from builder.book import Book, open_book
from builder.findings import NOT_YET_KNOWN, Severity
from builder.model.words import STATES
from builder.pipeline.answers.visit_changes import Standing, standing_of
from builder.pipeline.changing.empty_sheets import sheet_for
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.planning.car.open_readings import by_state, open_readings
from builder.planning.plan import ProofReading
from builder.rendering.sheet_facts import reading_facts


@pytest.fixture(scope="module")
def book() -> Book:
    return open_book(PINOUTS)


@pytest.fixture(scope="module")
def checked(book: Book) -> CheckedBook:
    return check_book(book, jobs=())


def standings(checked: CheckedBook) -> Iterator[Standing]:
    for summary in checked.summaries:
        yield standing_of(checked, summary.id)


def key(reading: ProofReading) -> tuple[object, ...]:
    return tuple(reading_facts(reading).items())


def waited_for(standing: Standing) -> set[tuple[object, ...]]:
    """What probe plans ask for, and what proves the pins that a finding calls not yet known."""
    asked = {key(t) for p in standing.plans.values() if p.kind == "probe_plan" for t in p.tests}
    shown = standing.read.file.shown
    for finding in standing.checked.findings_of(shown):
        if finding.says == NOT_YET_KNOWN and finding.severity is not Severity.NOTE:
            defaults = standing.checked.shelf.defaults
            asked |= {key(r) for r in open_readings(standing.vehicle, [finding.path], defaults)}
    return asked


def test_it_has_all_that_is_waited_for_once_and_nothing_else(
    book: Book, checked: CheckedBook
) -> None:
    seen = 0
    for standing in standings(checked):
        wanted = waited_for(standing)
        if not wanted:
            continue
        sheet = sheet_for(book, standing.vehicle.id, None, None)
        assert sheet.lines == len(wanted), standing.vehicle.id
        seen += 1
    assert seen >= 3


def test_the_lines_of_one_state_stand_together_in_the_order_of_a_visit(
    checked: CheckedBook,
) -> None:
    for standing in standings(checked):
        tests = by_state(t for plan in standing.plans.values() for t in plan.tests)
        states = [state for state, _ in groupby(reading.state for reading in tests)]
        assert states == sorted(set(states), key=STATES.index)


def test_a_state_is_said_above_its_lines(book: Book, checked: CheckedBook) -> None:
    standing = next(each for each in standings(checked) if waited_for(each))
    text = sheet_for(book, standing.vehicle.id, None, None).text
    heads = [line for line in text.splitlines() if line.startswith("  # -- ")]
    assert heads and len(heads) == len(set(heads))
