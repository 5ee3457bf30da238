"""The vehicles of a book checked: those that nothing changed for from the store, the rest anew."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Sequence
from contextlib import suppress
from functools import cache, partial

from builder.book import RecordFile
from builder.model.summary import VehicleSummary
from builder.pipeline.checking.acceptance import PlacedAcceptance
from builder.pipeline.checking.asked import Answers, Ask
from builder.pipeline.checking.checked_vehicle import CheckedVehicle, check_vehicle
from builder.pipeline.checking.kept import (
    Kept,
    as_line,
    is_own_fault,
    names_of,
    numbered,
    plain_findings,
    read_findings,
)
from builder.pipeline.checking.shelf import Shelves
from builder.pipeline.checking.workers import Progress, map_files
from builder.store import NotPlainError, as_plain, reader_of

_summary = reader_of(VehicleSummary)
_acceptance = reader_of(PlacedAcceptance)
_FILE_IN_SUMMARY = VehicleSummary._fields.index("file")
_PLACE_IN_ACCEPTANCE = [*PlacedAcceptance.__dataclass_fields__].index("place")


def check_vehicles(
    files: Sequence[RecordFile], shelves: Shelves, kept: Kept, progress: Progress
) -> list[CheckedVehicle]:
    """Check these vehicles; what is kept of one and still stands is taken.

    `progress` is told how many are done, and of how many that are looked at anew.
    """
    if not kept.is_on:
        kept.looked_at_anew += len(files)
        found = map_files(partial(check_vehicle, shelves), files, progress)
        # What a worker sends back names its file, but has left the bytes behind.
        return [one._replace(file=file) for file, one in zip(files, found, strict=True)]
    keys = {file.path: kept.key("vehicle", kept.sum_of_file(file)) for file in files}
    rows = kept.recall("vehicles", [*keys.values()], _Row)
    known = {f.path: rows[keys[f.path]].of(f) for f in files if keys[f.path] in rows}
    new = [file for file in files if file.path not in known]
    kept.looked_at_anew += len(new)
    for file, (one, answers) in zip(
        new, map_files(partial(_noted, kept), new, progress), strict=True
    ):
        known[file.path] = _keep(kept, keys[file.path], one._replace(file=file), answers)
    return [known[file.path] for file in files]


def _noted(kept: Kept, file: RecordFile) -> tuple[CheckedVehicle, Answers]:
    """A vehicle checked, and what was asked for that."""
    asks: list[Ask] = []
    one = check_vehicle(kept.noted_shelves(asks.append), file)
    return one, kept.sources.answered(asks)


def _keep(kept: Kept, key: str, one: CheckedVehicle, answers: Answers) -> CheckedVehicle:
    summary = as_plain(one.summary)
    if summary:
        summary[_FILE_IN_SUMMARY] = ""
    told = as_line(summary)
    if not is_own_fault(one.findings):
        with suppress(NotPlainError, ValueError):
            kept.keep(key, answers, *_lines(one), told)
    return one._replace(told_sum=_sum(told))


def _lines(one: CheckedVehicle) -> Iterator[bytes]:
    names = names_of(one.file)
    accepted = [as_plain(each) for each in one.acceptances]
    for each in accepted:
        each[_PLACE_IN_ACCEPTANCE] = numbered(each[_PLACE_IN_ACCEPTANCE], names)
    yield as_line([one.id, one.newest, plain_findings(one.findings, one.file), accepted])


class _Row:
    """A kept vehicle, read once while its files are shown by the same names."""

    def __init__(self, lines: Sequence[bytes]) -> None:
        self._lines = lines
        self._read: CheckedVehicle | None = None

    def of(self, file: RecordFile) -> CheckedVehicle:
        """The vehicle as it stands in this file."""
        if self._read is None or names_of(self._read.file) != names_of(file):
            self._read = _read(file, self._lines)
        return self._read._replace(file=file)


def _read(file: RecordFile, lines: Sequence[bytes]) -> CheckedVehicle:
    names = names_of(file)
    record_id, newest, found, accepted = json.loads(lines[0])
    for each in accepted:
        each[_PLACE_IN_ACCEPTANCE][0] = names[each[_PLACE_IN_ACCEPTANCE][0]]
    told = None if record_id is None else cache(partial(_told, file.shown, lines[1]))
    accepts = [*map(_acceptance, accepted)]
    findings = read_findings(found, file)
    return CheckedVehicle(file, record_id, told, findings, accepts, newest, _sum(lines[1]))


def _sum(line: bytes) -> str:
    return hashlib.sha256(line).hexdigest()


def _told(shown: str, line: bytes) -> VehicleSummary:
    plain = json.loads(line)
    plain[_FILE_IN_SUMMARY] = shown
    summary: VehicleSummary = _summary(plain)
    return summary
