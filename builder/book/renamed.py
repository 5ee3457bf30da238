"""The table `renamed` of a book's settings: what records and contributors were called before."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from builder.book.newest_names import last_name
from builder.book.record_files import Name, RecordFile
from builder.findings import CatalogueEntry, Fault, Severity
from builder.model.settings import Renaming
from builder.model.words import CONTRIBUTOR
from builder.speller import nearest

RENAMED_WRONGLY = CatalogueEntry(
    id="BOK109",
    slug="renamed-wrongly",
    title="A line of `renamed` that leads nowhere, or to two places",
    severity=Severity.FIX,
    what="A line of `renamed` in the settings whose old id still is a record's or stands in "
    "another line too, or whose new id is not in the book, is an old id itself, or leads back to "
    "the old one.",
    why="Other books, printed sheets and saved pages name a record by its old id. They must come "
    "to the one record that is meant, so an old id is never used again.",
    example="renamed:\n  - {kind: housing, was: two-rows-20, now: two-row}   # now: two-row-20",
    fix="Write the id that the record has today. A record that has an old id gets another one.",
)
OLD_NAME = CatalogueEntry(
    id="BOK108",
    slug="old-name",
    title="A record or contributor by its old name",
    severity=Severity.NOTE,
    what="A name that the table `renamed` of this book, or of the shared book it draws on, lists "
    "as an old one. The record is read as if the new one stood there.",
    why="Of two names for one car each is found by half of those who look for it, and a shop with "
    "two counts twice.",
    example="housing: two-rows-20   # is now called two-row-20",
    fix="Type the new name; `loombook mend` does so.",
)


def wrong_renamings(
    renamings: Sequence[Renaming], files: Sequence[RecordFile], whole: bool
) -> Iterator[Fault]:
    """Yield what is wrong with the lines of a book's own table, at paths of its settings.

    `files` are the records of the book, `whole` whether all of them are there: a public book does
    not know whether a new id is a private one.
    """
    if not renamings:
        return
    standing: dict[Name, str] = {file.name: file.shown for file in files if not file.is_template}
    steps: dict[Name, str] = {}
    for index, one in enumerate(renamings):
        said = _old_fault(one, steps, standing)
        if said:
            yield Fault(("renamed", index, "was"), *said)
        steps.setdefault(one.old, one.now)
    for index, one in enumerate(renamings):
        said = _new_fault(one, steps, standing, files if whole else None)
        if said:
            yield Fault(("renamed", index, "now"), *said)


def _old_fault(
    one: Renaming, steps: Mapping[Name, str], standing: Mapping[Name, str]
) -> tuple[str, str] | None:
    if one.old in steps:
        return f'the {one.kind} "{one.was}" is renamed twice', "delete one of the two lines"
    if one.old in standing:
        told = f'"{one.was}" is given as an old id, and {standing[one.old]} has it'
        return told, f"type another id in {standing[one.old]}, or delete this line"
    return None


def _new_fault(
    one: Renaming,
    steps: Mapping[Name, str],
    standing: Mapping[Name, str],
    files: Sequence[RecordFile] | None,
) -> tuple[str, str] | None:
    if one.new in standing:
        return None
    if one.new in steps:
        last = last_name(one.old, steps)
        if last is None:
            told = f'"{one.was}" leads back to itself'
            return told, "type the id that the record has today, or delete the line"
        return f'"{one.now}" is an old id itself', f"type now: {last[1]}"
    if files is None or (one.kind == CONTRIBUTOR and _is_named(one.now, files)):
        return None
    near = nearest(one.now, (name for kind, name in standing if kind == one.kind))
    hint = f"did you mean {near}?" if near else "type the id that it has today"
    return f'the book has no {one.kind} "{one.now}"', hint


def _is_named(contributor: str, files: Sequence[RecordFile]) -> bool:
    """Whether some record has it for a contributor; those have no file to look for.

    Bytes are searched: what is in a record is not read before all files are listed.
    """
    name = re.escape(contributor.encode())
    word = re.compile(rb"\b(?:by|who|measured_by): *[\"']?" + name + rb"(?![a-z0-9-])")
    return any(word.search(file.content.raw) for file in files)
