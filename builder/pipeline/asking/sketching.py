"""`loombook plan` with amplifiers and no job: one is sketched, and decided like a written one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from builder.book import Book, RecordFile
from builder.findings import Finding
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.pipeline.asking.answering import NoSuchRecordError, part_named, vehicle_meant
from builder.pipeline.asking.packs import MadePack
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.deciding import barred_paths
from builder.pipeline.checking.jobs import decide_job, job_parts
from builder.pipeline.checking.own_fault import own_words
from builder.pipeline.checking.privacy import records_of
from builder.pipeline.checking.records import ReadRecord
from builder.planning.feeds.tap_plan import Treatment
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
        CannotSketchError: the amplifiers cannot do what the treatment asks.
    """
    checked = check_book(book)
    read, vehicle = vehicle_meant(book, asked.vehicle)
    findings = checked.findings_of(read.file.shown)
    try:
        sketch = _sketch(checked.shelf, vehicle, findings, asked)
        parts = job_parts(sketch.job, checked.shelf, vehicle)
        assert parts is not None  # every name in it was looked up
        decided = decide_job(_unwritten(sketch.job), parts, findings)
    except (NoSuchRecordError, CannotSketchError):
        raise
    except Exception as error:
        raise CannotSketchError(own_words(error)) from error
    pack = replace(decided.pack, assumed=sketch.assumed)
    private = book.any_private(records_of(sketch.job))
    return MadePack(parts, pack, decided.findings, {}, private=private)


def _sketch(shelf: Shelf, vehicle: Vehicle, findings: Sequence[Finding], asked: Asked) -> Sketch:
    return sketch_job(
        vehicle,
        part_named(shelf.converters, "converter", asked.converter),
        [part_named(shelf.amplifiers, "amplifier", name) for name in asked.amplifiers],
        list(shelf.cables.values()),
        defaults=shelf.defaults,
        treatment=asked.treatment,
        barred=barred_paths(findings),
    )


def _unwritten(job: Job) -> ReadRecord:
    """The sketch in the place of a read file: its findings stand at the top of no file."""
    file = RecordFile("job", Path(f"{SKETCH}.yaml"), "(no job is written)")
    nowhere = SourceMap(Node(Position(1, 1)))
    return ReadRecord(file, job, {}, nowhere, [], "")
