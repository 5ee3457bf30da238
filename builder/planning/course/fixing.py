"""The acts in which things are fixed to the car and drilled into it, before any cable is laid."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.job import Hole, Job
from builder.model.job.places import BOARD, FixedBy
from builder.planning.circuit.devices import devices_of, held_holders, mounted_as, where_words
from builder.planning.circuit.index import CircuitIndex
from builder.planning.course.car_states import DEAD
from builder.planning.course.model import Act, Needs, Said
from builder.planning.course.trade import FIXED

_BLIND = "nobody has looked behind it: no drill and no screw before somebody has"
_DRILL = "lining off, a hand or a lamp behind; a stop on the drill; a small hole first"
_UNTOLD = "how is not on record; write down what holds it"
_NOWHERE = "where and how are not on record; write down both"
_NO_SCREW = "no screw and no drill before somebody has looked behind"
_HOLDS: dict[FixedBy, str] = {
    "screws": "screwed to",
    "bolts": "bolted to",
    "strap": "strapped to",
    "rail": "on the rail of",
    "glue": "glued or taped to",
}


def fixing_acts(
    job: Job,
    index: CircuitIndex,
    reached: Needs,
    house: HouseDefaults,
    waits: Mapping[str, str],
) -> Iterator[Act]:
    """Yield each hole with what is behind it, then what is fixed where.

    `waits` says of a device what has to be known before it is fixed for good.
    """
    wanted = {**DEAD, **reached}

    def act(id: str, said: Said, minutes: float) -> Act:
        return Act(id, "build", said, wanted, frozenset({FIXED}), minutes=minutes)

    for at, hole in enumerate(job.holes):
        yield act(f"hole {at}", _hole(hole), house.hand_hole_min)
    if job.holes:
        text = "every hole: edge smoothed, painted, a grommet where a wire passes"
        yield act("edges", Said(text), 2.0 * len(job.holes))
    boards_first = sorted(job.mounts, key=lambda mount: mount.device != BOARD)
    for at, mount in enumerate(boards_first):
        text = f"{mount.device}: {_HOLDS[mount.by]} {mount.fixed_to}"
        said = Said(text, blocked=waits.get(mount.device, ""))
        yield act(f"mount {at}", said, house.hand_mount_min)
    told = {mount.device for mount in job.mounts}
    for unit in devices_of(index):
        if mounted_as(unit) not in told:
            untold = _NOWHERE if unit.place == unit.id else _UNTOLD
            text = f"{where_words(unit)} fixed so that it cannot move: {untold}"
            said = Said(text, blocked=waits.get(unit.id, ""), caution=_NO_SCREW)
            yield act(f"mount {unit.id}", said, house.hand_mount_min)
    for fuse in held_holders(index):
        text = f"holder of the {fuse.id} ({fuse.place}) {_HOLDER}: {_UNTOLD}"
        yield act(f"mount {fuse.id}", Said(text, caution=_NO_SCREW), house.hand_mount_min)


_HOLDER = "fixed so that it cannot move and no lead pulls at it, its lid within reach"


def _hole(hole: Hole) -> Said:
    said = f"hole of {shown(hole.size_mm)} mm, {hole.where}, for {hole.purpose}"
    if not hole.known:
        return Said(f"{said}: behind it {hole.behind or 'nobody knows what'}", blocked=_BLIND)
    return Said(f"{said}: behind it {hole.behind}, as {hole.looked_by} saw", caution=_DRILL)
