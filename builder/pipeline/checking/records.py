"""One record file, all the way from bytes to the typed model."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, NamedTuple

from builder.book import OLD_NAME, Name, RecordFile
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity
from builder.loading import Loaded, Refusal, Taken, load_taken
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import RecordKind
from builder.parsing import Record, parse_record
from builder.pipeline.checking.asked import counts_of
from builder.pipeline.checking.old_names import old_names_in, with_new_names
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.photos import with_photos
from builder.pipeline.checking.read_text import ReadRecord
from builder.pipeline.checking.reserved_ids import RESERVED_ID, reserved_id
from builder.pipeline.checking.shape import by_hand, shape_of
from builder.pipeline.checking.visits import findings_of_visits, joined
from builder.proof.contributors import with_counts
from builder.proof.faces.turning import turned
from builder.proof.recorded_sound import with_recorded_sound
from builder.source_map import Node, Position, SourceMap
from builder.visible_names import visible_name

__all__ = ["ID_NOT_FILE_NAME", "REPLACES_NOTHING", "ReadRecord", "as_counted", "read_record"]

ID_NOT_FILE_NAME = CatalogueEntry(
    id="BOK101",
    slug="id-not-file-name",
    title="The id of a record is not its file name",
    severity=Severity.FIX,
    what="A record whose `id` differs from the name of its file without `.yaml`.",
    why="People look a record up by its file and by its id; two names for one car are one too "
    "many, and a link made from the id would lead nowhere.",
    example="file: quern-2016.yaml\nid: quern-2017   # should be quern-2016",
    fix="Rename the file or correct the id, so that both are the same.",
)

REPLACES_NOTHING = CatalogueEntry(
    id="BOK103",
    slug="replaces-nothing",
    title="A record that replaces nothing",
    severity=Severity.FIX,
    what="A record whose `replaces` names no record of its kind that it may stand in for: a "
    "private one for a shared or borrowed one, a shared one for one of a borrowed book.",
    why="Whoever wrote it believes that another record is out of the book. It is not.",
    example="# private/housings/two-row-20.yaml\nreplaces: {id: two-rows-20, reason: latch redrawn}"
    "   # two-row-20",
    fix="Correct the id, or delete the line. To change a shared record, edit the shared record.",
)


_KEPT = 256
"""Records remembered: more than a shop has done, and some 50 MB at most."""


@dataclass(frozen=True, slots=True)
class _Content:
    """What a reading depends on: where a file stands, what was taken of it, the old names."""

    file: RecordFile
    digest: str
    refusal: Refusal | None
    renamed: frozenset[tuple[Name, str]]


def read_record(file: RecordFile) -> ReadRecord:
    """Check the shape of and parse what was taken of one file; the disk is not looked at.

    The same content is parsed once, however many ask, and wherever it stands. Never raises for
    what a file contains.
    """
    taken = file.content
    content = _Content(file, taken.digest, taken.refusal, frozenset(file.renamed.items()))
    try:
        read = _read_once(content)
        return replace(read, file=file, findings=[*read.findings])
    except Exception as error:
        nowhere = SourceMap(Node(Position(1, 1)))
        return ReadRecord(file, None, {}, nowhere, [own_fault(file.shown, error)], "")


@dataclass(frozen=True, slots=True)
class _Text:
    """A text as a record of a kind, wherever it stands; told from others by its digest."""

    kind: RecordKind
    digest: str
    refusal: Refusal | None
    taken: Taken = field(compare=False, repr=False)


class _Understood(NamedTuple):
    """What a text says, written out. The findings name no file; those that fail leave no record."""

    loaded: Loaded
    data: dict[str, Any] | None
    findings: tuple[Finding, ...]
    record: Record | None


@lru_cache(_KEPT)
def _understood(text: _Text) -> _Understood:
    """Parse a text, wherever it stands.

    Two books that are compared, and a book and the copy in which a change is tried, hold mostly
    the same texts.
    """
    loaded = load_taken(text.taken, "")
    shape = shape_of(text.kind, loaded, "")
    record = None if shape.fails or not shape.data else parse_record(text.kind, shape.data)
    return _Understood(loaded, shape.data, tuple(shape.findings), record)


@lru_cache(_KEPT)
def _read_once(content: _Content) -> ReadRecord:
    file = content.file
    text = _Text(file.kind, content.digest, content.refusal, file.content)
    loaded, data, found, record = _understood(text)
    findings = [replace(one, file=file.shown) for one in by_hand(list(found), file.is_template)]
    told = old_names_in(file, data) if data and record is not None else ()
    data = with_new_names(data, told) if told else data
    record = parse_record(file.kind, data) if told and data else record
    read = ReadRecord(file, record, data or {}, loaded.source_map, findings, loaded.digest)
    findings += (
        read.locate(one.fault, OLD_NAME.id, OLD_NAME.slug, OLD_NAME.severity) for one in told
    )
    if record is not None and not file.is_template and record.id != file.path.stem:
        findings.append(_wrong_id(read, record.id))
    if record is not None and (fault := reserved_id(file.kind, record.id)):
        findings.append(read.locate(fault, RESERVED_ID.id, RESERVED_ID.slug, RESERVED_ID.severity))
    said = record is not None and not file.is_template and "replaces" in read.data
    if said and not file.replaces:
        findings.append(_replaces_nothing(read))
    return read


def as_counted(read: ReadRecord, shelf: Shelf) -> ReadRecord:
    """Return a record that was read as its book counts it: with its visits, on the face of each
    plug, and by whom.

    Whoever grades, plans or shows a vehicle reads it through here; `shelf` has the shells and the
    contributors of the book. Other records come back as they are.
    """
    if read.elsewhere or read.file.kind != "vehicle":
        return read  # other kinds, and what was counted already
    visits = [read_record(file) for file in read.file.visits]
    if not isinstance(read.record, Vehicle):
        found = [*read.findings, *findings_of_visits(visits, read.file.path.stem)]
        return replace(read, findings=found) if visits else read
    try:
        return _counted(read, read.record, visits, shelf)
    except Exception as error:
        found = [*read.findings, own_fault(read.file.shown, error)]
        return replace(read, record=None, findings=found)


def _counted(
    read: ReadRecord, vehicle: Vehicle, visits: list[ReadRecord], shelf: Shelf
) -> ReadRecord:
    if visits:
        read = joined(read, vehicle, visits, shelf.housings)
    given = read.record
    assert isinstance(given, Vehicle)
    counted = with_counts(given, counts_of(shelf, given.handles))
    counted = counted if visits else turned(counted, shelf.housings)
    counted = with_photos(counted, shelf, read.file)
    counted = with_recorded_sound(counted)
    return read if counted is vehicle else replace(read, record=counted)


def _wrong_id(read: ReadRecord, record_id: str) -> Finding:
    path: DataPath = ("id",)
    stem = visible_name(read.file.path.stem)
    fault = Fault(
        path,
        f'id "{record_id}" is not the file name "{stem}"',
        f"type id: {stem}, or rename the file to {record_id}.yaml",
    )
    entry = ID_NOT_FILE_NAME
    return read.locate(fault, entry.id, entry.slug, entry.severity)


def _replaces_nothing(read: ReadRecord) -> Finding:
    name, entry = read.data["replaces"]["id"], REPLACES_NOTHING
    if read.file.is_private:
        message = f'there is no shared {read.file.kind} "{name}" to replace'
        help_text = "correct the id, or delete the line"
    else:
        message = f'a shared record replaces only one of a borrowed book, and "{name}" is none'
        help_text = "delete the line, or move this file to a private folder of the book"
    fault = Fault(("replaces", "id"), message, help_text)
    return read.locate(fault, entry.id, entry.slug, entry.severity)
