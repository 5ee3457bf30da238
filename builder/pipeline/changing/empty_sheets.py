"""`new bay-sheet`: an empty sheet of a job, or of the plans of a vehicle."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from builder.book import Book, home_of
from builder.data_files import schema_ref
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import NoSuchRecordError, vehicle_meant
from builder.pipeline.answers.packs import MadePack, packed
from builder.pipeline.answers.visit_changes import Standing, standing_of
from builder.pipeline.changing.record_files import create_new
from builder.pipeline.checking.book_check import check_book
from builder.planning.plan import Plan
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

    Of a vehicle it asks for what the plan with `converter` asks for; without one, for what all
    its probe plans ask for, or all its plans where none waits for a reading.

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
    readings = dict.fromkeys(reading for plan in plans for reading in plan.tests)
    sum_today = standing.sum_of(None, converter)
    head = SheetHead(_title(vehicle, converter), vehicle.id, None, converter, sum_today, None)
    return head, reading_tests(tuple(readings))


def _title(vehicle: Vehicle, converter: str | None) -> str:
    return f"{vehicle.title} with {converter}" if converter else vehicle.title


def _plan(standing: Standing, converter: str) -> Plan:
    if converter not in standing.plans:
        there = ", ".join(standing.plans) or "none"
        raise NoSuchRecordError(f'there is no plan with "{converter}"; there are: {there}')
    return standing.plans[converter]


def _plans(standing: Standing) -> list[Plan]:
    every = list(standing.plans.values())
    return [plan for plan in every if plan.kind == "probe_plan"] or every
