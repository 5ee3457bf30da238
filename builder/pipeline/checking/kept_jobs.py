"""The jobs of a book checked: those that nothing changed for from the store, the rest anew."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace

from builder.book import RecordFile
from builder.model.job import Job
from builder.pipeline.checking.asked import Ask
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.jobs import CheckedJob, check_job
from builder.pipeline.checking.kept import (
    Kept,
    as_line,
    is_own_fault,
    plain_findings,
    read_findings,
)
from builder.pipeline.checking.records import read_record
from builder.pipeline.checking.shelf import Shelves
from builder.store import NotPlainError

_GATE = "gate"


def check_jobs(
    files: Sequence[RecordFile],
    shelves: Shelves,
    vehicle_files: Mapping[str, RecordFile],
    gate: Gate,
    kept: Kept,
) -> list[CheckedJob]:
    """Check these jobs with the vehicles that they name, by id; what is kept and stands is taken.

    Either all of them are examples or none is: the two may name other vehicles.
    """
    if not kept.is_on or not files:
        kept.looked_at_anew += len(files)
        return [check_job(shelves, vehicle_files, gate, file) for file in files]
    asking = _Asking(vehicle_files, gate, kept, f"cars, examples {files[0].is_template}")
    keys = {file: kept.key("job", repr(gate.everywhere), kept.sum_of_file(file)) for file in files}
    rows = kept.find([*keys.values()])
    return [
        _read(file, rows[key]) if key in rows else asking.check(file, key)
        for file, key in keys.items()
    ]


class _Asking:
    """What jobs are checked with, noting what each asks."""

    def __init__(
        self, vehicle_files: Mapping[str, RecordFile], gate: Gate, kept: Kept, cars: str
    ) -> None:
        self._vehicle_files, self._gate, self._kept, self._cars = vehicle_files, gate, kept, cars
        sums = {name: kept.sum_of_file(file) for name, file in vehicle_files.items()}
        kept.sources.add(cars, sums)
        kept.sources.add(_GATE, gate.on)

    def check(self, file: RecordFile, key: str) -> CheckedJob:
        """Check one, and keep what came of it."""
        asks: list[Ask] = []
        kept, sources = self._kept, self._kept.sources
        cars = sources.noted(self._cars, asks.append, self._vehicle_files)
        gate = replace(self._gate, on=sources.noted(_GATE, asks.append))
        one = check_job(kept.noted_shelves(asks.append), cars, gate, file)
        kept.looked_at_anew += 1
        if one.job is not None and not is_own_fault(one.findings):
            with suppress(NotPlainError, ValueError):
                line = as_line([one.pack, one.newest, plain_findings(one.findings, file)])
                kept.keep(key, sources.answered(asks), line)
        return one


def _read(file: RecordFile, lines: Sequence[bytes]) -> CheckedJob:
    pack, newest, found = json.loads(lines[0])
    job = read_record(file).record
    assert isinstance(job, Job)
    return CheckedJob(file, job, pack, read_findings(found, file), newest)
