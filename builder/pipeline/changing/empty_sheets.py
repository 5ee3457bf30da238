"""`new bay-sheet`: an empty sheet of a job, or of the plans of a vehicle."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from builder.book import Book, home_of
from builder.data_files import schema_ref
from builder.findings import NOT_YET_KNOWN, Severity
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import NoSuchRecordError, vehicle_meant
from builder.pipeline.answers.packs import MadePack, packed
from builder.pipeline.answers.visit_changes import Standing, standing_of
from builder.pipeline.changing.record_files import create_new
from builder.pipeline.checking.book_check import check_book
from builder.planning.car.open_readings import each_once, open_readings
from builder.planning.plan import Plan, ProofReading
from builder.planning.work_pack import BayTest
from builder.rendering.pages.job_tests import reading_tests
from builder.rendering.sheet_text import SheetHead, empty_sheet


class EmptySheet(NamedTuple):
    """A sheet that is not written yet."""

    path: Path
    text: str
    lines: int


def sheet_for(book: Book, name: str, converter: str | None, path: Path | None) -> EmptySheet:
    """Return the empty sheet of the job or vehicle that `name` means.

    Of a vehicle it asks for what the plan with `converter` asks for; without one, for all that its
    probe plans and the check wait for, or where nothing waits, for what all its plans ask for. Each
    reading stands once, those of one state together.

    Raises:
        NoSuchRecordError: nothing or several of the book are called so, or there is no such plan.
    """
    if any(file.name == ("job", name) for file in book.files()):
        head, tests = _of_job(packed(book, name))
    else:
        head, tests = _of_vehicle(book, name, converter)
    place = path or Path(f"bay-sheet-{head.job or head.vehicle}.yaml")
    return EmptySheet(
        place, empty_sheet(head, tests, schema_ref(place, "sheet", home_of(place))), len(tests)
    )


def write_sheet(sheet: EmptySheet) -> None:
    """Write an empty sheet; nothing is ever overwritten.

    Raises:
        FileExistsError: there is a file of that name.
        OSError: it cannot be written.
    """
    create_new(sheet.path, sheet.text)


def _of_job(made: MadePack) -> tuple[SheetHead, tuple[BayTest, ...]]:
    job = made.parts.job
    head = SheetHead(
        f"{job.title}, {made.parts.vehicle.title}",
        job.vehicle,
        job.id,
        None,
        made.digest,
        job.car,
    )
    return head, made.pack.tests or reading_tests(made.pack.plan.tests)


def _of_vehicle(
    book: Book, name: str, converter: str | None
) -> tuple[SheetHead, tuple[BayTest, ...]]:
    _, vehicle = vehicle_meant(book, name)
    standing = standing_of(check_book(book, jobs=()), vehicle.id)
    plans = [_plan(standing, converter)] if converter else _plans(standing)
    readings = [reading for plan in plans for reading in plan.tests]
    if not converter:
        readings = [*_waiting_for(standing), *readings]
    sum_today = standing.sum_of(None, converter)
    head = SheetHead(_title(vehicle, converter), vehicle.id, None, converter, sum_today, None)
    return head, reading_tests(each_once(readings))


def _title(vehicle: Vehicle, converter: str | None) -> str:
    return f"{vehicle.title} with {converter}" if converter else vehicle.title


def _plan(standing: Standing, converter: str) -> Plan:
    if converter not in standing.plans:
        there = ", ".join(standing.plans) or "none"
        raise NoSuchRecordError(f'there is no plan with "{converter}"; there are: {there}')
    return standing.plans[converter]


def _plans(standing: Standing) -> list[Plan]:
    every = list(standing.plans.values())
    probes = [plan for plan in every if plan.kind == "probe_plan"]
    return probes or ([] if _waiting_for(standing) else every)


def _waiting_for(standing: Standing) -> tuple[ProofReading, ...]:
    """What the check waits for: readings of pins of which a finding says that nobody knows yet."""
    found = standing.checked.findings_of(standing.read.file.shown)
    paths = [f.path for f in found if f.says == NOT_YET_KNOWN and f.severity is not Severity.NOTE]
    return open_readings(standing.vehicle, paths, standing.checked.shelf.defaults)
