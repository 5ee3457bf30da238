"""A book: a folder of records and the settings in its `book.yaml`.

The kind of a record is the folder it stands in: `vehicles/<make>/…`, `housings/`, and so on.
`TEMPLATE.yaml` files are checked like records but are not part of the book.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from builder.findings import Finding
from builder.loading import load_file
from builder.model.house_defaults import HouseDefaults
from builder.schema_check import check_shape

FOLDERS = {
    "vehicles": "vehicle",
    "housings": "housing",
    "converters": "converter",
    "amplifiers": "amplifier",
    "cables": "cable",
    "jobs": "job",
}
SETTINGS_FILE = "book.yaml"
TEMPLATE = "TEMPLATE"


class BookNotFoundError(Exception):
    """The folder does not hold a book; the message says what to type."""


@dataclass(frozen=True, slots=True)
class RecordFile:
    """One record file: its kind, where it is, and how it is named in reports."""

    kind: str
    path: Path
    shown: str

    @property
    def is_template(self) -> bool:
        """Whether it is a commented example and not a record of the book."""
        return self.path.stem == TEMPLATE


@dataclass(frozen=True, slots=True)
class Book:
    """A folder of records with its settings."""

    folder: Path
    site_name: str
    roots: tuple[Path, ...]
    defaults: HouseDefaults
    findings: tuple[Finding, ...]  # about the settings file itself

    def files(self) -> list[RecordFile]:
        """Every record file, templates included, in an order that does not depend on the disk."""
        found = [file for root in self.roots for file in _record_files(root, self.folder)]
        return sorted(found, key=lambda file: (file.kind, file.shown))


def open_book(folder: Path) -> Book:
    """Return the book in `folder`, which need not have a settings file.

    Raises:
        BookNotFoundError: there is no such folder, or it has none of the record folders.
    """
    if not folder.is_dir():
        raise BookNotFoundError(f"there is no folder {folder}")
    settings, findings = _settings(folder)
    roots = tuple(folder / root for root in settings.get("roots", ["."]))
    if not any((root / name).is_dir() for root in roots for name in FOLDERS):
        raise BookNotFoundError(
            f"{folder} holds no book: it needs a folder named one of {', '.join(FOLDERS)}"
        )
    return Book(
        folder=folder,
        site_name=settings.get("site_name", "loombook"),
        roots=roots,
        defaults=replace(HouseDefaults(), **settings.get("house_defaults", {})),
        findings=tuple(findings),
    )


def _settings(folder: Path) -> tuple[dict[str, Any], list[Finding]]:
    path = folder / SETTINGS_FILE
    if not path.is_file():
        return {}, []
    shown = shown_path(path)
    loaded = load_file(path, shown)
    if loaded.data is None:
        return {}, loaded.findings
    findings = check_shape("book", loaded.data, loaded.source_map, shown)
    return ({} if findings else loaded.data), loaded.findings + findings


def shown_path(path: Path) -> str:
    """How a path is printed: relative to where the command runs, with forward slashes."""
    try:
        return path.resolve().relative_to(Path.cwd()).as_posix()
    except ValueError:
        return path.as_posix()


def _record_files(root: Path, book_folder: Path) -> Iterator[RecordFile]:
    for folder, kind in FOLDERS.items():
        for path in (root / folder).rglob("*.y*ml"):
            if path.suffix in {".yaml", ".yml"} and path.is_file():
                yield RecordFile(kind, path, shown_path(path))
