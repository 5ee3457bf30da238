"""A book as it was at a revision: its YAML files, taken out of git into a folder of their own."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from builder.book import Book, RecordFile, Root, Snapshot, open_book
from builder.book.revisions import commit_of, top_of
from builder.book.taken_out import take_out
from builder.unfinished import work_folder

_RECORDS = (".yaml", ".yml", ".begun.json")
"""Records, settings, and what jobs were begun with."""


class PastBook(NamedTuple):
    """A book as it was, and the folders that git does not keep and that are taken as they are."""

    book: Book
    as_now: tuple[Path, ...]


@contextmanager
def past_book(now: Book, revision: str) -> Iterator[PastBook]:
    """Yield a book as it was at `revision`; its files are gone when the context ends.

    Raises:
        NoSuchRevisionError: git cannot say what was there then.
        BookNotFoundError: there was no book then.
    """
    top = top_of(now.folder)
    commit = commit_of(top, revision)
    with work_folder() as then:
        take_out(top, commit, then, lambda name: name.endswith(_RECORDS))
        folder = then / now.folder.resolve().relative_to(top.resolve())
        folder.mkdir(parents=True, exist_ok=True)
        yield _with_present_roots(open_book(folder, now.public), now, top.resolve(), then)


def _with_present_roots(book: Book, now: Book, top: Path, then: Path) -> PastBook:
    """Put the folders of today where git keeps none: other repositories, ignored ones.

    Their records are those that the book of today was opened with; nothing is read again.
    """
    roots, as_now, files = [], [], []
    for root in book.roots:
        today = now.folder / _relative(root.folder, book.folder)
        place = today.resolve()
        if root.folder.is_dir() and place.is_relative_to(top):
            roots.append(root)
            files += _files_in(book, root)
        else:
            roots.append(Root(place, root.visibility))
            as_now.append(place)
            files += _files_in(now, Root(today, root.visibility))
    missing = "BOK104"  # a root that was not kept is no fault of the record
    findings = tuple(finding for finding in book.findings if finding.rule_id != missing)
    once: dict[Path, RecordFile] = {}
    for file in files:  # of roots in each other the first counts, as in a book of today
        once.setdefault(file.path, file)
    snapshot = Snapshot(tuple(sorted(once.values(), key=lambda file: file.kind)))
    changed = replace(book, roots=tuple(roots), findings=findings, snapshot=snapshot)
    return PastBook(changed, tuple(place for place in as_now if place.is_dir()))


def _files_in(book: Book, root: Root) -> list[RecordFile]:
    """The record files that a book has read under a folder, as that root shows them."""
    if book.public and root.visibility == "private":
        return []
    found = [file for file in book.every_file() if file.path.is_relative_to(root.folder)]
    return [replace(file, visibility=root.visibility) for file in found]


def _relative(root: Path, folder: Path) -> Path:
    """A root as the settings name it."""
    return Path(*root.parts[len(folder.parts) :])
