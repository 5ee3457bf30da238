"""Which files are records of a book, and which of them stand in the place of another.

The kind of a record is the folder it stands in: `vehicles/<make>/…`, `housings/`, and so on.
`TEMPLATE.yaml` files are checked like records but are not part of the book.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal, NamedTuple

from builder.loading import LARGEST_FILE_BYTES, load_file, read_bounded

FOLDERS = {
    "vehicles": "vehicle",
    "housings": "housing",
    "converters": "converter",
    "amplifiers": "amplifier",
    "cables": "cable",
    "jobs": "job",
}
TEMPLATE = "TEMPLATE"
_REPLACES = b"replaces"

Visibility = Literal["shared", "private"]
Name = tuple[str, str]
"""A record by its kind and id."""


class Root(NamedTuple):
    """A folder that holds record folders, and who may see what stands in it."""

    folder: Path
    visibility: Visibility


@dataclass(frozen=True, slots=True)
class RecordFile:
    """One record file: its kind, where it is, and how it is named in reports.

    `replaces` is the id of the shared record that this private one stands in for, "" for none.
    """

    kind: str
    path: Path
    shown: str
    visibility: Visibility = "shared"
    replaces: str = ""

    @property
    def is_template(self) -> bool:
        """Whether it is a commented example and not a record of the book."""
        return self.path.stem == TEMPLATE

    @property
    def is_private(self) -> bool:
        """Whether it stays out of what is published."""
        return self.visibility == "private"

    @property
    def name(self) -> Name:
        """Its kind, and its id as far as the file's name says it."""
        return (self.kind, self.path.stem)


def shown_path(path: Path) -> str:
    """How a path is printed: relative to where the command runs, with forward slashes.

    What stands elsewhere is printed as it was named, without steps forth and back.
    """
    try:
        return path.resolve().relative_to(Path.cwd()).as_posix()
    except ValueError:
        return Path(os.path.normpath(path)).as_posix()


def files_of(roots: Sequence[Root], public: bool) -> list[RecordFile]:
    """Return the record files of a book, templates included, in an order that no disk decides.

    A shared record in whose place a private one stands is left out. With `public` the private
    roots are left out instead, and nothing of what stands in them is read.
    """
    files = every_file_of(roots, public)
    return _with_replacements(files) if any(file.is_private for file in files) else files


def every_file_of(roots: Sequence[Root], public: bool) -> list[RecordFile]:
    """Return the same with the shared records that private ones stand in for."""
    private = [root.folder.resolve() for root in roots if root.visibility == "private"]
    found: dict[Path, RecordFile] = {}
    for root in roots:
        if not (public and root.visibility == "private"):
            for file in _walk(root):
                place = file.path.resolve() if len(roots) > 1 else file.path
                if root.visibility == "private" or not _within(place, private):
                    found.setdefault(place, file)
    return sorted(found.values(), key=lambda file: file.kind)  # a stable sort keeps root order


def _walk(root: Root) -> Iterator[RecordFile]:
    for folder, kind in FOLDERS.items():
        paths = (path for path in (root.folder / folder).rglob("*.y*ml"))
        for path in sorted(paths, key=lambda path: path.as_posix()):
            if path.suffix in {".yaml", ".yml"} and path.is_file():
                yield RecordFile(kind, path, shown_path(path), root.visibility)


def _within(place: Path, folders: Iterable[Path]) -> bool:
    return any(place.is_relative_to(folder) for folder in folders)


def _with_replacements(files: Sequence[RecordFile]) -> list[RecordFile]:
    shared = {file.name for file in files if not file.is_private and not file.is_template}
    marked = [_replacing(file, shared) for file in files]
    gone = {(file.kind, file.replaces) for file in marked if file.replaces}
    return [file for file in marked if file.is_private or file.name not in gone]


def _replacing(file: RecordFile, shared: set[Name]) -> RecordFile:
    """The file with the id it replaces, when there is such a shared record."""
    if not file.is_private or file.is_template:
        return file
    try:
        says_so = _REPLACES in read_bounded(file.path, LARGEST_FILE_BYTES)
    except OSError:
        return file  # whoever reads the record reports it
    replaced = _replaced_id(load_file(file.path, file.shown).data) if says_so else ""
    return replace(file, replaces=replaced) if (file.kind, replaced) in shared else file


def _replaced_id(data: dict[str, Any] | None) -> str:
    said = (data or {}).get("replaces")
    name = said.get("id") if isinstance(said, dict) else None
    return name if isinstance(name, str) else ""
