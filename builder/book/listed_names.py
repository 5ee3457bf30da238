"""The names of a book's records, without reading one of them: what a shell may complete."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from builder.book.record_files import Name, RecordFile, listed_files
from builder.book.renamed import newest_names
from builder.book.settings import lent_renamings, read_settings


class ListedNames(NamedTuple):
    """The record files of a book, not read, and what old names are called today."""

    files: tuple[RecordFile, ...]  # without the commented examples
    renamed: Mapping[Name, str]


def listed_names(folder: Path) -> ListedNames:
    """Return the names in the book of a folder; there are none where no book is.

    Raises:
        BookNotFoundError: it has two settings files.
    """
    settings = read_settings(folder)
    files = [file for file in listed_files(settings.roots, False) if not file.is_template]
    renamings = [*lent_renamings(folder, settings.roots), *settings.renamings]
    return ListedNames(tuple(files), newest_names(renamings, {file.name for file in files}))
