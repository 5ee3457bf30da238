"""`merge`: two records of one car as one, tried in the book before anything is written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from builder.book import Book, RecordFile, settings_file, shown_path
from builder.editing import UneditableError, insert_item
from builder.editing.merging import Difference, Merging, merged_text, merging
from builder.findings import Finding
from builder.loading import load_text
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import vehicle_meant
from builder.pipeline.changing.merging_scopes import one_scope
from builder.pipeline.changing.record_files import create_new, read_text, replace_texts, text_of
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.records import read_record
from builder.unfinished import undisturbed

_SETTINGS = "book.yaml"
_HEAD = re.compile(r"yaml-language-server|[Ii]nvented")
"""Lines of the head that each record has for itself."""


class CannotMergeError(Exception):
    """The two cannot be made one; the message says why, and what to do."""


class Kept(NamedTuple):
    """A file, what is in it now (None where it is not there), and what will be."""

    path: Path
    old: str | None
    new: str


@dataclass(frozen=True, slots=True)
class Merged:
    """Two records as one: what is taken from the second, what both say differently, the new texts.

    Where there are differences, nothing can be written, and `record` is None.
    """

    into: RecordFile
    gone: RecordFile
    taken: tuple[str, ...]
    remarks: tuple[str, ...]
    differences: tuple[Difference, ...]
    signatures: tuple[Path, ...]
    record: Kept | None = None
    settings: Kept | None = None
    findings: tuple[Finding, ...] = ()


def merged_records(book: Book, first: str, second: str) -> Merged:
    """Return what the record `first` is with all that `second` knows; nothing is written.

    Raises:
        NoSuchRecordError: a name means none or several vehicles.
        CannotMergeError: they are about two cars by what they say themselves, or not both own.
        UneditableError: the text of the first has no place for something of the second.
    """
    into, gone = vehicle_meant(book, first), vehicle_meant(book, second)
    _refuse_two_cars(book, into[1], gone[1], into[0].file, gone[0].file)
    # What stands in their own files: visits are found by the old name, and stay as they are.
    ours, theirs = (read_record(each[0].file).data for each in (into, gone))
    found = merging(ours, theirs)
    scope, disputed = one_scope(ours, theirs)
    found.steps = [*scope, *found.steps]
    found.differences += disputed
    for step in scope:
        found.data["scope"] = {**found.data["scope"], step.path[-1]: step.what}
    remarks = tuple(_remarks(gone[0].file, found))
    beside = gone[0].file.path.parent.glob(f"{gone[0].file.path.stem}.*.sig")
    whole = Merged(
        into[0].file,
        gone[0].file,
        tuple(_taken(found)),
        remarks,
        tuple(found.differences),
        tuple(sorted(beside)),
    )
    return whole if found.differences else _tried(book, whole, found)


def _refuse_two_cars(
    book: Book, into: Vehicle, gone: Vehicle, ours: RecordFile, theirs: RecordFile
) -> None:
    if into.id == gone.id:
        raise CannotMergeError(f"{into.id} is one record already")
    for one, other in ((into, gone), (gone, into)):
        answers = (answer for question in one.how_to_tell for answer in question.answers)
        if any(answer.means == other.id for answer in answers):
            raise CannotMergeError(
                f"how_to_tell of {one.id} says that {other.id} is another car; if they are one, "
                "take that question out first"
            )
    for file in (ours, theirs):
        if book.lender_of(file.path) is not None:
            raise CannotMergeError(f"{file.shown} belongs to a shared book: merge it there")
    if ours.visibility != theirs.visibility:
        raise CannotMergeError("one of the two is private, the other is not: move one first")
    if gone.photos and ours.path.parent != theirs.path.parent:
        raise CannotMergeError(
            f"move the photos of {gone.id} beside {ours.shown} first, and its record with them"
        )


def _tried(book: Book, merged: Merged, found: Merging) -> Merged:
    old = text_of(merged.into)
    new = merged_text(old, found, list(merged.remarks))
    if load_text(new.encode(), merged.into.shown).data != found.data:
        raise UneditableError("the record would not read back as it should: nothing was written")
    kept = Kept(merged.into.path, old, new)
    settings = _renamed(book, merged.gone.path.stem, merged.into.path.stem)
    trial = book.without({merged.gone.path}).with_texts({kept.path: new})
    known = {(f.rule_id, f.message) for f in check_book(book).findings}
    since = [f for f in check_book(trial).findings if f.file == merged.into.shown]
    new_ones = tuple(f for f in since if (f.rule_id, f.message) not in known)
    return Merged(
        merged.into, merged.gone, merged.taken, merged.remarks, (), merged.signatures,
        kept, settings, new_ones,
    )  # fmt: skip


@undisturbed()
def write_merged(merged: Merged) -> None:
    """Write the one record, say in the settings what the other is called now, and delete that.

    If the power goes in between, all of both is still there, and the same command completes it.

    Raises:
        ChangedMeanwhileError: somebody changed one of the files meanwhile; nothing was written.
        OSError: a file cannot be written.
    """
    assert merged.record is not None and merged.settings is not None
    gone = text_of(merged.gone)
    changes = [(merged.gone.path, gone, gone)]  # looked at, and left as it is
    for each in (merged.record, merged.settings):
        if each.old is None:
            create_new(each.path, each.new)
        else:
            changes.append((each.path, each.old, each.new))
    replace_texts(changes)
    merged.gone.path.unlink()


def _renamed(book: Book, was: str, now: str) -> Kept:
    line = {"kind": "vehicle", "was": was, "now": now}
    path = settings_file(book.folder)
    if path is None:
        text = f"schema: 1\nrenamed:\n  - {{kind: vehicle, was: {was}, now: {now}}}\n"
        return Kept(book.folder / _SETTINGS, None, text)
    old = read_text(path)
    listed = (load_text(old.encode(), path.name).data or {}).get("renamed", [])
    return Kept(path, old, old if line in listed else insert_item(old, ("renamed",), line, "book"))


def _taken(found: Merging) -> Iterator[str]:
    """What comes from the second record, one line each thing."""
    for step in found.steps:
        place = ".".join(str(each) for each in step.path if not isinstance(each, int))
        yield f"{place}: {_short(step.what)}"


def _short(what: Any) -> str:
    if isinstance(what, dict):
        named = (
            what.get(key) for key in ("id", "cavity", "channel", "name", "position", "session")
        )
        said = next((str(each) for each in named if each is not None), "")
        state = " ".join(str(what[key]) for key in ("state", "quantity", "value") if key in what)
        return " ".join(filter(None, (said, state))) or "one more"
    return str(what)


def _remarks(gone: RecordFile, found: Merging) -> Iterator[str]:
    """What one record cannot say twice, and what people wrote beside the second."""
    comments = [line for line in _comments(text_of(gone)) if not _HEAD.search(line)]
    said = [*found.remarks, *comments]
    if said:
        yield f"from {gone.path.stem}, which was merged into this record:"
        yield from (f"  {line}" for line in said)


def _comments(text: str) -> Iterator[str]:
    for line in text.splitlines():
        quote = ""
        for at, sign in enumerate(line):
            if quote:
                quote = "" if sign == quote else quote
            elif sign in "\"'" and (at == 0 or line[at - 1] in " [{,:"):
                quote = sign
            elif sign == "#" and (at == 0 or line[at - 1].isspace()):
                yield line[at:].lstrip("# ").rstrip()
                break


def shown_signatures(merged: Merged) -> str:
    """The signatures that hold no longer, as one line."""
    return ", ".join(shown_path(each) for each in merged.signatures)
