"""Which files are records of a book, and what one of them is.

The kind of a record is the folder it stands in: `vehicles/<make>/…`, `housings/`, and so on.
`TEMPLATE.yaml` files are checked like records but are not part of the book.
"""

from __future__ import annotations

import os
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from builder.visible_names import visible_name

if TYPE_CHECKING:
    from builder.loading import Taken
from builder.model.words import RecordKind, Visibility

FOLDERS: dict[str, RecordKind] = {
    "vehicles": "vehicle",
    "housings": "housing",
    "converters": "converter",
    "amplifiers": "amplifier",
    "cables": "cable",
    "looms": "loom",
    "interfaces": "interface",
    "contributors": "contributor",
    "jobs": "job",
    "visits": "visit",
}
FOLDER_OF = {kind: folder for folder, kind in FOLDERS.items()}
"""The folder that the records of a kind stand in."""
TEMPLATE = "TEMPLATE"

_SUFFIXES = (".yaml", ".yml")
_BEGUN = ".begun.json"

Name = tuple[RecordKind, str]
"""A record by its kind and id."""


class Root(NamedTuple):
    """A folder that holds record folders, and who may see what stands in it.

    `lender` is the name of the borrowed book that it is of, "" for none.
    """

    folder: Path
    visibility: Visibility
    lender: str = ""


@dataclass(frozen=True, slots=True)
class RecordFile:
    """One record file as it was when its book was opened.

    It says its kind, where it is, how it is named in reports, and holds its bytes: whoever asks
    what is in it is answered from them, whatever has been saved since. `replaces` is the id of the
    shared record that this private one stands in for, "" for none. `renamed` is what old names that
    it may use are called today. `begun` is what was taken of the file beside a job that holds the
    records it was begun with, None where there is none. `lender` is the name of the borrowed book
    that it is of, "" for none. `visits` are the files of what was measured on a vehicle's cars.
    """

    kind: RecordKind
    path: Path
    shown: str
    visibility: Visibility = "shared"
    replaces: str = ""
    taken: Taken | None = field(default=None, compare=False, repr=False)
    renamed: Mapping[Name, str] = field(default_factory=dict, compare=False, repr=False)
    begun: Taken | None = field(default=None, compare=False, repr=False)
    lender: str = ""
    visits: tuple[RecordFile, ...] = field(default=(), compare=False, repr=False)

    def __reduce__(self) -> tuple[object, ...]:
        """Travel between processes without the bytes: a worker has them, its caller too."""
        said = (self.kind, self.path, self.shown, self.visibility, self.replaces)
        return RecordFile, (*said, None, {}, None, self.lender)

    @property
    def content(self) -> Taken:
        """What was taken of the file.

        Raises:
            RuntimeError: nothing was. Reading it now could answer with a newer save than the one
                that was checked, so nobody does.
        """
        if self.taken is None:
            raise RuntimeError(f"{self.shown} was never taken into a snapshot")
        return self.taken

    @property
    def is_template(self) -> bool:
        """Whether it is a commented example and not a record of the book."""
        return self.stem == TEMPLATE

    @property
    def stem(self) -> str:
        """The file's name without its suffix; asked some times of each of ten thousand."""
        return self.path.name.rpartition(".")[0]

    @property
    def is_private(self) -> bool:
        """Whether it stays out of what is published."""
        return self.visibility == "private"

    @property
    def rank(self) -> int:
        """What it may stand in for: a private record for any other, an own one for a borrowed."""
        return 2 if self.is_private else 0 if self.lender else 1

    @property
    def name(self) -> Name:
        """Its kind, and its id as far as the file's name says it."""
        return (self.kind, self.stem)

    def with_content(self, taken: Taken, begun: Taken | None) -> RecordFile:
        """The same file with what was taken of it and of what stands beside it."""
        said = (self.kind, self.path, self.shown, self.visibility, self.replaces)
        return RecordFile(*said, taken, self.renamed, begun, self.lender, self.visits)

    def with_visits(self, visits: tuple[RecordFile, ...]) -> RecordFile:
        """The same file with these visits."""
        said = (self.kind, self.path, self.shown, self.visibility, self.replaces)
        return RecordFile(*said, self.taken, self.renamed, self.begun, self.lender, visits)


def shown_path(path: Path, resolved: Path | None = None) -> str:
    """How a path is printed: relative to where the command runs, with forward slashes.

    What stands elsewhere is printed as it was named, without steps forth and back. What nobody can
    see in a name is written out, so that no name starts a line or colours a terminal. `resolved`
    is where the path leads, for who knows.
    """
    try:
        return visible_name((resolved or path.resolve()).relative_to(Path.cwd()).as_posix())
    except ValueError:
        return visible_name(Path(os.path.normpath(path)).as_posix())


def listed_files(
    roots: Sequence[Root], public: bool, kinds: Container[RecordKind] = frozenset(FOLDER_OF)
) -> list[RecordFile]:
    """Return every record file under the roots, not read, in an order that no disk decides.

    Templates are among them, and so are shared records that private ones stand in for. With
    `public` the private roots are left out, and nothing that stands in them is looked at. Only the
    folders of these `kinds` are looked into.
    """
    private = [root.folder.resolve() for root in roots if root.visibility == "private"]
    found: dict[Path, RecordFile] = {}
    for root in roots:
        if not (public and root.visibility == "private"):
            for file in _walk(root, kinds):
                place = file.path.resolve() if len(roots) > 1 else file.path
                if root.visibility == "private" or not _within(place, private):
                    found.setdefault(place, file)
    return sorted(found.values(), key=lambda file: file.kind)  # a stable sort keeps root order


def _walk(root: Root, kinds: Container[RecordKind]) -> Iterator[RecordFile]:
    """Yield what is called like a record: a dead link or a folder of that name is one to mend."""
    for folder, kind in FOLDERS.items():
        if kind not in kinds:
            continue
        top = root.folder / folder
        found = _named_like_records(_Folder(top, shown_path(top, top.resolve())))
        for _, path, shown in sorted(found, key=lambda one: one[0]):
            yield RecordFile(kind, path, shown, root.visibility, lender=root.lender)


class _Folder(NamedTuple):
    """A folder to look into, and how it is printed."""

    path: Path
    shown: str

    def shown_with(self, name: str) -> str:
        """How is printed what stands in it by this name and is no link."""
        visible = visible_name(name)
        return visible if self.shown == "." else f"{self.shown}/{visible}"


def _named_like_records(at: _Folder) -> Iterator[tuple[str, Path, str]]:
    """Yield each path in a folder and below, no link followed: for sorting, and how it is printed.

    How a path is printed is asked of the first folder alone: below it, what is no link stands where
    its name says.
    """
    try:
        with os.scandir(at.path) as found:
            entries = [*found]
    except OSError:
        return
    for entry in entries:
        name = entry.name
        if name.endswith(_SUFFIXES) and name not in _SUFFIXES:
            path = at.path / name
            shown = shown_path(path) if entry.is_symlink() else at.shown_with(name)
            yield path.as_posix(), path, shown
        if entry.is_dir(follow_symlinks=False):
            yield from _named_like_records(_Folder(at.path / name, at.shown_with(name)))


def begun_path(path: Path) -> Path:
    """Where the records that a job was begun with stand: beside the job's file, and no record."""
    return path.with_name(f"{path.stem}{_BEGUN}")


def is_begun_name(path: Path) -> bool:
    """Whether a file of that name could stand beside a job."""
    return path.name.endswith(_BEGUN)


def is_record_name(path: Path) -> bool:
    """Whether a file of that name would be a record."""
    return path.suffix in _SUFFIXES


def _within(place: Path, folders: Iterable[Path]) -> bool:
    return any(place.is_relative_to(folder) for folder in folders)
