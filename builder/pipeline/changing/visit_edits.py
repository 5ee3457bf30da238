"""`visit withdraw` and `visit turn`: what is added to a visit, of which nothing is ever deleted."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

from builder.book import Book, RecordFile, shown_path
from builder.editing import UneditableError, insert_item
from builder.editing.splicing import insert_key
from builder.findings import Finding
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit
from builder.pipeline.answers.answering import NoSuchRecordError, vehicle_meant
from builder.pipeline.answers.visit_changes import Change, changed, standing_of
from builder.pipeline.changing.mending import text_faults
from builder.pipeline.changing.record_files import replace_text, text_of
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.records import read_record

_ANY_DAY = "9999-12-31"


class CannotEditVisitError(Exception):
    """Nothing was written; the message says why, and what to do."""


class EditedVisit(NamedTuple):
    """A visit's file and its texts, what changes by it, and what is found since."""

    file: RecordFile
    old: str
    new: str
    change: Change
    findings: tuple[Finding, ...]


def withdrawn(book: Book, path: Path, because: str, day: str) -> EditedVisit:
    """Return a visit that counts no longer; nothing is written.

    Raises:
        CannotEditVisitError: there is no such visit, or it cannot be withdrawn.
    """
    file, visit = _visit_at(book, path, day)
    said = {"date": day, "because": because}
    return tried_edit(book, file, visit, lambda text: _withdrawn(text, said))


def set_aside(book: Book, path: Path, place: str, because: str, day: str) -> EditedVisit:
    """Return the vehicle with what a visit read at one place set aside; nothing is written.

    The rest of the visit counts as before. `place` is plug and cavity as the vehicle has them,
    `because` the reading that decided.

    Raises:
        CannotEditVisitError: there is no such visit, or it read nothing there.
    """
    _, visit = _visit_at(book, path, day)
    file, car = vehicle_of(book, visit)
    names = _sessions_at(car, visit, place)
    if not names:
        raise CannotEditVisitError(f"this visit read nothing at {place}: type a place as A.7")
    said = {"pin": place, "by": visit.by, "date": day, "deciding": because, "retires": names}
    add = partial(insert_item, path=("resolutions",), item=said, kind="vehicle")
    return tried_edit(book, file, visit, add)


def vehicle_of(book: Book, visit: Visit) -> tuple[RecordFile, Vehicle]:
    """Return the file of the vehicle of a visit, and it with all its visits.

    Raises:
        CannotEditVisitError: it cannot be read, or another book keeps it.
    """
    try:
        read, car = vehicle_meant(book, visit.vehicle)
    except NoSuchRecordError as error:
        raise CannotEditVisitError(str(error)) from error
    if book.lender_of(read.file.path) is not None:
        raise CannotEditVisitError(f"{read.file.shown} belongs to a shared book: do it there")
    return read.file, car


def _sessions_at(car: Vehicle, visit: Visit, place: str) -> list[str]:
    """What a visit's sessions that read at a place are called in the vehicle."""
    own = {(name, one.by, one.date) for one in visit.sessions for name in _names(visit, one.id)}
    mine = {one.id for one in car.sessions if (one.id, one.by, one.date) in own}
    pins = [p for plug in car.plugs for p in plug.pins if f"{plug.id}.{p.cavity}" == place]
    read = dict.fromkeys(reading.session for pin in pins for reading in pin.readings)
    return [name for name in read if name in mine]


def _names(visit: Visit, session: str) -> tuple[str, str]:
    return session, f"{visit.id}-{session}"


def turned(book: Book, path: Path, plugs: Sequence[str], because: str, day: str) -> EditedVisit:
    """Return a visit whose cavities, in these plugs or in all, are those of the other face.

    Raises:
        CannotEditVisitError: there is no such visit, or it did not measure in one of the plugs.
    """
    file, visit = _visit_at(book, path, day)
    measured = {place.plug for place in visit.places if place.plug}
    if stray := [plug for plug in plugs if plug not in measured]:
        there = ", ".join(sorted(measured)) or "none"
        raise CannotEditVisitError(f"this visit read nothing in plug {stray[0]}; it did in {there}")
    said: dict[str, Any] = {"date": day}
    said |= {"plugs": list(dict.fromkeys(plugs))} if plugs else {}
    said |= {"because": because} if because else {}
    add = partial(insert_item, path=("turned",), item=said, kind="visit")
    return tried_edit(book, file, visit, add)


def write_edited(edited: EditedVisit) -> None:
    """Write it in one step.

    Raises:
        ChangedMeanwhileError: somebody changed the file meanwhile.
        OSError: it cannot be written.
    """
    replace_text(edited.file.path, edited.old, edited.new)


def _visit_at(book: Book, path: Path, day: str) -> tuple[RecordFile, Visit]:
    file = _file_at(book, path)
    visit = read_record(file).record
    if not isinstance(visit, Visit):
        raise CannotEditVisitError(f"{file.shown} cannot be read: loombook check says why")
    if book.lender_of(file.path) is not None:
        raise CannotEditVisitError(f"{file.shown} belongs to a shared book: do it there")
    if visit.withdrawn is not None:
        raise CannotEditVisitError(f"{file.shown} was withdrawn on {visit.withdrawn.date} already")
    if day < visit.date:
        raise CannotEditVisitError(f"{day} is before the day of the visit, {visit.date}")
    return file, visit


def open_visit(book: Book, path: Path) -> tuple[RecordFile, Visit]:
    """Return a visit that something may be added to: of this book, and not withdrawn.

    Raises:
        CannotEditVisitError: there is no such visit.
    """
    return _visit_at(book, path, _ANY_DAY)


def _file_at(book: Book, path: Path) -> RecordFile:
    """The visit that a path, its id, or a part of only one id names."""
    visits = [each for each in book.files() if each.kind == "visit" and not each.is_template]
    found = [file for file in visits if file.path.resolve() == path.resolve()]
    found = found or [file for file in visits if file.path.stem == str(path)]
    found = found or [file for file in visits if str(path) in file.path.stem]
    if len(found) > 1:
        named = ", ".join(file.path.stem for file in found)
        raise CannotEditVisitError(f'"{path}" could be any of: {named}')
    if len(found) != 1:
        where = shown_path(book.folder)
        raise CannotEditVisitError(f"{shown_path(path)} is no visit of the book in {where}")
    return found[0]


def _withdrawn(text: str, said: dict[str, Any]) -> str:
    return insert_key(text, (), "withdrawn", said, "visit")


def _added(file: RecordFile, add: Callable[[str], str]) -> str:
    try:
        return add(text_of(file))
    except UneditableError as error:
        raise CannotEditVisitError(f"{file.shown}: {error}") from error


def tried_edit(
    book: Book, file: RecordFile, visit: Visit, add: Callable[[str], str]
) -> EditedVisit:
    """Return an edit with what it changes for the vehicle, tried in a copy of the book.

    Raises:
        CannotEditVisitError: the text has no place for it, or could not be read with it.
    """
    new = _added(file, add)
    if broken := text_faults(file, new):
        raise CannotEditVisitError(f"{broken[0].message}: {broken[0].help}")
    checked, after = check_book(book), check_book(book.with_texts({file.path: new}))
    old = text_of(file)
    known = {(f.file, f.rule_id, f.message) for f in checked.findings}
    since = [f for f in after.findings if (f.file, f.rule_id, f.message) not in known]
    return EditedVisit(file, old, new, _change(checked, after, visit.vehicle), tuple(since))


def _change(before: CheckedBook, after: CheckedBook, vehicle: str) -> Change:
    try:
        return changed(standing_of(before, vehicle), standing_of(after, vehicle), "")
    except KeyError:  # the visit is of a vehicle that cannot be read
        return Change()
