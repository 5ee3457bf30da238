"""Which record files a command that mends records may work on: those of the book's own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from builder.book import Book, RecordFile, shown_path
from builder.pipeline.checking.named_files import NotInBookError, named_files

Lenders = Mapping[Path, Path | None]
"""The shared book that each record file belongs to, None for an own one."""


class ChosenFiles(NamedTuple):
    """Record files to work on, and the shared books whose files were passed over."""

    files: list[RecordFile]
    passed_over: list[Path]


def chosen_files(book: Book, paths: Sequence[Path]) -> ChosenFiles:
    """Return the book's own record files that paths name: files, folders, or all without any.

    What belongs to a shared book is never among them: it is kept by others, in their own book.

    Raises:
        NotInBookError: a path is not there, no record of the book is in it, or only shared ones.
    """
    lenders = book.lenders(file.path for file in book.files())
    own = [file for file in book.files() if lenders[file.path] is None]
    if not paths:
        return ChosenFiles(own, list(dict.fromkeys(filter(None, lenders.values()))))
    chosen = {place for path in paths for place in _own_in(book, path, lenders)}
    return ChosenFiles([file for file in own if file.path in chosen], [])


def _own_in(book: Book, path: Path, lenders: Lenders) -> Iterable[Path]:
    """The own files that one path names."""
    found = named_files(lenders, path)
    own = [at for at in found if lenders[at] is None]
    if own:
        return own
    lender = lenders[found[0]] if found else None
    if lender is not None:
        there = shown_path(lender)
        raise NotInBookError(
            f"{shown_path(path)} belongs to the shared book at {there}; run it there, with "
            f"--book {there}"
        )
    what = "names no record of the book" if path.exists() else "is not there"
    there = shown_path(book.folder)
    raise NotInBookError(f"{shown_path(path)} {what} in {there}. Name its book with --book.")
