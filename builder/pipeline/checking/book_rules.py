"""The rules that look at all vehicles of a book at once, and where their findings stand.

What they find rests on summaries; where it stands, on the text of one vehicle. The two are kept
apart: a reading more in one record moves lines, and changes nothing between records.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from builder.book import RecordFile
from builder.findings import Fault, Finding
from builder.model.book import Shelf
from builder.model.summary import VehicleSummary
from builder.pipeline.checking.asked import Ask
from builder.pipeline.checking.checked_vehicle import CheckedVehicle
from builder.pipeline.checking.kept import (
    Kept,
    as_line,
    plain_findings,
    read_findings,
)
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.records import as_counted, read_record
from builder.pipeline.checking.ruling import located
from builder.rules.registry import BY_ID, rules_for
from builder.rules.rule import Rule, Scope
from builder.store import as_plain, reader_of

_fault = reader_of(Fault)

Found = tuple[str, Fault]
"""The id of a rule, and what it found of a vehicle."""
Faults = Mapping[int, Sequence[Found]]
"""The same of each vehicle, by its number among those that were checked."""
_ByFile = Mapping[RecordFile, Sequence[Found]]


def vehicles_in_book(checked: Sequence[CheckedVehicle]) -> list[VehicleSummary]:
    """The summaries of the vehicles of a book, without the commented example."""
    return [s for one in checked if not one.file.is_template and (s := one.summary) is not None]


class BookFaults(NamedTuple):
    """What book-wide rules find, and one finding for each that loombook itself fails in."""

    of: Faults
    broken: Sequence[Finding] = ()


def faults_in_book(checked: Sequence[CheckedVehicle], shelf: Shelf, kept: Kept) -> BookFaults:
    """Return what the book-wide rules find of these vehicles, which are all of the book."""
    return BookFaults(*(_kept_faults(checked, kept) if kept.is_on else _faults(checked, shelf)))


def with_book_findings(
    checked: Sequence[CheckedVehicle], found: BookFaults, shelf: Shelf, kept: Kept
) -> dict[str, list[Finding]]:
    """Findings by file as it is shown, with those of the book-wide rules among them.

    `found` is by the number of a vehicle among those that are checked.
    """
    by_file = {one.file.shown: [*one.findings] for one in checked}
    files = {checked[at].file: faults for at, faults in found.of.items()}
    placed = _kept_places(files, kept) if kept.is_on else _places(files, shelf)
    for file, findings in placed:
        by_file[file.shown] += findings
    if found.broken:  # no record alone is to blame: the first stands for all
        by_file[checked[0].file.shown] += found.broken
    return by_file


def _faults(checked: Sequence[CheckedVehicle], shelf: Shelf) -> tuple[Faults, list[Finding]]:
    """What the rules find, and one finding for each that loombook itself fails in."""
    summaries = vehicles_in_book(checked)
    at = {one.id: number for number, one in enumerate(checked) if not one.file.is_template}
    found: defaultdict[int, list[Found]] = defaultdict(list)
    broken = []
    for rule in rules_for(Scope.BOOK):
        try:
            for vehicle, fault in _of_rule(rule, summaries, shelf):
                found[at[vehicle]].append((rule.id, fault))
        except Exception as error:
            broken.append(own_fault(checked[0].file.shown, error))
    return dict(found), broken


def _of_rule(
    rule: Rule, summaries: Sequence[VehicleSummary], shelf: Shelf
) -> list[tuple[str, Fault]]:
    return [found for found in rule.check(summaries, shelf) if isinstance(found, tuple)]


def _kept_faults(checked: Sequence[CheckedVehicle], kept: Kept) -> tuple[Faults, list[Finding]]:
    told = (f"{one.file.is_template} {one.file.shown} {one.told_sum}" for one in checked)
    key = kept.key("book rules", *told)
    if lines := kept.find([key]).get(key):
        return read_faults(json.loads(lines[0])), []
    asks: list[Ask] = []
    found, broken = _faults(checked, kept.noted_shelves(asks.append).book)
    if not broken:
        kept.keep(key, kept.sources.answered(asks), as_line(plain_faults(found)))
    return found, broken


def plain_faults(found: Faults) -> list[Any]:
    """What was found of each vehicle, in plain form."""
    return [[at, [[i, as_plain(fault)] for i, fault in each]] for at, each in found.items()]


def read_faults(plain: Iterable[Any]) -> Faults:
    """The same from its plain form."""
    return {at: [(i, _fault(f)) for i, f in each] for at, each in plain}


def _places(files: _ByFile, shelf: Shelf) -> Iterator[tuple[RecordFile, list[Finding]]]:
    """Yield the findings of each file; there are few, so that its text is parsed again."""
    for file, faults in files.items():
        read = as_counted(read_record(file), shelf)
        yield file, [located(read, BY_ID[rule], fault) for rule, fault in faults]


def _kept_places(files: _ByFile, kept: Kept) -> Iterator[tuple[RecordFile, list[Finding]]]:
    keys = {file: _place_key(kept, file, faults) for file, faults in files.items()}
    rows = kept.find([*keys.values()])
    for file, key in keys.items():
        if key in rows:
            yield file, read_findings(json.loads(rows[key][0]), file)
            continue
        asks: list[Ask] = []
        shelf = kept.noted_shelves(asks.append).book
        for _, findings in _places({file: files[file]}, shelf):
            plain = as_line(plain_findings(findings, file))
            kept.keep(key, kept.sources.answered(asks), plain)
            yield file, findings


def _place_key(kept: Kept, file: RecordFile, faults: Sequence[Found]) -> str:
    found = as_line([[rule, as_plain(fault)] for rule, fault in faults]).decode("utf-8", "replace")
    return kept.key("places", kept.sum_of_file(file), found)
