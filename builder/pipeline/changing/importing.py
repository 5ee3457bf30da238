"""`import`: a filled table to a vehicle record, tried in the book before it is written."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from builder.book import OLD_NAME, Book, home_of, shown_path
from builder.data_files import schema_ref
from builder.editing import UneditableError, write_record
from builder.editing.tabular import Imported, Place, from_tables, rows_of
from builder.editing.tabular.faults import SEVERITY, SLUG
from builder.findings import Finding
from builder.loading import FileTooLargeError, load_text, read_bounded
from builder.model.references import Reference
from builder.pipeline.changing.creating import place_of_new
from builder.pipeline.changing.record_files import create_new, read_text, replace_text, text_of
from builder.pipeline.changing.trial_book import trial_findings
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.old_names import OldName, old_names, with_new_names
from builder.pipeline.checking.shape import shape_of
from builder.spreadsheets import MOST_BYTES, RefusedFileError, address, read_tables, too_large

QUARRELS = frozenset({"EVD104", "PIN109"})
"""Rules about two who say different things of a pin or of a car: what one says in a table is
still written, since the next measurement settles it."""


@dataclass(frozen=True, slots=True)
class ImportedRecord:
    """What came of a table. `text` is the record, "" when the table does not stand for one.

    `held` says whether a finding keeps it from being written. `old` is the text it would replace.
    """

    path: Path | None
    text: str
    data: dict[str, Any]
    findings: tuple[Finding, ...]
    held: bool
    old: str | None = None


def import_table(
    book: Book, file: Path, replacing: bool = False, as_is: bool = False
) -> ImportedRecord:
    """Return the record that a table stands for, checked among the others; nothing is written.

    Args:
        book: The book it would go into.
        file: The .xlsx or .csv file.
        replacing: Whether a record of that name may be replaced.
        as_is: Whether findings of the rules are to be left for the record.
    Raises:
        OSError: the file cannot be read.
    """
    shown = shown_path(file)
    try:
        sheets = read_tables(_table_bytes(file), file.name)
    except RefusedFileError as error:
        return _refused([_of_file(error, shown)])
    table = from_tables(sheets)
    findings = [_finding(shown, f.place, f.code, f.message, f.help) for f in table.faults]
    if _failing(findings):
        return _refused(findings)
    return _with_record(book, table, shown, findings, replacing, as_is)


def _table_bytes(file: Path) -> bytes:
    try:
        return read_bounded(file, MOST_BYTES)
    except FileTooLargeError as error:
        raise too_large() from error


def _refused(findings: list[Finding]) -> ImportedRecord:
    return ImportedRecord(None, "", {}, tuple(findings), held=True)


def _failing(findings: Iterable[Finding]) -> bool:
    return any(finding.fails_check for finding in findings)


def _finding(shown: str, place: Place, code: str, message: str, help: str) -> Finding:
    cell = address(place.row, place.column, place.sheet)
    where = (place.row, place.column, SEVERITY[code])
    return Finding(shown, *where, code, SLUG[code], message, help, cell=cell)


def _of_file(error: RefusedFileError, shown: str) -> Finding:
    code = "TAB102" if error.unsafe else "TAB101"
    found = _finding(shown, Place("", 1, 1), code, f"{shown} {error}", error.help)
    return replace(found, cell=error.place)


def _with_record(
    book: Book, table: Imported, shown: str, notes: list[Finding], replacing: bool, as_is: bool
) -> ImportedRecord:
    try:
        text, found = _written(table.data, shown)
    except UneditableError as error:
        return _refused([*notes, _finding(shown, table.first, "TAB108", str(error), "retype it")])
    misshapen = [_placed(finding, table, shown) for finding in found]
    if misshapen:
        return _refused([*notes, *misshapen])
    data, told = _with_new_names(book, table.data)
    notes = [*notes, *(_old_name(one, table, shown) for one in told)]
    path = place_of_new(book, "vehicle", data)
    text = write_record(data, "vehicle", schema_ref=schema_ref(path, "vehicle", home_of(path)))
    old = _old_text(book, path)
    if old is not None:
        notes = [*notes, *_about_old(old, path, table, shown, replacing)]
    ruled = [_placed(finding, table, shown) for finding in _findings(book, path, text)]
    held = _failing(notes) or (not as_is and any(map(_holds_back, ruled)))
    return ImportedRecord(path, text, data, (*notes, *ruled), held, old)


def _with_new_names(book: Book, data: dict[str, Any]) -> tuple[dict[str, Any], list[OldName]]:
    """The data with today's names in the places of old ones, its own too, and what was old."""
    told = [*old_names("vehicle", data, book.renamed)]
    if now := book.renamed.get(("vehicle", data["id"])):
        told.append(OldName(Reference(("id",), "vehicle", data["id"]), now))
    return with_new_names(data, told), told


def _old_name(one: OldName, table: Imported, shown: str) -> Finding:
    fault = one.fault
    said = (OLD_NAME.severity, OLD_NAME.id, OLD_NAME.slug, fault.message, "the record has it so")
    return _placed(Finding(shown, 1, 1, *said, fault.path), table, shown)


def _old_text(book: Book, path: Path) -> str | None:
    """What stands where the record would go: as the book was opened, if it is one of its files."""
    file = next((file for file in book.every_file() if file.path == path), None)
    if file is not None:
        return text_of(file)
    return read_text(path) if path.exists() else None


def _written(data: dict[str, Any], shown: str) -> tuple[str, list[Finding]]:
    """The record's text, and what is wrong with its shape."""
    text = write_record(data, "vehicle")
    loaded = load_text(text.encode("utf-8"), shown)
    if loaded.findings:
        return text, list(loaded.findings)
    return text, shape_of("vehicle", loaded, shown).findings


def _findings(book: Book, path: Path, text: str) -> list[Finding]:
    return trial_findings(book, {path: text}, check_book).get(path, [])


def _placed(finding: Finding, table: Imported, shown: str) -> Finding:
    """A finding of the record, at the cell that what it is about came from."""
    place = table.place_of(finding.path)
    cell = address(place.row, place.column, place.sheet)
    return replace(finding, file=shown, line=place.row, column=place.column, cell=cell, fix=None)


def _holds_back(finding: Finding) -> bool:
    return finding.fails_check and finding.rule_id not in QUARRELS


def _about_old(
    old: str, path: Path, table: Imported, shown: str, replacing: bool
) -> Iterable[Finding]:
    place = table.place_of(("id",))
    if not replacing:
        help = (
            "to add readings to it: loombook evidence add; for another car: give the table another "
            "id; to put this table in its place: --replace"
        )
        yield _finding(shown, place, "TAB113", f"{shown_path(path)} is there already", help)
        return
    lost = _lost_of(old)
    if lost:
        what = f"{shown_path(path)} loses what no table holds: {', '.join(lost)}"
        yield _finding(shown, place, "TAB114", what, "type it into the new record")


def _lost_of(old: str) -> list[str]:
    """What the old record holds and no table does; nothing of one that cannot be read."""
    loaded = load_text(old.encode("utf-8"), "")
    shape = shape_of("vehicle", loaded, "")
    return rows_of(shape.data).lost if shape.data and not shape.fails else []


def write_imported(record: ImportedRecord) -> None:
    """Write an imported record: a new file, or in the place of the one that it was to replace.

    Raises:
        FileExistsError: somebody made the file meanwhile.
        ChangedMeanwhileError: somebody changed the file meanwhile.
        OSError: it cannot be written; what was there is left as it was.
    """
    assert record.path is not None and not record.held
    if record.old is None:
        create_new(record.path, record.text)
    else:
        replace_text(record.path, record.old, record.text)
