"""`find` and `show`: one book, one question."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from builder.book import Book, RecordFile
from builder.finder.entries import Entry
from builder.finder.forgiven import ReadAs, said_of
from builder.finder.parts import Part, fitting
from builder.finder.search import MOST_VEHICLES, Answer, reply, sisters_of
from builder.findings import DataPath, Finding
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.book_parts import book_parts
from builder.pipeline.answers.kept_entries import finder_entries
from builder.pipeline.answers.unread import Unread, grave, unread_records, unread_words
from builder.pipeline.answers.which_car import WhichCar, sisters_between
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.every_vehicle import vehicles
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.checking.shelf import counting_shelf
from builder.proof.pin_proof import PinProof, prove
from builder.rendering.spoken_against import spoken_against
from builder.reporting import finding_data
from builder.speller import nearest


class NoSuchRecordError(Exception):
    """No record of that name, or several; the message lists what could be meant."""


class RefusedRecordError(NoSuchRecordError):
    """The record is there and cannot be used; `findings` say why, the gravest first."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        self.findings = grave(findings)
        first = self.findings[0]
        mends = f"\n  help: {first.help}" if first.help else ""
        super().__init__(f"{first.place}: {first.rule_id}: {first.message}{mends}")


@dataclass(frozen=True, slots=True)
class Found:
    """The answers to a question, what was forgiven to find them, and why there are none."""

    question: str
    answers: tuple[Answer, ...]
    which: WhichCar | None  # when several records of the best answer's model fit
    read_as: tuple[ReadAs, ...] = ()
    missed: str = ""
    parts: tuple[Part, ...] = ()  # that were named, or alone fit
    planned: tuple[Part, ...] = ()  # converters whose plans are asked for
    unread: tuple[Unread, ...] = ()  # records that may be meant and cannot be read

    def plans(self) -> Iterator[tuple[Entry, Part]]:
        """Yield each vehicle that answers with each converter whose plan with it is asked for."""
        for answer in self.answers:
            for part in self.planned:
                if part.has_plan_with(answer.entry):
                    yield answer.entry, part

    def as_data(self) -> dict[str, Any]:
        """The answers as plain data."""
        return {
            "question": self.question,
            "read_as": [{"said": one.said, "as": list(one.words)} for one in self.read_as],
            "missed": self.missed,
            "which_car": self.which.as_data() if self.which else None,
            "plans": [{"vehicle": car.id, "converter": part.id} for car, part in self.plans()],
            "parts": [part._asdict() for part in self.parts],
            "unread": [
                {
                    "kind": one.kind,
                    "id": one.id,
                    "findings": [finding_data(each) for each in one.findings],
                }
                for one in self.unread
            ],
            "answers": [
                {
                    "vehicle": answer.entry.id,
                    "title": answer.entry.title,
                    "private": answer.entry.private,
                    "no_switched": answer.entry.no_switched,
                    "notes": list(answer.notes),
                    "rows": [row._asdict() for row in answer.rows],
                }
                for answer in self.answers
            ],
        }


def answers(book: Book, question: str) -> Found:
    """Return what the book answers to a question: of its vehicles, and of parts that it names."""
    parts, entries = book_parts(book), finder_entries(book)
    found = reply(question, entries, renamed_vehicles(book), parts)
    fit = () if found.parts or found.answers else fitting(question, parts)
    which, shown = _which(entries, found.answers), found.answers[:MOST_VEHICLES]
    unread = _unread(book, question, entries, parts, not (found.answers or found.parts or fit))
    missed = "" if fit else _why_missed(found.missed, unread)
    named = found.parts or fit
    return Found(question, shown, which, found.read_as, missed, named, found.planned, unread)


def _unread(
    book: Book, question: str, entries: Iterable[Entry], parts: Iterable[Part], forgiving: bool
) -> tuple[Unread, ...]:
    known = {*(each.id for each in entries), *(part.id for part in parts)}
    return unread_records(book, question, renamed_vehicles(book), known, forgiving)


def _why_missed(missed: str, unread: Sequence[Unread]) -> str:
    """Why no vehicle answers: that nothing is called so cannot be said where a record may be."""
    return (unread_words(unread) or missed) if missed else ""


def renamed_vehicles(book: Book) -> dict[str, str]:
    """Return the ids of today of the vehicles that have old ones, by the old id."""
    return {was: now for (kind, was), now in book.renamed.items() if kind == "vehicle"}


def _which(entries: Sequence[Entry], found: Sequence[Answer]) -> WhichCar | None:
    """The questions between the answers of one model; made for the whole model, as on the page."""
    ids = sisters_of(found)
    if len(ids) < 2:
        return None
    model = (found[0].entry.make, found[0].entry.model)
    group = sisters_between([e for e in entries if (e.make, e.model) == model])
    return WhichCar(tuple(e for e in entries if e.id in ids), group)


@dataclass(frozen=True, slots=True)
class DescribedVehicle:
    """One vehicle with its grades and findings."""

    vehicle: Vehicle
    data: dict[str, Any]
    proofs: dict[DataPath, PinProof]
    findings: tuple[Finding, ...]
    private: bool = False
    borrowed: str = ""  # from where it comes when a borrowed book keeps it, as a sentence

    def as_data(self) -> dict[str, Any]:
        """The record as typed, and what was computed of it, apart."""
        return {
            "private": self.private,
            **({"borrowed": self.borrowed} if self.borrowed else {}),
            "record": self.data,
            "computed": {
                "grades": grades_data(self.vehicle, self.proofs),
                "spoken_against": spoken_against(self.vehicle, self.proofs),
                "findings": [finding_data(finding) for finding in self.findings],
            },
        }


def grades_data(vehicle: Vehicle, proofs: dict[DataPath, PinProof]) -> list[dict[str, Any]]:
    """The grade of each pin as plain data."""
    return [
        {
            "plug": plug.id,
            "cavity": pin.cavity,
            "function": pin.function,
            "grade": proofs[pin.path].band,
            "score": round(proofs[pin.path].score, 4),
            "why": proofs[pin.path].why,
            "raise_by": proofs[pin.path].raise_by,
        }
        for plug in vehicle.plugs
        for pin in plug.pins
    ]


def described_vehicle(book: Book, name: str) -> DescribedVehicle:
    """Return the vehicle that a name or question means.

    Raises:
        NoSuchRecordError: none or several fit, or its file does not pass the schema.
    """
    read, vehicle = vehicle_meant(book, name)
    return _described(check_book(book, jobs=(), about=(read.file.path,)), read, vehicle)


def described_of(checked: CheckedBook, name: str) -> DescribedVehicle:
    """The same of a book that is checked; it raises what `described_vehicle` raises."""
    return _described(checked, *vehicle_meant(checked.book, name))


def _described(checked: CheckedBook, read: ReadRecord, vehicle: Vehicle) -> DescribedVehicle:
    book = checked.book
    findings = tuple(checked.findings_of(read.file.shown))
    proofs = prove(vehicle, book.defaults, checked.shelf.housings)
    return DescribedVehicle(
        vehicle, read.data, proofs, findings, read.file.is_private, book.borrowed_words(read.file)
    )


def vehicle_meant(book: Book, name: str) -> tuple[ReadRecord, Vehicle]:
    """Return the vehicle that a name, a part of only one name, or a question means.

    Raises:
        NoSuchRecordError: none or several fit, or its file does not pass the schema.
    """
    files = [f for f in book.files() if f.kind == "vehicle" and not f.is_template]
    file = _file_named(name, files) or _file_meant(book, name)
    read = as_counted(read_record(file), counting_shelf(book))
    if not isinstance(read.record, Vehicle):
        raise RefusedRecordError(read.findings)
    return read, read.record


def refuse_unread_car(book: Book, name: str, entries: Sequence[Entry]) -> None:
    """Say so where a name that no entry answers may mean a car whose record cannot be read.

    Raises:
        RefusedRecordError: it may.
    """
    unread = _unread(book, name, entries, book_parts(book), True)
    if cars := [one for one in unread if one.kind == "vehicle"]:
        raise RefusedRecordError([each for one in cars for each in one.findings])


def _file_named(name: str, files: list[RecordFile]) -> RecordFile | None:
    exact = [file for file in files if file.path.stem == name]
    partly = [file for file in files if name in file.path.stem]
    fitting = exact or partly
    return fitting[0] if len(fitting) == 1 else None


def _file_meant(book: Book, name: str) -> RecordFile:
    """The file of the only vehicle a question fits as it stands: nothing is forgiven here, since
    what follows is read and joined as that car's.
    """
    entries = finder_entries(book)
    asked = reply(name, entries, renamed_vehicles(book))
    found = [answer.entry.id for answer in asked.answers[:MOST_VEHICLES]]
    if found and asked.read_as:
        raise NoSuchRecordError(
            f'no vehicle is called "{name}"; {said_of(asked.read_as)} Type: {" or ".join(found)}'
        )
    for read, vehicle in vehicles(book):
        if [vehicle.id] == found:
            return read.file
    if found:
        raise NoSuchRecordError(f'"{name}" could be any of: {", ".join(found)}')
    refuse_unread_car(book, name, entries)
    near = nearest(name, (vehicle.id for _, vehicle in vehicles(book)))
    meant = f'did you mean "{near}"?' if near else asked.missed
    raise NoSuchRecordError(f'no vehicle is called "{name}": {meant} Try: loombook find {name}')
