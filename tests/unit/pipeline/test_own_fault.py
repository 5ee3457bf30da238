"""An error nobody foresaw in one record is a finding of that record; the others go on."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from shipped_book import PINOUTS, loombook

from builder import __version__
from builder.book import open_book
from builder.model.vehicle import Vehicle
from builder.pipeline.checking import (
    book_rules,
    checked_vehicle,
    deciding,
    jobs,
    records,
    shelf,
    visits,
    workers,
)
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.site import vehicle_pages
from builder.rules.registry import rules_for
from builder.rules.rule import Scope

TANSY = "ostrel-tansy-2017-hatch-base"
JOB = "tansy-subwoofer"
SECRET = "the customer's own words"


@pytest.fixture
def book(small_book: Path) -> Path:
    (small_book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / f"{JOB}.yaml", small_book / "jobs")
    return small_book


def fail_on(of: Any, name: str, stem: str, error: type[Exception]) -> pytest.MonkeyPatch:
    """Make a function fail when anything it is given belongs to the record of that id."""
    real, patch = getattr(of, name), pytest.MonkeyPatch()

    def failing(*given: Any, **named: Any) -> Any:
        if any(stem in (getattr(g, "id", ""), _stem_of(g)) for g in given):
            raise error(SECRET)
        return real(*given, **named)

    patch.setattr(of, name, failing)
    return patch


def _stem_of(given: Any) -> str:
    file = getattr(given, "file", None)
    return file.path.stem if hasattr(file, "path") else ""


def own(checked: CheckedBook) -> list[Any]:
    return [finding for finding in checked.findings if finding.rule_id == "BOK106"]


@pytest.mark.parametrize("error", [ZeroDivisionError, RecursionError, MemoryError, KeyError])
@pytest.mark.parametrize(
    ("of", "name", "stem", "folder"),
    [
        (checked_vehicle, "run_rules", TANSY, f"vehicles/ostrel/{TANSY}"),
        (checked_vehicle, "summarise", TANSY, f"vehicles/ostrel/{TANSY}"),
        (jobs, "decide_job", JOB, f"jobs/{JOB}"),
        (shelf, "run_rules", "cvn-2a", "converters/cvn-2a"),
    ],
    ids=["rules of a vehicle", "its summary", "a job", "rules of a part"],
)
def test_an_error_in_one_record_is_a_finding_of_it(
    book: Path, of: Any, name: str, stem: str, folder: str, error: type[Exception]
) -> None:
    before = check_book(open_book(book))
    patch = fail_on(of, name, stem, error)
    try:
        after = check_book(open_book(book))
    finally:
        patch.undo()
    (finding,) = own(after)
    assert finding.file.endswith(f"{folder}.yaml") and finding.fails_check
    assert error.__name__ in finding.message and __version__ in finding.message
    assert "builder/pipeline/checking/" in finding.message
    assert SECRET not in finding.message + finding.help
    others = [f for f in after.findings if f.file != finding.file and f.rule_id != "TOP101"]
    assert set(others) >= {f for f in before.findings if not concerns(f.file, stem)}


def concerns(file: str, stem: str) -> bool:
    return stem in file or (stem == TANSY and JOB in file)


def test_an_error_while_a_record_is_read_is_a_finding_of_it(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = records.parse_record

    def failing(kind: str, data: dict[str, Any]) -> Any:
        if data["id"] == TANSY:
            raise RecursionError(SECRET)
        return real(kind, data)

    records._understood.cache_clear()  # its text was parsed by other tests
    monkeypatch.setattr(records, "parse_record", failing)
    (finding,) = own(check_book(open_book(book)))
    assert TANSY in finding.file and SECRET not in finding.message


def test_an_error_while_a_visit_is_turned_is_a_finding_of_its_record(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = visits.with_visits

    def failing(vehicle: Vehicle, *given: Any) -> Any:
        if vehicle.id == TANSY:
            raise IndexError(SECRET)
        return real(vehicle, *given)

    monkeypatch.setattr(visits, "with_visits", failing)
    (finding,) = own(check_book(open_book(book)))
    assert TANSY in finding.file and SECRET not in finding.message


def test_so_it_is_in_a_forked_worker(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "WORTH_FORKING", 1)
    monkeypatch.setattr(workers.os, "cpu_count", lambda: 2)
    patch = fail_on(checked_vehicle, "run_rules", TANSY, MemoryError)
    try:
        (finding,) = own(check_book(open_book(book)))
    finally:
        patch.undo()
    assert TANSY in finding.file and "MemoryError" in finding.message


def test_a_rule_over_the_whole_book_that_fails_is_told(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(*given: Any) -> Any:
        raise ValueError(SECRET)

    monkeypatch.setattr(book_rules, "_of_rule", failing)
    found = own(check_book(open_book(book)))
    assert len(found) == len(rules_for(Scope.BOOK)) > 0
    assert all("ValueError" in finding.message for finding in found)


def test_a_plan_that_fails_is_no_plan_and_says_why(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(*given: Any, **named: Any) -> Any:
        raise ZeroDivisionError(SECRET)

    monkeypatch.setattr(deciding, "make_plan", failing)
    done = loombook("plan", TANSY, "--converter", "cvn-2a", "--book", book)
    assert done.exit_code == 1 and "NO PLAN" in done.output and "BOK106" in done.output
    assert SECRET not in done.output


def test_a_page_that_cannot_be_drawn_names_its_record_and_keeps_the_old_site(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    assert loombook("build", book, "--output", site).exit_code == 0
    old = (site / "index.html").read_bytes()
    real, drawn = vehicle_pages.vehicle_page, []

    def failing(vehicle: Vehicle, *given: Any) -> Any:
        drawn.append(vehicle.id)
        if vehicle.id == TANSY:
            raise ZeroDivisionError(SECRET)
        return real(vehicle, *given)

    monkeypatch.setattr(vehicle_pages, "vehicle_page", failing)
    done = loombook("build", book, "--output", site, "--no-store")  # else none is drawn
    assert done.exit_code == 1 and f"{TANSY}.yaml:1:1: stop BOK106" in done.output
    assert SECRET not in done.output and len(set(drawn)) > 1
    assert (site / "index.html").read_bytes() == old


def test_find_answers_from_the_other_records(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from builder.pipeline.answers import answering

    real = answering.prove

    def failing(vehicle: Vehicle, *given: Any) -> Any:
        if vehicle.id == TANSY:
            raise ZeroDivisionError(SECRET)
        return real(vehicle, *given)

    monkeypatch.setattr(answering, "prove", failing)
    done = loombook("find", "ostrel", "--book", book)
    assert done.exception is None or isinstance(done.exception, SystemExit)
