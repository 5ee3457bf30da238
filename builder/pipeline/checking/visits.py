"""What visits add to the record of their vehicle, and what is wrong with them."""

from __future__ import annotations

import hashlib
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from builder.book import Name, RecordFile
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity, value_at
from builder.model.housing import Housing
from builder.model.plugs import FUSE_POSITIONS, PLUGS
from builder.model.vehicle import VISITS, Vehicle
from builder.model.visit import Visit
from builder.pipeline.checking.read_text import Elsewhere, ReadRecord
from builder.proof.visits import READINGS, RECORDINGS, SESSIONS, Joined, Moved, with_visits

NOT_ITS_VEHICLE = CatalogueEntry(
    id="BOK126",
    slug="visit-of-no-vehicle",
    title="A visit that belongs to no vehicle of the book",
    severity=Severity.FIX,
    what="A visit in a folder that is not named as a vehicle of the book, or that names another "
    "vehicle than its folder does.",
    why="Its readings count for no pin: whoever measured them worked for nothing.",
    example="visits/ostrel-tansy-2017/alder-pit-audio-2024-05-13-k7m2.yaml, and the vehicle's id "
    "is ostrel-tansy-2017-hatch-base",
    fix="Move the file into the folder visits/<vehicle>, and type vehicle: <vehicle>.",
)
NO_SUCH_PLACE = CatalogueEntry(
    id="BOK127",
    slug="visit-reads-no-pin",
    title="A visit that read where its vehicle describes nothing",
    severity=Severity.FIX,
    what="A place of a visit that its vehicle's record does not describe, or a reading whose "
    "`session` is none of those of its file.",
    why="The reading is not counted: nobody knows which wire it is about. A visit that was counted "
    "from the other face is often told by that.",
    example="places:\n  - plug: A\n    cavity: 44   # the plug has 20",
    fix="Describe the wire in the vehicle's record, with function: unknown where nobody knows it; "
    "or turn the visit: loombook visit turn.",
)
NOT_ONE_DAY = CatalogueEntry(
    id="BOK128",
    slug="visit-of-several",
    title="A visit of several contributors, cars or days",
    severity=Severity.FIX,
    what="A visit whose `sessions` differ in `by`, `date` or the tag of the car.",
    why="A visit is what one contributor measured on one car in one day: so that two never write "
    "into one file, and that one is withdrawn without the other.",
    example="sessions:\n  - {id: s1, by: alder-pit-audio, date: 2024-05-13, ...}\n"
    "  - {id: s2, by: bay-four-sound, date: 2024-05-13, ...}",
    fix="Make a file of each.",
)


def joined(
    read: ReadRecord,
    vehicle: Vehicle,
    reads: Sequence[ReadRecord],
    housings: Mapping[str, Housing],
) -> ReadRecord:
    """Return a vehicle with its visits in it, as if all of it were typed in one file.

    What is wrong with the visits is among the findings; the others count all the same. The data
    are those of the one file: where a visit was counted from the other face, its sessions say
    `moulded`, since its cavities have the plug's own names in them.
    """
    usable = [each for each in reads if _is_of(each, vehicle)]
    visits = [each.record for each in usable if isinstance(each.record, Visit)]
    found = with_visits(vehicle, visits, housings)
    faults = [_located(usable[at], fault, NO_SUCH_PLACE) for at, fault in found.faults]
    return replace(
        read,
        record=found.vehicle,
        data=_as_one_file(read.data, found, usable),
        findings=[*read.findings, *findings_of_visits(reads, vehicle.id), *faults],
        digest=_digest(read, usable),
        elsewhere=_elsewhere(found, usable),
    )


def _elsewhere(found: Joined, reads: Sequence[ReadRecord]) -> dict[DataPath, Elsewhere]:
    """Where each part that came from a visit stands, and each visit as a whole."""
    by_id = {each.record.id: each for each in reads if isinstance(each.record, Visit)}
    whole: dict[DataPath, Elsewhere] = {
        (VISITS, at): Elsewhere(by_id[visit.id], ())
        for at, visit in enumerate(found.vehicle.visits)
    }
    return whole | {one.path: Elsewhere(reads[one.visit], one.own) for one in found.moved}


def _is_of(read: ReadRecord, vehicle: Vehicle) -> bool:
    return isinstance(read.record, Visit) and read.record.vehicle == vehicle.id


def findings_of_visits(reads: Iterable[ReadRecord], vehicle_id: str) -> Iterator[Finding]:
    """Yield what is wrong with visits in the folder of a vehicle by themselves."""
    for read in reads:
        yield from read.findings
        if isinstance(read.record, Visit):
            if read.record.vehicle != vehicle_id:
                told = f"this visit is of {read.record.vehicle} and stands in the folder of another"
                help_text = (
                    f"move it to visits/{read.record.vehicle}, or type vehicle: {vehicle_id}"
                )
                yield _located(read, Fault(("vehicle",), told, help_text), NOT_ITS_VEHICLE)
            yield from (_located(read, fault, NOT_ONE_DAY) for fault in _of_several(read.record))


def _of_several(visit: Visit) -> Iterator[Fault]:
    first = visit.sessions[0]
    for session in visit.sessions[1:]:
        for key, one, other in (
            ("by", first.by, session.by),
            ("date", first.date, session.date),
            ("car", first.car_tag, session.car_tag),
        ):
            if one != other:
                told = f'"{session.id}" says {key} {other}, "{first.id}" says {one}'
                yield Fault((*session.path, key), told, "make a visit of its own of it")


def loose_visits(files: Sequence[RecordFile]) -> list[RecordFile]:
    """Return the visits that are in no vehicle's folder, the commented example among them."""
    held = {visit.path for file in files for visit in file.visits}
    return [file for file in files if file.kind == "visit" and file.path not in held]


def of_loose_visit(read: ReadRecord, vehicle_ids: Container[str]) -> list[Finding]:
    """Return what is wrong with one of them."""
    nothing = [] if read.file.is_template else [_of_nothing(read, vehicle_ids)]
    return [*read.findings, *nothing]


def _of_nothing(read: ReadRecord, vehicle_ids: Container[str]) -> Finding:
    folder = read.file.path.parent.name
    named = read.record.vehicle if isinstance(read.record, Visit) else folder
    if named in vehicle_ids:
        told = f'this visit of {named} stands in the folder "{folder}"'
        fault = Fault(("vehicle",), told, f"move it to visits/{named}")
    else:
        told = f'the book has no vehicle "{named}"'
        fault = Fault(("vehicle",), told, "correct the vehicle and the folder, or add its record")
    return _located(read, fault, NOT_ITS_VEHICLE)


def visit_names(files: Iterable[RecordFile]) -> dict[str, tuple[Name, ...]]:
    """The names that what is wrong with a visit's file counts against: its own, its vehicle's."""
    found = {file.shown: (file.name,) for file in files if file.kind == "visit"}
    return found | {visit.shown: (visit.name, file.name) for file in files for visit in file.visits}


def vehicle_files_of_visits(files: Iterable[RecordFile]) -> dict[str, str]:
    """The vehicle's file of each visit's file, both as they are shown."""
    return {visit.shown: file.shown for file in files for visit in file.visits}


def _located(read: ReadRecord, fault: Fault, entry: CatalogueEntry) -> Finding:
    return read.locate(fault, entry.id, entry.slug, entry.severity)


def _digest(read: ReadRecord, visits: Sequence[ReadRecord]) -> str:
    if not visits:
        return read.digest
    sums = "\n".join(sorted(each.digest for each in visits))
    return hashlib.sha256(f"{read.digest}\n{sums}".encode()).hexdigest()


def _as_one_file(
    data: dict[str, Any], found: Joined, reads: Sequence[ReadRecord]
) -> dict[str, Any]:
    """The data of the vehicle with those of its visits; nothing of the given data is changed."""
    data = {**data, SESSIONS: [*data[SESSIONS]]}
    data[PLUGS] = [{**plug, "pins": [{**pin} for pin in plug["pins"]]} for plug in data[PLUGS]]
    if FUSE_POSITIONS in data:
        data[FUSE_POSITIONS] = [{**each} for each in data[FUSE_POSITIONS]]
    typed = [(one, value_at(reads[one.visit].data, one.own)) for one in found.moved]
    turned = {one.session for one in found.moved if one.turned}
    for one, said in typed:
        if one.path[0] == SESSIONS:
            counted = {"read_from": "moulded"} if one.session in turned else {}
            data[SESSIONS].append({**said, "id": one.session, **counted})
        elif one.path[0] == RECORDINGS:
            data[RECORDINGS] = [*data.get(RECORDINGS, ()), {**said, "session": one.session}]
        else:
            holder = value_at(data, one.path[:-2])
            holder[READINGS] = [*holder.get(READINGS, ()), _as_turned(one, said)]
    return data


def _as_turned(one: Moved, said: dict[str, Any]) -> dict[str, Any]:
    said = {**said, "session": one.session}
    if not one.turned or one.against is None or "against" not in said:
        return said
    return said | {"against": int(one.against) if one.against.isdigit() else one.against}
