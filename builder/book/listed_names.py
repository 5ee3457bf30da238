"""The names of a book's records, without reading one of them: what a shell may complete."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import NamedTuple

from builder.book.record_files import Name, RecordFile, listed_files
from builder.book.renamed import newest_names
from builder.book.settings import lent_renamings, read_settings
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
    settings = read_settings(folder)
    files = [file for file in listed_files(settings.roots, False, kinds) if not file.is_template]
    lines = [*lent_renamings(folder, settings.roots), *settings.renamings]
    renamings = [one for one in lines if one.kind in kinds]
    return ListedNames(tuple(files), newest_names(renamings, {file.name for file in files}))
