"""The files of a book as they were at one moment: listed once, each read once.

Checking, planning, pages and data work from a snapshot alone, so that what is shown is what was
checked, whatever is saved meanwhile. Whoever wants the newer state opens the book again.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from builder.book.linked_files import refused_links
from builder.book.newest_names import newest_names
from builder.book.record_files import (
    FOLDERS,
    Name,
    RecordFile,
    Root,
    begun_path,
    listed_files,
    shown_path,
)
from builder.loading import Taken, load_taken, take_file
from builder.model.settings import Renaming

_REPLACES = b"replaces"


@dataclass(frozen=True)
class Snapshot:
    """Every record file of a book with its bytes, in an order that no disk decides.

    `every` has the shared records too in whose place private ones stand; `files` has not.
    `renamings` are the lines of the book's tables of old names; of two for one name the later
    counts.
    """

    every: tuple[RecordFile, ...] = ()
    renamings: tuple[Renaming, ...] = ()

    @cached_property
    def files(self) -> tuple[RecordFile, ...]:
        """The records of the book, templates among them."""
        files = self.every
        if any(file.rank != 1 for file in files):
            files = tuple(_with_replacements(files, self.renamings))
        if self.renamed:
            files = tuple(replace(file, renamed=self.renamed) for file in files)
        return _with_visits(files, self.renamed)

    @cached_property
    def renamed(self) -> Mapping[Name, str]:
        """What old names of records and contributors are called today."""
        if not self.renamings:
            return {}
        names = {file.name for file in self.every if not file.is_template}
        return newest_names(self.renamings, names)

    @cached_property
    def digest(self) -> str:
        """SHA-256 over names and contents, in hexadecimal: another one means another state."""
        lines = (
            f"{file.kind} {file.path} {file.content.state} {file.begun and file.begun.state}\n"
            for file in self.every
        )
        return hashlib.sha256("".join(lines).encode("utf-8", "surrogateescape")).hexdigest()

    def without(self, paths: Collection[Path]) -> Snapshot:
        """The same state without some files. What a private one replaced does not come back."""
        kept = tuple(file for file in self.files if file.path not in paths)
        return Snapshot(kept, self.renamings)

    def with_texts(self, roots: Sequence[Root], texts: Mapping[Path, str]) -> Snapshot:
        """The same state with these texts in these files, new files among them."""
        there = {file.path for file in self.every}
        new = [_new_file(roots, path) for path in texts if path not in there]
        files = [
            replace(file, taken=Taken(texts[file.path].encode("utf-8")), replaces="")
            if file.path in texts
            else file
            for file in (*self.every, *new)
        ]
        return Snapshot(tuple(sorted(files, key=_place_in(roots))), self.renamings)

    def where_moved(self, paths: Collection[Path]) -> Snapshot | None:
        """The same state with what stands in these files now.

        None where one is not that of an own record that is there, was there, and is no link.
        """
        known = {file.path: file for file in self.every if file.path in paths}
        if len(known) < len(paths) or not all(map(_is_own_record, known.values())):
            return None
        if not known:
            return self
        files = (_taken_again(file) if file.path in known else file for file in self.every)
        return Snapshot(tuple(files), self.renamings)


NO_FILES = Snapshot()


def take_snapshot(
    roots: Sequence[Root],
    public: bool,
    known: Mapping[Path, Taken] | None = None,
    renamings: Sequence[Renaming] = (),
    take: Callable[[Path], Taken] = take_file,
) -> Snapshot:
    """List the record files under the roots and read each of them, once.

    `known` is what an older snapshot held: the bytes of a file that is as it was are kept only
    once. With `public` nothing of a private root is read.
    `renamings` are the lines of the book's tables of old names; `take` looks at a file.
    """
    held = known or {}
    files = listed_files(roots, public)
    refused = refused_links(files, roots, public)
    taken = {path: Taken(b"", why) for path, why in refused.items()}

    def looked(path: Path) -> Taken:
        found, before = taken.get(path) or take(path), held.get(path)
        return before if before is not None and before == found else found

    read = (file.with_content(looked(file.path), _begun(file)) for file in files)
    return Snapshot(tuple(read), tuple(renamings))


def _begun(file: RecordFile) -> Taken | None:
    """What stands beside a job of the records it was begun with; what is a link is not followed."""
    path = begun_path(file.path) if file.kind == "job" else None
    if path is None or path.is_symlink() or not path.is_file():
        return None
    return take_file(path)


def _is_own_record(file: RecordFile) -> bool:
    return not file.lender and file.path.is_file() and not file.path.is_symlink()


def _taken_again(file: RecordFile) -> RecordFile:
    now = take_file(file.path)
    return file if now == file.content else file.with_content(now, file.begun)


def _place_in(roots: Sequence[Root]) -> Callable[[RecordFile], tuple[str, int, str]]:
    """The order of a listing: by kind, then by the root that a file was found under."""

    def place(file: RecordFile) -> tuple[str, int, str]:
        return file.kind, roots.index(_root_of(roots, file.path)), file.path.as_posix()

    return place


def _new_file(roots: Sequence[Root], path: Path) -> RecordFile:
    root = _root_of(roots, path)
    kind = FOLDERS[path.relative_to(root.folder).parts[0]]
    return RecordFile(kind, path, shown_path(path), root.visibility, lender=root.lender)


def _root_of(roots: Sequence[Root], path: Path) -> Root:
    """The root under whose record folders a file stands; of roots in each other the inner."""
    holding = [root for root in roots if path.is_relative_to(root.folder)]
    holding = [r for r in holding if path.relative_to(r.folder).parts[0] in FOLDERS]
    return max(holding, key=lambda root: len(root.folder.parts))


def _with_replacements(
    files: Sequence[RecordFile], renamings: Sequence[Renaming]
) -> list[RecordFile]:
    """The files without those that others stand in for, and without copies of borrowed ones."""
    ranks: dict[Name, set[int]] = {}
    for file in files:
        if not file.is_template:
            ranks.setdefault(file.name, set()).add(file.rank)
    renamed = newest_names(renamings, {name for name, held in ranks.items() if min(held) < 2})
    marked = [_replacing(file, ranks, renamed) for file in files]
    standing = sorted((file for file in marked if file.replaces), key=lambda file: file.rank)
    gone = {(file.kind, file.replaces): file.rank for file in standing}
    kept = [file for file in marked if file.rank >= gone.get(file.name, 0)]
    return list(_without_copies(kept))


def _with_visits(
    files: tuple[RecordFile, ...], renamed: Mapping[Name, str]
) -> tuple[RecordFile, ...]:
    """The same files, each vehicle with its visits: those in the folder that is named as it is."""
    visits: dict[Name, list[RecordFile]] = {}
    for file in files:
        if file.kind == "visit" and not file.is_template:
            visits.setdefault(_visited(file, renamed), []).append(file)
    return (
        tuple(
            file.with_visits(tuple(visits[file.name]))
            if file.name in visits and not file.is_template
            else file
            for file in files
        )
        if visits
        else files
    )


def _visited(file: RecordFile, renamed: Mapping[Name, str]) -> Name:
    """The vehicle that a visit's folder is named for, by the name that it has today."""
    name = file.path.parent.name
    return ("vehicle", renamed.get(("vehicle", name), name))


def _without_copies(files: Sequence[RecordFile]) -> Iterator[RecordFile]:
    """Each file but a borrowed one whose very bytes another borrowed book has under that name."""
    seen: set[tuple[Name, str]] = set()
    for file in files:
        same = (file.name, file.content.digest)
        if not file.lender or same not in seen:
            yield file
        if file.lender:
            seen.add(same)


def _replacing(
    file: RecordFile, ranks: Mapping[Name, Set[int]], renamed: Mapping[Name, str]
) -> RecordFile:
    """The file with the id it replaces, when there is a record that it may stand in for.

    An old id is one for which no such record stands: the private one may still have it.
    """
    if not file.rank or file.is_template or _REPLACES not in file.content.raw:
        return file
    said = _replaced_id(load_taken(file.content, file.shown).data)
    replaced = renamed.get((file.kind, said), said)
    may = min(ranks.get((file.kind, replaced), {2}), default=2) < file.rank
    return replace(file, replaces=replaced) if may else file


def _replaced_id(data: dict[str, Any] | None) -> str:
    said = (data or {}).get("replaces")
    name = said.get("id") if isinstance(said, dict) else None
    return name if isinstance(name, str) else ""
