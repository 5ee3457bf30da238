"""The settings of a book: its name, its roots, its house defaults, where reports go."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from builder.book.locked import NO_LOCK, Lock, Standing, read_lock
from builder.book.record_files import FOLDERS, Root, shown_path
from builder.book.recording_leads import LEAD_UNFIT, unfit_leads
from builder.book.settings_files import (
    BookNotFoundError,
    holds_settings,
    lent_from,
    settings_file,
)
from builder.declaring import read
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity
from builder.loading import empty_file, load_taken, take_file
from builder.model.house_defaults import HouseDefaults
from builder.model.recording_lead import RecordingLead
from builder.model.settings import BookSettings, Renaming
from builder.schema_check import check_shape
from builder.source_map import SourceMap
from builder.visible_names import visible_name

ROOT_MISSING = CatalogueEntry(
    id="BOK104",
    slug="root-missing",
    title="A folder of records that is not there",
    severity=Severity.STOP,
    what="An entry of `roots` that is no folder. A missing private folder is only warned of: a "
    "copy of the book that is public does not have it.",
    why="A misspelt folder would silently take every record in it out of the book.",
    example="roots:\n  - {path: ../sharde/pinouts, visibility: shared}   # ../shared/pinouts",
    fix="Correct the path, which counts from the folder that the settings stand in, or fetch the "
    "shared book to that place.",
)

_NO_SETTINGS = empty_file("settings", 'type "schema: 1"; all else may be left out.')


@dataclass(frozen=True, slots=True)
class Settings:
    """What a settings file says, with what it leaves out filled in."""

    site_name: str
    roots: tuple[Root, ...]
    defaults: HouseDefaults
    report_address: str
    findings: tuple[Finding, ...]
    site_address: str = ""
    data_licence: str = ""
    state: str = ""  # the digest of the file, or why it has none
    lock: Lock = NO_LOCK  # the books of others that it builds on
    renamings: tuple[Renaming, ...] = ()  # the lines of its table of old names
    leads: tuple[RecordingLead, ...] = ()  # what the shop records pairs with
    shown: str = ""
    places: SourceMap | None = None  # of the file; None without one

    def finding(self, fault: Fault, entry: CatalogueEntry) -> Finding:
        """Return the finding for a fault of the settings, with its place in the file."""
        line, column = self.places.value_position(fault.path) if self.places else (1, 1)
        said = (fault.message, fault.help, fault.path)
        return Finding(self.shown, line, column, entry.severity, entry.id, entry.slug, *said)


def lent_renamings(folder: Path, roots: Sequence[Root]) -> list[Renaming]:
    """Return the lines that the settings of the books around these roots have on old names.

    `folder` holds the book that draws on them. What is wrong with the settings of another book is
    said when that one is checked; here they then rename nothing.
    """
    return [one for place in lent_from(folder, roots) for one in _renamings_of(place)]


def _renamings_of(folder: Path) -> list[Renaming]:
    try:
        return list(read_settings(folder).renamings)
    except BookNotFoundError:
        return []


def home_of(record: Path) -> Path:
    """The folder of the book that a record file stands in, which need not be there yet.

    The nearest folder above it with settings; without any, the one that its record folder is in.
    """
    above = record.resolve().parents
    told = (folder for folder in above if holds_settings(folder))
    kept = (folder.parent for folder in above if folder.name in FOLDERS)
    return next(told, None) or next(kept, record.resolve().parent)


def read_settings(folder: Path, instead: Mapping[str, Path] = MappingProxyType({})) -> Settings:
    """Return the settings of the book in `folder`, with the roots of the books it borrows.

    It need not have a file of settings. `instead` are folders to read borrowed books in, by name.
    """
    settings, lock = _own_settings(folder), read_lock(folder, instead)
    books = [_with_terms(each) for each in lock.books]
    borrowed = (root for each in books for root in _roots_in(each))
    return replace(
        settings,
        roots=(*settings.roots, *borrowed),
        findings=(*settings.findings, *lock.findings),
        lock=replace(lock, books=tuple(books)),
        state=" ".join([settings.state, *(each.book.sum for each in lock.books)]).strip(),
    )


def _with_terms(borrowed: Standing) -> Standing:
    try:
        said = _own_settings(borrowed.place / borrowed.book.folder).data_licence
    except BookNotFoundError:
        return borrowed
    return borrowed._replace(data_licence=said)


def _roots_in(borrowed: Standing) -> Iterator[Root]:
    """The shared roots of a borrowed book that stand in it; what it borrows itself is not read."""
    try:
        roots = _own_settings(borrowed.place / borrowed.book.folder).roots
    except BookNotFoundError:  # it has two files of settings, and nobody can say which counts
        return
    inside = borrowed.place.resolve()
    for root in roots:
        if root.visibility == "shared" and root.folder.resolve().is_relative_to(inside):
            yield root._replace(lender=borrowed.book.name)


def _own_settings(folder: Path) -> Settings:
    file = settings_file(folder)
    if file is None:
        return _settings(folder, {}, (), "", None)
    shown = shown_path(file)
    taken = take_file(file)
    loaded = load_taken(taken, shown, _NO_SETTINGS)
    findings = list(loaded.findings)
    if loaded.data is not None:
        findings += check_shape("book", loaded.data, loaded.source_map, shown)
    data = {} if findings else loaded.data or {}
    settings = _settings(folder, data, tuple(findings), shown, loaded.source_map)
    return replace(settings, state=taken.state)


def _settings(
    folder: Path,
    data: dict[str, Any],
    findings: tuple[Finding, ...],
    shown: str,
    places: SourceMap | None,
) -> Settings:
    said = read(BookSettings, data)
    roots = tuple(Root(folder / one.folder, one.visibility) for one in said.roots)
    missing = _missing_roots(roots, shown, places) if places is not None else ()
    made = Settings(
        said.site_name,
        roots,
        said.house_defaults,
        said.report_address,
        (*findings, *missing),
        said.site_address,
        said.data_licence,
        renamings=said.renamed,
        leads=said.recording_leads,
        shown=shown,
        places=places,
    )
    unfit = (made.finding(fault, LEAD_UNFIT) for fault in unfit_leads(made.leads))
    return replace(made, findings=(*made.findings, *unfit))


def _missing_roots(roots: Sequence[Root], shown: str, places: SourceMap) -> Iterator[Finding]:
    for index, root in enumerate(roots):
        if not root.folder.is_dir():
            yield _missing(root, ("roots", index), shown, places)


def _missing(root: Root, path: DataPath, shown: str, places: SourceMap) -> Finding:
    line, column = places.value_position(path)
    private = root.visibility == "private"
    return Finding(
        shown,
        line,
        column,
        Severity.WARN if private else ROOT_MISSING.severity,
        ROOT_MISSING.id,
        ROOT_MISSING.slug,
        f"there is no folder {visible_name(root.folder.as_posix())}",
        "make it, or correct the path" if private else "correct the path, or fetch what it names",
        path,
    )
