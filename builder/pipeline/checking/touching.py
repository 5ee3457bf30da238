"""Records that a change of some others can touch: all that rest on them, and what they name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set

from builder.book import Book, Name, RecordFile
from builder.model.references import references_in
from builder.pipeline.checking.records import read_record


def touched_by(book: Book, chosen: Sequence[RecordFile]) -> list[RecordFile]:
    """Return the chosen files, what names them, what names that and so on, and what they name.

    A plan rests on a job, that on a vehicle, that on a housing: who changes the last wants to see
    them all. Who changes the job wants to see the vehicle, and not every other job of it.
    """
    by_name = {file.name: file for file in book.files()}
    chosen = [*chosen, *_visited(book, chosen)]
    found = {file.path: file for file in chosen}
    due = list(chosen)
    while due:
        names = _all_names(book.renamed, due)
        due = [file for file in _naming(book, names) if file.path not in found]
        found |= {file.path: file for file in due}
    for name in (name for file in chosen for name in _names_in(file)):
        if name in by_name:
            found.setdefault(by_name[name].path, by_name[name])
    return [file for file in book.every_file() if file.path in found]


def _visited(book: Book, chosen: Sequence[RecordFile]) -> list[RecordFile]:
    """The vehicles whose visits were chosen: what is measured changes them as if typed there."""
    paths = {file.path for file in chosen}
    return [
        file
        for file in book.files()
        if file.path not in paths and any(visit.path in paths for visit in file.visits)
    ]


def _all_names(renamed: Mapping[Name, str], files: Sequence[RecordFile]) -> set[Name]:
    """The names of these records, of today and of before."""
    today = {file.name for file in files if not file.is_template}
    before = {(kind, was) for (kind, was), now in renamed.items() if (kind, now) in today}
    return today | before


def _naming(book: Book, names: Set[Name]) -> Iterator[RecordFile]:
    """The files that name one of these records; only those that hold the word are read."""
    words = [name.encode() for _, name in names]
    for file in book.every_file():
        if any(word in file.content.raw for word in words) and file.name not in names:
            read = read_record(file)
            if read.record is None or names & set(_names_in(file)):
                yield file


def _names_in(file: RecordFile) -> Iterator[Name]:
    """What a record names; nothing of one that does not have the shape of its kind."""
    read = read_record(file)
    if read.record is not None:
        for reference in references_in(file.kind, read.data):
            yield reference.kind, reference.name
