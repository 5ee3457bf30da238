"""The names of a book's records, without reading one of them: what a shell may complete."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import NamedTuple

from builder.book.known_roots import KnownRoots, keep_roots, known_roots
from builder.book.newest_names import newest_names
from builder.book.record_files import Name, RecordFile, listed_files
from builder.model.words import RecordKind


class ListedNames(NamedTuple):
    """The record files of a book, not read, and what old names are called today."""

    files: tuple[RecordFile, ...]  # without the commented examples
    renamed: Mapping[Name, str]


def listed_names(folder: Path, kinds: Collection[RecordKind]) -> ListedNames:
    """Return the names of these kinds in the book of a folder; there are none where no book is.

    Raises:
        BookNotFoundError: it has two settings files.
    """
    roots, lines = known_roots(folder) or _read_roots(folder)
    files = [file for file in listed_files(roots, False, kinds) if not file.is_template]
    renamings = [one for one in lines if one.old[0] in kinds]
    return ListedNames(tuple(files), newest_names(renamings, {file.name for file in files}))


def _read_roots(folder: Path) -> KnownRoots:
    from builder.book.settings import lent_renamings, read_settings

    settings = read_settings(folder)
    lines = (*lent_renamings(folder, settings.roots), *settings.renamings)
    keep_roots(folder, settings.roots, lines)
    return KnownRoots(settings.roots, lines)
