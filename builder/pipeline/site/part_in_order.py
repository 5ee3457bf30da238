"""The part of a failing book that stands, checked by itself, and what is left out of it.

Somebody who edits one record should not lose the pages of all others; and no page may show a record
that does not stand. So what fails is taken out, the rest is checked as a book of its own, what
fails then rests on what was taken out and goes too, until nothing fails.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.book import FOLDERS, Name, RecordFile
from builder.findings import Finding
from builder.model.words import RecordKind
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.records import read_record
from builder.rendering.pages.left_out import LeftOut
from builder.rendering.pages.wording import plan_url
from builder.rules.registry import rules_for
from builder.rules.rule import Scope
from builder.rules.sister_records import by_model

_FOLDER_OF = {kind: folder for folder, kind in FOLDERS.items()}
_AN_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class StandingPart(NamedTuple):
    """A book in which nothing fails, and the records that were taken out of it."""

    checked: CheckedBook
    left_out: tuple[LeftOut, ...]


def standing_part(checked: CheckedBook, faults: Sequence[Finding] = ()) -> StandingPart | None:
    """Return what of a checked book stands; None when a fault concerns all of it.

    `faults` are findings that came up after the check, while pages were written. Faults of the
    settings concern everything: house defaults and folders would be others than those meant.
    """
    whole, out = checked, dict[RecordFile, list[Finding]]()
    failing = [*faults, *_failing(checked)]
    while failing:
        going = _going(checked, failing)
        shown = {file.shown for file in going}
        if any(finding.file not in shown for finding in failing):
            return None
        out |= going
        checked = check_book(checked.book.without({file.path for file in going}))
        failing = _failing(checked)
    return StandingPart(checked, tuple(_told(whole, out)))


def _failing(checked: CheckedBook) -> list[Finding]:
    return [finding for finding in checked.findings if finding.fails_check]


def _going(checked: CheckedBook, failing: Sequence[Finding]) -> dict[RecordFile, list[Finding]]:
    """The records that these findings take out of a book, each with its reasons.

    A rule over the whole book names one record of two that contradict each other. Which of them
    is wrong nobody knows yet, so every record of that model goes; and of two with one id, both.
    """
    files = {file.shown: file for file in checked.book.files()}
    going: dict[RecordFile, list[Finding]] = {}
    for finding in failing:
        for shown in sorted(_concerned(checked, finding, files)):
            going.setdefault(files[shown], []).append(finding)
    return going


def _concerned(checked: CheckedBook, finding: Finding, files: Mapping[str, RecordFile]) -> set[str]:
    file = files.get(finding.file)
    if file is None:
        return set()
    names = {file.name, (file.kind, getattr(read_record(file).record, "id", ""))}
    twins = {one.shown for one in files.values() if one.name in names and not one.is_template}
    cars = {checked.vehicle_files.get(file.shown, file.shown)}
    return (
        {file.shown} | twins | cars | (_sisters(checked, file) if _is_of_book(finding) else set())
    )


def _is_of_book(finding: Finding) -> bool:
    return finding.rule_id in {rule.id for rule in rules_for(Scope.BOOK)}


def _sisters(checked: CheckedBook, file: RecordFile) -> set[str]:
    groups = [{one.file for one in group} for group in by_model(checked.summaries)]
    return next((group for group in groups if file.shown in group), set())


def _told(whole: CheckedBook, out: Mapping[RecordFile, list[Finding]]) -> Iterator[LeftOut]:
    lost = {file.name for file in out}
    for file, findings in out.items():
        if not file.is_template and file.kind != "visit":  # a visit has no page of its own
            urls = tuple(dict.fromkeys(_urls(whole, file, lost)))
            yield LeftOut(file.kind, file.path.stem, urls, tuple(findings))


def _urls(whole: CheckedBook, file: RecordFile, lost: Collection[Name]) -> Iterator[str]:
    """The addresses that the pages of a record had. A plan is told of under its vehicle."""
    if not _AN_ID.fullmatch(file.path.stem):
        return  # no record in order is called so: it never had a page
    yield f"{_FOLDER_OF[file.kind]}/{file.path.stem}.html"
    if file.kind == "vehicle":
        yield from (plan_url(file.path.stem, converter) for converter in _names(whole, "converter"))
    if file.kind == "converter":
        for vehicle in _names(whole, "vehicle"):
            if ("vehicle", vehicle) not in lost:
                yield plan_url(vehicle, file.path.stem)


def _names(whole: CheckedBook, kind: RecordKind) -> list[str]:
    files = [f for f in whole.book.files() if f.kind == kind and not f.is_template]
    return [file.path.stem for file in files if _AN_ID.fullmatch(file.path.stem)]
