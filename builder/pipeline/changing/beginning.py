"""`begin`: from here on the plan of a job stands, and what is joined is written down.

The records that the plan is made from go first, into a file beside the job; then the job's own
record. Whenever the power goes, the job is begun with that file, or not begun: a file that no
record counts on is nothing, and the next `begin` writes it anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from builder import __version__
from builder.book import Book, Name, RecordFile, begun_path
from builder.editing import UneditableError
from builder.editing.begun_text import with_begun
from builder.editing.writing import write_record
from builder.findings import Fault, Finding
from builder.loading import LARGEST_FILE_BYTES, Taken
from builder.model.job import AsBuilt, Begun, RecordUsed
from builder.model.references import references_in
from builder.model.words import CONTRIBUTOR
from builder.pipeline.answers.packs import MadePack, packed
from builder.pipeline.changing.mending import text_faults
from builder.pipeline.changing.record_files import create_new, replace_texts, text_of
from builder.pipeline.changing.stood_record import anything_later, stood_text
from builder.pipeline.checking.begun_findings import CANNOT_BEGIN
from builder.pipeline.checking.begun_inputs import pack_of_frozen
from builder.pipeline.checking.frozen import frozen_in, frozen_text, record_sum
from builder.pipeline.checking.records import as_counted, read_record
from builder.pipeline.checking.shelf import counting_shelf
from builder.planning.job.as_built import as_built_of
from builder.planning.work_pack import WorkPack
from builder.unfinished import undisturbed


class CannotBeginError(Exception):
    """A job cannot be begun; `finding` says why, and what to do."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


@dataclass(frozen=True, slots=True)
class BegunJob:
    """What beginning a job writes. `frozen` is the text of the file beside it, "" for none, and
    `why_not` then says why there is none."""

    file: RecordFile
    begun: Begun
    old: str
    new: str
    frozen: str
    why_not: str = ""


def begun_job(book: Book, name: str, by: str, day: str) -> BegunJob:
    """Return what beginning a job would write; nothing is written.

    An old job whose results say that it is joined is begun on the day of the first, and marked as
    reconstructed.

    Raises:
        NoSuchRecordError: there is no such job, or it names something that is not there.
        CannotBeginError: it is begun already, or has no tap plan, or would show what is private.
        UneditableError: its text has no place for it.
    """
    made = packed(book, name)
    file = next(f for f in book.files() if f.name == ("job", made.parts.job.id))
    _refuse(book, file, made)
    freezing = _freezing(book, file, made)
    as_built = as_built_of(made.planned, made.parts, freezing.records)
    assert as_built is not None  # a tap plan has a circuit
    begun = _begun(made, by, day, as_built)
    old = text_of(file)
    new = with_begun(old, begun)
    if broken := text_faults(file, new):
        raise CannotBeginError(broken[0])
    return BegunJob(file, begun, old, new, freezing.text, freezing.why_not)


class _Freezing(NamedTuple):
    """The records that a job is frozen with and their file's text; else why there is none."""

    records: tuple[RecordUsed, ...] = ()
    text: str = ""
    why_not: str = ""


def _freezing(book: Book, file: RecordFile, made: MadePack) -> _Freezing:
    """Return what the job is frozen with: only what gives the very pack that it has now."""
    try:
        files = list(_used_files(book, file, made))
    except UneditableError as error:
        return _Freezing(why_not=f"the car's record of that day cannot be written: {error}")
    if not files:
        return _Freezing(why_not="the book has no record of the car that can be read")
    text = frozen_text(files, book.defaults, made.parts.vehicle.counts_as)
    if len(text.encode("utf-8")) > LARGEST_FILE_BYTES:
        return _Freezing(why_not="the records are too large for one file")
    records = tuple(RecordUsed(kind=f.kind, id=f.path.stem, sum=record_sum(f)) for f in files)
    frozen = frozen_in(Taken(text.encode("utf-8")), records)
    again = frozen and pack_of_frozen(frozen, made.parts.job)
    if not again or _worked(again) != _worked(made.planned):
        return _Freezing(why_not=_OTHERWISE)
    return _Freezing(records, text)


def _worked(pack: WorkPack) -> tuple[object, ...]:
    """What a job is worked and undone by; which other converters would do is no part of it."""
    return pack.plan.feeds, pack.circuit, pack.tests, pack.steps, pack.revert


_OTHERWISE = (
    "what is known of the car on that day does not give this plan; it is that of today's record. "
    "Compare what is joined with the printed sheets, and type what differs into begun: as_built"
)


@undisturbed()
def write_begun(job: BegunJob) -> None:
    """Write the records that the job is begun with, then the job's own.

    Raises:
        ChangedMeanwhileError: somebody changed the job meanwhile; it is not begun.
        OSError: a file cannot be written; the job is not begun.
    """
    beside = begun_path(job.file.path)
    if job.frozen:
        beside.unlink(missing_ok=True)  # left behind by one that was killed: nobody counts on it
        create_new(beside, job.frozen)
    replace_texts([(job.file.path, job.old, job.new)])


def _begun(made: MadePack, by: str, day: str, as_built: AsBuilt) -> Begun:
    joined = made.standing.begun
    return Begun(
        by=by,
        date=joined or day,
        reconstructed=bool(joined),
        version=__version__,
        as_built=as_built,
    )


def _refuse(book: Book, file: RecordFile, made: MadePack) -> None:
    job, pack = made.parts.job, made.planned
    if job.begun is not None:
        told = f"this job was begun on {job.begun.date} by {job.begun.by} already"
        raise _error(file, told, "type what was joined otherwise into begun: as_built", "begun")
    if pack.kind != "tap_plan":
        why = pack.refusals[0] if pack.refusals else None
        told = "there is no tap plan to begin with" + (
            f": {why.decision}: {why.because}" if why else ""
        )
        raise _error(file, told, f"loombook plan {job.id} says what to do first", "id")
    if made.private and not file.is_private:
        told = "this job is shared, and is planned with a record that only this shop may see"
        raise _error(file, told, "move the job to a private folder of the book", "id")


def _error(file: RecordFile, told: str, help_text: str, key: str) -> CannotBeginError:
    entry, fault = CANNOT_BEGIN, Fault((key,), told, help_text)
    located = read_record(file).locate(fault, entry.id, entry.slug, entry.severity)
    return CannotBeginError(located)


def _used_files(book: Book, file: RecordFile, made: MadePack) -> Iterator[RecordFile]:
    """The files that the plan is made from, the job's first; none without a record of the car.

    The plan of an old job is made from the car as it stood: where something came later, its record
    is written without that.

    Raises:
        UneditableError: the record as it stood cannot be written.
    """
    known: dict[Name, RecordFile] = {f.name: f for f in book.files() if not f.is_template}
    car = known.get(("vehicle", made.parts.vehicle.id))
    if car is None or read_record(car).record is None:
        return
    known[car.name] = _as_it_stood(book, car, made.standing.begun)
    wanted: list[Name] = [
        file.name,
        car.name,
        *(name for name in known if name[0] == "interface"),
    ]
    yield from (known[name] for name in _closure(wanted, known) if name in known)


def _as_it_stood(book: Book, car: RecordFile, day: str) -> RecordFile:
    """The file of a car as it stood on a day, its visits in it; today's, where nothing came later
    or it has none, and it has no visits."""
    data = as_counted(read_record(car), counting_shelf(book)).data
    if day and anything_later(data, day):
        text = stood_text(data, day)
    elif car.visits:
        text = write_record(data, "vehicle")
    else:
        return car
    return replace(car, taken=Taken(text.encode("utf-8")), visits=())


def _closure(wanted: list[Name], known: dict[Name, RecordFile]) -> list[Name]:
    """These records and all that they name in turn, each once; of cars only the job's own."""
    found: dict[Name, None] = {}
    while wanted:
        name = wanted.pop(0)
        if name in found or name not in known:
            continue
        found[name] = None
        read = read_record(known[name])
        if read.record is not None:
            wanted += [
                (one.kind, one.name)
                for one in references_in(known[name].kind, read.data)
                if one.kind not in (CONTRIBUTOR, "vehicle", "job")
            ]
    return list(found)
