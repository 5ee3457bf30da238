"""Shared records that name private ones: what everybody may see must not lean on what they may not.

Whether a name leads nowhere without the private folders is asked of the same rules that ask it
of the whole book.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.book import Name
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.words import RecordKind
from builder.parsing import Record
from builder.pipeline.checking.records import ReadRecord
from builder.planning.plan import Plan
from builder.rules.registry import BY_ID

SHARED_NAMES_PRIVATE = CatalogueEntry(
    id="BOK105",
    slug="shared-names-private",
    title="A shared record names a private one",
    severity=Severity.STOP,
    what="A record in a shared folder that names one which only a private folder has.",
    why="The shared record gives the private one's name away, and without the private folder it "
    "leads nowhere: the book cannot be published.",
    example="# vehicles/veldane/ullin-2021.yaml, shared\nplugs:\n  - id: A\n"
    "    housing: our-own-24   # private/housings/our-own-24.yaml",
    fix="Move the part to a shared folder, or the record that names it to the private one.",
    source="Chosen by this project.",
)
_NAMING_RULES: dict[RecordKind, str] = {
    "vehicle": "PIN108",
    "job": "TOP101",
    "loom": "LOM101",
    "interface": "LOM101",
    "housing": "LOM109",
}
"""The rule of each kind that finds names which lead nowhere."""


def names_private(
    read: ReadRecord, record: Record, whole: Shelf, public: Shelf | None
) -> list[Finding]:
    """Return a finding for every name in a shared record that only a private record answers to.

    `public` is the shelf without private records, None for a book that has none.
    """
    if public is None or read.file.is_private:
        return []
    entry = SHARED_NAMES_PRIVATE
    return [
        read.locate(_fault(read, path), entry.id, entry.slug, entry.severity)
        for path in _lost(read.file.kind, record, whole, public)
    ]


def _lost(kind: RecordKind, record: Record, whole: Shelf, public: Shelf) -> Iterator[DataPath]:
    known = _leading_nowhere(kind, record, whole)
    yield from (p for p in _leading_nowhere(kind, record, public) if p not in known)


def _leading_nowhere(kind: RecordKind, record: Record, shelf: Shelf) -> list[DataPath]:
    more = (None,) if kind == "job" else ()
    faults = BY_ID[_NAMING_RULES[kind]].run(record, shelf, *more)
    return list(dict.fromkeys(fault.path for fault in faults))


def _fault(read: ReadRecord, path: DataPath) -> Fault:
    value: Any = read.data
    for step in path:
        value = value[step]
    return Fault(
        path,
        f'names "{value}", which only a private folder of this book has',
        "move what it names to a shared folder, or this record to a private one",
    )


def records_of(job: Job) -> set[Name]:
    """Return the records that a job's work pack is made from, the job's own among them."""
    named: set[Name] = {("job", job.id), ("vehicle", job.vehicle), ("converter", job.converter)}
    named |= {("amplifier", each.part) for each in job.amplifiers}
    return named | {("cable", cable) for cable in job.cables}


def interface_of(plan: Plan) -> set[Name]:
    """Return the data interface that a plan switches from, if it does."""
    named = plan.turn_on.interface
    return {("interface", named)} if named is not None else set()
