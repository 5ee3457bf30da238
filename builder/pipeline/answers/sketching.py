"""`loombook plan` with amplifiers and no job: one is sketched, and decided like a written one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from builder.book import Book, RecordFile
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import NoSuchRecordError, vehicle_meant
from builder.pipeline.answers.packs import MadePack
from builder.pipeline.answers.planned import part_named
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.jobs import decide_job
from builder.pipeline.checking.own_fault import own_words
from builder.pipeline.checking.privacy import interfaces_for, records_of
from builder.pipeline.checking.records import ReadRecord
from builder.planning.feeds.tap_plan import Treatment
from builder.planning.job.make_pack import WouldDo, unasked
from builder.planning.job.sketch_job import SKETCH, CannotSketchError, Sketch, sketch_job
from builder.source_map import Node, Position, SourceMap


@dataclass(frozen=True, slots=True)
class Asked:
    """What a sketch is made from, as typed."""

    vehicle: str
    converter: str
    amplifiers: tuple[str, ...]
    treatment: Treatment = "auto"


def sketched(book: Book, asked: Asked) -> MadePack:
    """Return the pack of a job that nobody has written, its assumptions with it.

    Raises:
        NoSuchRecordError: the vehicle, the converter or an amplifier is not in the book.
        RefusedRecordError: it is, and cannot be used.
        CannotSketchError: the amplifiers cannot do what the treatment asks.
    """
    read, _ = vehicle_meant(book, asked.vehicle)
    return sketched_in(check_book(book, jobs=(), about=(read.file.path,)), asked)


def sketched_in(checked: CheckedBook, asked: Asked) -> MadePack:
    """The same in a book that is checked; it raises what `sketched` raises."""
    book = checked.book
    _, vehicle = vehicle_meant(book, asked.vehicle)
    try:
        made = sketched_of(checked, vehicle, asked)
    except (NoSuchRecordError, CannotSketchError):
        raise
    except Exception as error:
        raise CannotSketchError(own_words(error)) from error
    named = records_of(made.parts.job) | interfaces_for(vehicle, made.parts.shelf)
    return replace(made, private=book.any_private(named))


def sketched_of(checked: CheckedBook, vehicle: Vehicle, asked: Asked) -> MadePack:
    """Return the sketch for a vehicle of a checked book; it raises what `sketched` raises."""
    return _decided(checked.shelf, checked.gate(), vehicle, asked)


def _decided(
    shelf: Shelf,
    gate: Gate,
    vehicle: Vehicle,
    asked: Asked,
    would_do: WouldDo | None = None,
    *,
    ordered: bool = True,
) -> MadePack:
    """The sketch as the gate leaves it; another converter is tried by another sketch."""
    sketch = _sketch(shelf, gate, vehicle, asked)
    parts = job_parts(sketch.job, shelf, vehicle)
    assert parts is not None  # every name in it was looked up
    again = would_do or partial(_comes_to_tap_plan, shelf, gate, vehicle, asked)
    decided = decide_job(_unwritten(sketch.job), parts, gate, would_do=again, ordered=ordered)
    pack = replace(decided.pack, assumed=sketch.assumed)
    return MadePack(parts, pack, decided.findings, {})


def _comes_to_tap_plan(
    shelf: Shelf, gate: Gate, vehicle: Vehicle, asked: Asked, converter: Converter
) -> bool:
    other = replace(asked, converter=converter.id)
    try:
        return _decided(shelf, gate, vehicle, other, unasked, ordered=False).pack.kind == "tap_plan"
    except CannotSketchError:
        return False


def _sketch(shelf: Shelf, gate: Gate, vehicle: Vehicle, asked: Asked) -> Sketch:
    return sketch_job(
        vehicle,
        part_named(shelf.converters, "converter", asked.converter, gate),
        [part_named(shelf.amplifiers, "amplifier", name, gate) for name in asked.amplifiers],
        list(shelf.cables.values()),
        defaults=shelf.defaults,
        treatment=asked.treatment,
        barred=gate.bars(vehicle.id),
    )


def _unwritten(job: Job) -> ReadRecord:
    """The sketch in the place of a read file: its findings stand at the top of no file."""
    file = RecordFile("job", Path(f"{SKETCH}.yaml"), "(no job is written)")
    nowhere = SourceMap(Node(Position(1, 1)))
    return ReadRecord(file, job, {}, nowhere, [], "")
