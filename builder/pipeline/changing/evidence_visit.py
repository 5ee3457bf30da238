"""What of a bay sheet is new to the records it is about, and their texts with it in them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from builder.book import Book, RecordFile
from builder.editing.evidence_catalogue import NO_SUCH_PLACE, NO_SUCH_TEST
from builder.editing.evidence_text import PlacedReading, with_old_notes, with_results
from builder.findings import Fault, Finding
from builder.model.sheet import Sheet
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.visit_changes import Standing
from builder.pipeline.changing.evidence_lines import with_read_lines
from builder.pipeline.changing.evidence_old_notes import new_old_notes, note_words
from builder.pipeline.changing.evidence_places import (
    Place,
    place_of,
    same_reading,
    sessions_of_day,
)
from builder.pipeline.changing.evidence_record import NewVisit, new_visit, place_numbers
from builder.pipeline.changing.evidence_sheet import LoadedSheet, SheetRefusedError
from builder.pipeline.changing.record_files import text_of
from builder.pipeline.checking.records import ReadRecord, read_record
from builder.proof.wording import reading_words
from builder.speller import nearest


class Edited(NamedTuple):
    """A record file and its text before and after; before is None where it is not there."""

    file: RecordFile
    old: str | None
    new: str


class NewReading(NamedTuple):
    """A reading that was added: where, and in words."""

    place: str
    words: str


@dataclass(frozen=True, slots=True)
class NewOfSheet:
    """What of a sheet is new to its records."""

    vehicle: ReadRecord
    job: ReadRecord | None
    record: NewVisit  # the file that its readings go to, where there are any
    readings: tuple[tuple[str, PlacedReading], ...]  # each with the name of its place
    results: tuple[dict[str, Any], ...]
    notes: tuple[dict[str, Any], ...]
    ticked: tuple[dict[str, Any], ...]
    there: int
    overtaken: tuple[str, ...]  # tests whose result is there, before one that counts in its place
    old_notes: tuple[tuple[str, PlacedReading], ...]

    @classmethod
    def of(
        cls, book: Book, loaded: LoadedSheet, before: Standing, job_file: RecordFile | None
    ) -> NewOfSheet:
        """Return what a sheet adds to a vehicle and a job of a book.

        Raises:
            SheetRefusedError: a line names a place or a test that is not there.
        """
        job = read_record(job_file) if job_file else None
        tests = before.tests_of(loaded.sheet.job)
        findings = [*_unknown_tests(loaded, frozenset(test.id for test in tests))]
        placed = []
        for place, facts in _placed(loaded, before.vehicle, findings):
            placed.append((place.name, PlacedReading(place.path, facts)))
        notes = [*new_old_notes(loaded, before.vehicle, before.read.data, findings)]
        if findings:
            raise SheetRefusedError(tuple(sorted(findings, key=Finding.sort_key)))
        sheet = with_read_lines(loaded.sheet, tests)
        return cls._of_new(book, sheet, before.read, job, placed, notes)

    @classmethod
    def _of_new(
        cls,
        book: Book,
        sheet: Sheet,
        vehicle: ReadRecord,
        job: ReadRecord | None,
        placed: list[tuple[str, PlacedReading]],
        old_notes: list[tuple[str, PlacedReading]],
    ) -> NewOfSheet:
        sessions = vehicle.data.get("sessions", [])
        known = sessions_of_day(sheet, sessions)
        new = [(n, p) for n, p in placed if not _held(vehicle.data, p, known, sheet.session)]
        record = new_visit(book, vehicle.file, vehicle.data, sheet, [p for _, p in new])
        results = _new_results(sheet, job.data if job else {})
        notes = _new_notes(sheet, job.data if job else {})
        there = len(placed) - len(new) + len(sheet.results) - len(results)
        ticked = _new_ticks(sheet, job.data if job else {})
        there += len(sheet.old_notes) - len(old_notes)
        there += len(sheet.notes) - len(notes) + len(sheet.ticked) - len(ticked)
        overtaken = _overtaken(sheet, job.data if job else {})
        return cls(
            vehicle, job, record, tuple(new), results, notes, ticked, there,
            overtaken, tuple(old_notes),
        )  # fmt: skip

    def edits(self) -> Iterator[Edited]:
        """The texts with what came: the visit's first, then the vehicle's, then the job's."""
        # Killed between two, the sheet is added again: what is there by then stays as it is.
        if self.readings:
            yield Edited(self.record.file, None, self.record.text)
        if self.old_notes:
            old = text_of(self.vehicle.file)
            yield Edited(
                self.vehicle.file, old, with_old_notes(old, [n for _, n in self.old_notes])
            )
        of_job = self.results, self.notes, self.ticked
        if any(of_job) and self.job is not None:
            old = text_of(self.job.file)
            yield Edited(self.job.file, old, with_results(old, *of_job))


def _placed(
    loaded: LoadedSheet, vehicle: Vehicle, findings: list[Finding]
) -> Iterator[tuple[Place, dict[str, Any]]]:
    """Yield each reading's place and facts; what names no place becomes a finding."""
    usual = loaded.sheet.session["against"]
    for reading in loaded.sheet.readings:
        place = place_of(vehicle, reading, loaded.sheet.session["car"].get("trim"))
        if isinstance(place, Fault):
            findings.append(loaded.finding(NO_SUCH_PLACE, place))
            continue
        facts = dict(reading.facts)
        if place.against is not None:
            facts["against"] = place.against
        if facts.get("against") == usual:
            del facts["against"]
        yield place, facts


def _unknown_tests(loaded: LoadedSheet, tests: frozenset[str]) -> Iterator[Finding]:
    for result in loaded.sheet.results:
        if tests and result.test not in tests:
            near = nearest(result.test, tests)
            help_text = f"did you mean {near}?" if near else NO_SUCH_TEST.fix
            message = f'the sheet of this job has no line "{result.test}"'
            fault = Fault((*result.path, "test"), message, help_text)
            yield loaded.finding(NO_SUCH_TEST, fault)


def _held(
    data: Mapping[str, Any], placed: PlacedReading, known: set[str], session: Mapping[str, Any]
) -> bool:
    """Whether the record has this reading from a session of the same person, day and car."""
    holder: Any = data
    for step in placed.path:
        holder = holder[step]
    return any(
        reading["session"] in known and same_reading(reading, placed.data, session["against"])
        for reading in holder.get("readings", ())
    )


def _new_results(sheet: Sheet, job: Mapping[str, Any]) -> tuple[dict[str, Any], ...]:
    held = job.get("results", [])
    return tuple(result for result in _as_held(sheet) if result not in held)


def _new_notes(sheet: Sheet, job: Mapping[str, Any]) -> tuple[dict[str, Any], ...]:
    held = job.get("notes", [])
    said = ({**note.facts, "by": sheet.by, "date": sheet.date} for note in sheet.notes)
    return tuple(note for note in said if note not in held)


def _new_ticks(sheet: Sheet, job: Mapping[str, Any]) -> tuple[dict[str, Any], ...]:
    """The ticks that say otherwise than the newest one of their step: a second phone sends what
    the first one ticked along with its own."""
    stand = {each["at"]: each["done"] for each in sorted(job.get("ticked", []), key=_day)}
    said = ({**tick.facts, "by": sheet.by, "date": sheet.date} for tick in sheet.ticked)
    return tuple(tick for tick in said if tick["done"] != stand.get(tick["at"], "no"))


def _day(item: Mapping[str, Any]) -> str:
    return str(item["date"])


def _as_held(sheet: Sheet) -> list[dict[str, Any]]:
    """The results of a sheet as a job holds them."""
    return [
        {"test": result.test, **result.facts, "by": sheet.by, "date": sheet.date}
        for result in sheet.results
    ]


def _overtaken(sheet: Sheet, job: Mapping[str, Any]) -> tuple[str, ...]:
    """Tests of which the job has the sheet's very result, and a later one of the same day.

    The sheet may have been added before, or the figure read again: nobody can tell from here.
    """
    held = job.get("results", [])
    newest = {each["test"]: each for each in held if each["date"] == sheet.date}
    return tuple(
        result["test"]
        for result in _as_held(sheet)
        if result in held and newest[result["test"]] != result
    )


def in_words(visit: NewOfSheet, after: Standing) -> tuple[NewReading, ...]:
    """Return the readings that a visit added, as the vehicle has them now."""
    vehicle, path = after.vehicle, visit.record.file.path
    pins = [pin for plug in vehicle.plugs for pin in plug.pins]
    read = [reading for pin in pins for reading in pin.readings]
    read += [reading for each in vehicle.fuse_positions for reading in each.readings]
    there = {
        way: one.own for way, one in after.read.elsewhere.items() if one.read.file.path == path
    }
    said = {there[one.path]: reading_words(one) for one in read if one.path in there}
    ways = place_numbers(placed for _, placed in visit.readings)
    return tuple(
        NewReading(name, said.get(way, ""))
        for (name, _), way in zip(visit.readings, ways, strict=True)
    )


def notes_in_words(visit: NewOfSheet) -> tuple[NewReading, ...]:
    """Return the old notes that a visit added."""
    return tuple(
        NewReading(name, f"old note, proves nothing: {note_words(note.data)}")
        for name, note in visit.old_notes
    )
