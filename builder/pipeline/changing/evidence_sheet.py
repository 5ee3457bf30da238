"""A bay sheet read from its file, and the records of the book that it is about."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, NamedTuple

from builder.book import Book, RecordFile, shown_path
from builder.book.record_files import Name
from builder.editing.evidence_catalogue import NO_SUCH_RECORD, NOTHING_FILLED, PHOTO_REFUSED
from builder.findings import CatalogueEntry, Fault, Finding
from builder.model.job import Job
from builder.model.sheet import Sheet
from builder.model.words import RecordKind
from builder.parsing.sheet import parse_sheet
from builder.pipeline.changing.evidence_files import (
    BayFile,
    NoSheetError,
    PhotoRefusedError,
    bay_file,
)
from builder.pipeline.checking.old_names import old_names, with_new_names
from builder.pipeline.checking.records import read_record
from builder.schema_check import check_shape
from builder.source_map import SourceMap
from builder.speller import nearest

_LISTS = ("readings", "results")


class SheetRefusedError(Exception):
    """A sheet that cannot be added; `findings` say where and why."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__("; ".join(finding.message for finding in findings))
        self.findings = findings


class LoadedSheet(NamedTuple):
    """A sheet that has the right shape, and where its parts stand."""

    sheet: Sheet
    source_map: SourceMap
    shown: str
    pictures: Mapping[str, bytes] = MappingProxyType({})  # without metadata, by name

    def finding(self, entry: CatalogueEntry, fault: Fault) -> Finding:
        """Return the finding for a fault of the sheet, with its place in the file."""
        place = self.source_map.value_position(fault.path)
        return Finding(
            self.shown, place.line, place.column, entry.severity, entry.id, entry.slug,
            fault.message, fault.help, fault.path,
        )  # fmt: skip


def load_sheet(path: Path, renamed: Mapping[Name, str]) -> LoadedSheet:
    """Return the sheet in a file; `renamed` is what old names in it are called today.

    A sheet may be older than a record's name, and no file of a book: nobody has to mend it.

    Raises:
        SheetRefusedError: it cannot be read, has not the shape of a sheet, or is empty.
    """
    try:
        bay = bay_file(path)
    except NoSheetError as error:
        raise SheetRefusedError((_no_sheet(path, error),)) from error
    file, shown = bay.loaded, bay.shown
    findings, filled = list(file.findings), _filled(file.data)
    if file.data is not None and not findings:
        findings = check_shape("sheet", filled, file.source_map, shown)
    if file.data is None or findings:
        raise SheetRefusedError(tuple(findings))
    data = with_new_names(filled, old_names("sheet", filled, renamed))
    loaded = LoadedSheet(parse_sheet(data), file.source_map, shown)
    sheet = loaded.sheet
    if sheet.is_empty:
        fault = Fault((), "the sheet holds no reading and no result", NOTHING_FILLED.fix)
        raise SheetRefusedError((loaded.finding(NOTHING_FILLED, fault),))
    return loaded._replace(pictures=_photos(loaded, bay))


def _filled(data: Any) -> Any:
    """A sheet without the lists of which every line was left as it was written, behind a #."""
    if not isinstance(data, dict):
        return data
    return {key: of for key, of in data.items() if of is not None or key not in _LISTS}


def _no_sheet(path: Path, error: NoSheetError) -> Finding:
    entry = NOTHING_FILLED
    return Finding(
        shown_path(path), 1, 1, entry.severity, entry.id, entry.slug, str(error),
        "add the .zip as the phone saved it, or the sheet in it by itself",
    )  # fmt: skip


def _photos(loaded: LoadedSheet, bay: BayFile) -> dict[str, bytes]:
    """The photos that the notes name; those that cannot be kept refuse the sheet."""
    found, findings = dict[str, bytes](), list[Finding]()
    for note in loaded.sheet.notes:
        if (name := note.facts.get("photo")) is None:
            continue
        try:
            found[name] = bay.photo(name)
        except PhotoRefusedError as error:
            fault = Fault((*note.path, "photo"), str(error), PHOTO_REFUSED.fix)
            findings.append(loaded.finding(PHOTO_REFUSED, fault))
    if findings:
        raise SheetRefusedError(tuple(findings))
    return found


def record_files_of(book: Book, loaded: LoadedSheet) -> tuple[RecordFile, RecordFile | None]:
    """Return the files of the vehicle and the job that a sheet names.

    Raises:
        SheetRefusedError: the book has no such record, it is not in order, or the job is about
            another vehicle.
    """
    files = {file.name: file for file in reversed(book.files()) if not file.is_template}
    names: list[tuple[RecordKind, str]] = [("vehicle", loaded.sheet.vehicle)]
    names += [("job", loaded.sheet.job)] if loaded.sheet.job else []
    missing = [name for name in names if name not in files]
    if missing:
        raise SheetRefusedError(tuple(_no_such_record(loaded, *name, files) for name in missing))
    found = [files[name] for name in names]
    for file in found:
        if read_record(file).record is None:
            raise SheetRefusedError(tuple(read_record(file).findings))
    car, job = found[0], found[1] if found[1:] else None
    _same_car(loaded, job)
    return car, job


def _no_such_record(
    loaded: LoadedSheet, kind: RecordKind, name: str, files: Iterable[Name]
) -> Finding:
    near = nearest(name, [stem for of_kind, stem in files if of_kind == kind])
    help_text = f"did you mean {near}?" if near else "name the book with --book"
    return loaded.finding(
        NO_SUCH_RECORD, Fault((kind,), f'the book has no {kind} "{name}"', help_text)
    )


def _same_car(loaded: LoadedSheet, job_file: RecordFile | None) -> None:
    job = read_record(job_file).record if job_file else None
    if isinstance(job, Job) and job.vehicle != loaded.sheet.vehicle:
        message = f'the job "{job.id}" is about {job.vehicle}, not {loaded.sheet.vehicle}'
        fault = Fault(("job",), message, f"type vehicle: {job.vehicle}, or name another job")
        raise SheetRefusedError((loaded.finding(NO_SUCH_RECORD, fault),))
