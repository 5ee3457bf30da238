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
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.records import ReadRecord
from builder.rules.registry import BY_ID
from builder.rules.rule import Scope

SHARED_NAMES_PRIVATE = CatalogueEntry(
    id="BOK105",
    slug="shared-names-private",
    title="A shared record names a private one",
    severity=Severity.STOP,
    what="A vehicle or job in a shared folder that names a vehicle or part which only a private "
    "folder has.",
    why="The shared record gives the private one's name away, and without the private folder it "
    "leads nowhere: the book cannot be published.",
    example="# vehicles/veldane/ullin-2021.yaml, shared\nplugs:\n  - id: A\n"
    "    housing: our-own-24   # private/housings/our-own-24.yaml",
    fix="Move the part to a shared folder, or the record that names it to the private one.",
)
_NAMING_RULES = {Scope.VEHICLE: "PIN108", Scope.NAMES: "TOP101"}


def names_private(
    read: ReadRecord, record: Vehicle | Job, whole: Shelf, public: Shelf | None
) -> list[Finding]:
    """Return a finding for every name in a shared record that only a private record answers to.

    `public` is the shelf without private records, None for a book that has none.
    """
    if public is None or read.file.is_private:
        return []
    entry = SHARED_NAMES_PRIVATE
    return [
        read.locate(_fault(read, path), entry.id, entry.slug, entry.severity)
        for path in _lost(record, whole, public)
    ]


def _lost(record: Vehicle | Job, whole: Shelf, public: Shelf) -> Iterator[DataPath]:
    known = _leading_nowhere(record, whole)
    yield from (path for path in _leading_nowhere(record, public) if path not in known)


def _leading_nowhere(record: Vehicle | Job, shelf: Shelf) -> list[DataPath]:
    if isinstance(record, Vehicle):
        faults = BY_ID[_NAMING_RULES[Scope.VEHICLE]].run(record, shelf)
    else:
        faults = BY_ID[_NAMING_RULES[Scope.NAMES]].run(record, shelf, None)
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
