"""What devices are fixed with, and what goes into the holes of a job, on the parts list."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.job import Job
from builder.model.job.places import BOARD, FixedBy, Mount
from builder.planning.car.supply_way import unsaid_supply_way
from builder.planning.circuit.devices import devices_of, held_holders, mounted_as
from builder.planning.circuit.index import CircuitIndex
from builder.planning.sheet_rows import PartLine
from builder.planning.words import SUPPLY_WAY
from builder.planning.work_pack import JobParts

_WITH: dict[FixedBy, str] = {
    "screws": "set of screws",
    "bolts": "set of bolts",
    "strap": "strap to fix it",
    "rail": "set of bolts for a rail",
    "glue": "glue or tape to fix it",
}


_UNTOLD = "with what is not on record: what was taken is written down"


def fixing_lines(job: Job, index: CircuitIndex) -> Iterator[PartLine]:
    """Yield what each device is fixed with, and to, and what each hole is made for."""
    untold = set_of_untold(job, index)
    if untold:
        yield PartLine("set of fixings", len(untold), "", f"{', '.join(untold)}; {_UNTOLD}")
    board = any(each.device == BOARD for each in job.mounts)
    if board:
        on_it = [each.device for each in job.mounts if BOARD in each.fixed_to]
        yield PartLine(BOARD, 1, "", f"for {', '.join(on_it)}" if on_it else "")
    for mount in job.mounts:
        if _bought_for_a_hole(mount, job):
            continue
        note = f"{mount.device}, fixed to {mount.fixed_to}"
        note += "" if board else ": that too, where the car has none"
        yield PartLine(_WITH[mount.by], 1, "", note)
    for hole in job.holes:
        size = f"{shown(hole.size_mm)} mm"
        yield PartLine(hole.purpose, 1, "", f"into the hole of {size}, {hole.where}")
        plug = f"kept for the way back: {hole.where}"
        yield PartLine(f"blind plug for a hole of {size}", 1, "", plug)


def pass_lines(parts: JobParts) -> Iterator[PartLine]:
    """Yield what closes each way through a bulkhead: the car's own grommet is not bought again."""
    vehicle, job = parts.vehicle, parts.job
    own = {each.name for each in vehicle.passages if each.grommet == "own"}
    new = [one.through for one in job.passes if one.seal == "grommet" and one.through not in own]
    if unsaid_supply_way(job, vehicle) is not None:
        new.append(SUPPLY_WAY)
    if new:
        yield PartLine("grommet", len(new), "", ", ".join(new))
    if job.passes or new:
        at = dict.fromkeys([*(one.through for one in job.passes), *new])
        yield PartLine("sealant", 1, "", f"around the cable: {', '.join(at)}")


def set_of_untold(job: Job, index: CircuitIndex) -> list[str]:
    """Return the names of what is fixed with what no record tells."""
    told = {mount.device for mount in job.mounts}
    untold = [unit.id for unit in devices_of(index) if mounted_as(unit) not in told]
    return untold + [f"holder of the {each.id}" for each in held_holders(index)]


def _bought_for_a_hole(mount: Mount, job: Job) -> bool:
    """Whether what holds a device is told at the hole that it goes into."""
    return any(mount.by in each.purpose and mount.device in each.purpose for each in job.holes)
