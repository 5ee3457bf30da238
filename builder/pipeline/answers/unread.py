"""Records that a question names and that cannot be read: they answer nothing, and that is said.

What the record of a car says of its names is not known then; the name of its file is, and a
question is asked of that alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.book import Book, RecordFile
from builder.finder.entries import Entry
from builder.finder.grammar import LAST_YEAR
from builder.finder.parts import Part, fitting
from builder.finder.search import reply
from builder.findings import Finding
from builder.model.kinds import PART_KINDS
from builder.model.scope import Scope
from builder.model.words import RecordKind
from builder.pipeline.checking.gate import still_open
from builder.pipeline.checking.records import as_counted, read_record
from builder.pipeline.checking.shelf import counting_shelf
from builder.visible_names import visible_name


class Unread(NamedTuple):
    """A record that cannot be read: what it is, its id, and why, the gravest first."""

    kind: RecordKind
    id: str
    findings: tuple[Finding, ...]


def unread_records(
    book: Book, question: str, renamed: Mapping[str, str], known: Iterable[str], forgiving: bool
) -> tuple[Unread, ...]:
    """Return the records that a question may mean and that cannot be read.

    `renamed` are the ids of today by the old ones, `known` those of the vehicles and parts that
    can be read. Slips are forgiven where the question is `forgiving`: where nothing else answers.
    """
    others = _unknown(book, frozenset(known))
    cars = [_car(file) for file in others if file.kind == "vehicle"]
    parts = [Part(f.kind, f.path.stem, f.path.stem) for f in others if f.kind in PART_KINDS]
    found = reply(question, cars, renamed, parts)
    if found.read_as and not forgiving:
        return ()
    named = {answer.entry.id for answer in found.answers} | {part.id for part in found.parts}
    if not named and forgiving:
        named = {part.id for part in fitting(question, parts)}
    return tuple(_unread(book, (file for file in others if file.path.stem in named)))


def grave(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings for which a record cannot be used, the gravest first."""
    found = tuple(findings)
    return tuple(sorted(still_open(found) or found, key=lambda each: each.severity))


def unread_words(unread: Sequence[Unread]) -> str:
    """Return in a sentence which records cannot be read, "" for none."""
    if not unread:
        return ""
    which = " and ".join(f"{each.kind} {visible_name(each.id)}" for each in unread)
    return f"The record of {which} may be meant and cannot be read."


def _unknown(book: Book, known: frozenset[str]) -> list[RecordFile]:
    return [f for f in book.files() if not f.is_template and f.path.stem not in known]


def _unread(book: Book, files: Iterable[RecordFile]) -> Iterator[Unread]:
    for file in files:
        read = as_counted(read_record(file), counting_shelf(book))
        if read.record is None:
            yield Unread(file.kind, file.path.stem, grave(read.findings))


def _car(file: RecordFile) -> Entry:
    """A vehicle of which nothing is known but what its file is called: it is of any year, and
    what is of no matter to who asks by names alone stands as in a scope of everything.
    """
    years, every = (0, LAST_YEAR), ("all",)
    scope = Scope(
        year_from=0, year_to=LAST_YEAR, bodies=every, markets=every, drive_side="left",
        trims=every, options_any=(), options_none=(), radios=("unknown",),
    )  # fmt: skip
    return Entry(file.path.stem, "", "", "", *years, "", (), scope, ())
