"""Shared records that name private ones: what everybody may see must not lean on what they may not.

Whether a name leads nowhere without the private folders is asked of the same rules that ask it
of the whole book; a part names housings alone, and those are looked up.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.book import Name
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity, value_at
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.references import references_in
from builder.model.vehicle import Vehicle
from builder.model.words import RecordKind
from builder.parsing import Record
from builder.pipeline.checking.records import ReadRecord
from builder.planning.car.interface_fit import plug_for
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
)
_NAMING_RULES: dict[RecordKind, str] = {"vehicle": "PIN108", "job": "TOP101"}


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
        for path in _lost(read, record, whole, public)
    ]


def _lost(read: ReadRecord, record: Record, whole: Shelf, public: Shelf) -> Iterator[DataPath]:
    kind = read.file.kind
    if kind not in _NAMING_RULES:
        yield from _lost_housings(read, whole, public)
        return
    known = _leading_nowhere(kind, record, whole)
    yield from (path for path in _leading_nowhere(kind, record, public) if path not in known)


def _lost_housings(read: ReadRecord, whole: Shelf, public: Shelf) -> Iterator[DataPath]:
    own = whole.housings.keys() - public.housings.keys()
    for named in references_in(read.file.kind, read.data):
        if named.kind == "housing" and named.name in own:
            yield named.path


def _leading_nowhere(kind: RecordKind, record: Record, shelf: Shelf) -> list[DataPath]:
    more = (None,) if kind == "job" else ()
    faults = BY_ID[_NAMING_RULES[kind]].run(record, shelf, *more)
    return list(dict.fromkeys(fault.path for fault in faults))


def _fault(read: ReadRecord, path: DataPath) -> Fault:
    return Fault(
        path,
        f'names "{value_at(read.data, path)}", which only a private folder of this book has',
        "move what it names to a shared folder, or this record to a private one",
    )


def records_of(job: Job) -> set[Name]:
    """Return the records that a job's work pack is made from, the job's own among them."""
    named: set[Name] = {("job", job.id), ("vehicle", job.vehicle), ("converter", job.converter)}
    named |= {("amplifier", each.part) for each in job.amplifiers}
    named |= {("interface", interface) for interface in job.interfaces}
    named |= {("loom", each.record) for each in job.looms}
    return named | {("cable", cable) for cable in job.cables}


def interfaces_for(vehicle: Vehicle, shelf: Shelf) -> set[Name]:
    """Return the data interfaces that fit a vehicle: its plans name each, chosen or not."""
    return {("interface", each.id) for each in shelf.interfaces.values() if plug_for(each, vehicle)}
