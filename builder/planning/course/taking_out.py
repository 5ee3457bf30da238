"""The acts in which what a job brought leaves the car, and the car is shut behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.model.job import Job
from builder.model.job.places import BOARD, FixedBy
from builder.planning.bay.closed_holes import closed_holes
from builder.planning.car.route_zones import restraint_zones_touched
from builder.planning.circuit.devices import devices_of, mounts_of, where_words
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import MAKERS_OWN, Unit
from builder.planning.circuit.terminal_names import SECOND, ground_of
from builder.planning.course.back_trade import CABLES_OUT, OUT, SHUT
from builder.planning.course.back_work import BackWork
from builder.planning.course.finishing import painted_places
from builder.planning.course.job_hands import JobHands
from builder.planning.course.model import Act, Needs, Said, State, needs
from builder.planning.course.passing import hazards_at
from builder.planning.views.fixing_parts import set_of_untold
from builder.planning.views.names import element_words
from builder.planning.words import BLOCK

_UNDO: dict[FixedBy, str] = {
    "screws": "its screws out of", "bolts": "its bolts out of", "strap": "its strap off",
    "rail": "off the rail of", "glue": "cut or peeled off",
}  # fmt: skip


def taking_out_acts(bay: BackWork, index: CircuitIndex, moved: JobHands) -> Iterator[Act]:
    """Yield each device taken out, then cables and parts, then what is closed behind them."""
    job, house = bay.parts.job, moved.hands.house
    for unit in devices_of(index):
        at = [unit.place, *(each.fixed_to for each in mounts_of(job, unit))]
        wanted = {**moved.batteries.dead, **moved.places.open_at(at)}
        last = ", its ground last" if ground_of(unit.id) in index.terminals else ""
        text = _out(job, unit, last)
        said = f"{text} if it is in the car" if unit.id in bay.joined.absent else text
        gone: State = {SECOND: "absent"} if unit.id == SECOND else {}
        yield replace(_act(said, wanted, OUT, house.hand_mount_min), does=gone)
    all_open = {**moved.batteries.dead, **moved.open}
    parts = _parts(index)
    said = f"; out with them, what holds them undone: {', '.join(parts)}" if parts else ""
    text = f"take supply, ground and every other cable of the job out{said}"
    if parts or any(index.own_wires()):
        yield _act(text, all_open, CABLES_OUT, house.hand_mount_min)
    for mount in (each for each in job.mounts if each.device == BOARD):
        text = f"{BOARD} out: {_UNDO[mount.by]} {mount.fixed_to}"
        yield _act(text, all_open, CABLES_OUT, house.hand_mount_min)
    for one in job.passes:
        text = f"{one.through}: nothing of the job passes it any more; closed and sealed as it was"
        mind = hazards_at(bay.parts.vehicle, one)
        yield _act(text, all_open, SHUT, house.hand_hole_min, mind)
    if set_of_untold(job, index):
        yield _act(_HOLES, all_open, SHUT, 2.0)
    for text in closed_holes(job):
        yield _act(text, all_open, SHUT, house.hand_hole_min)
    if not job.passes and not job.holes:
        yield _act("seal every hole and grommet that was opened", all_open, SHUT, 1.0)
    for place in painted_places(index):
        yield _act(f"{place}: bare metal painted or greased over", all_open, SHUT, 1.0)
    for zone in restraint_zones_touched(job, bay.parts.vehicle):
        text = f"{zone}, with restraint parts: everything there as it was found before the work"
        yield _act(text, needs(battery="waited"), SHUT, 0.0)


_HOLES = (
    "every screw hole and hole of the work that was written down: its edge painted, then plugged"
)


def _act(text: str, wanted: Needs, tag: str, minutes: float, mind: str = "") -> Act:
    return Act(text, "close", Said(text, caution=mind), wanted, frozenset({tag}), minutes=minutes)


def _out(job: Job, unit: Unit, last: str) -> str:
    """A device with what holds it, where somebody wrote that down."""
    how = ", ".join(f"{_UNDO[each.by]} {each.fixed_to}" for each in mounts_of(job, unit))
    held = how or "what holds it undone"
    if unit.place == unit.id:
        held += ", at the place that was written down"
    if unit.kind == "interface":  # its plugs are pulled by a step of their own
        return f"{where_words(unit)} out: {held}"
    return f"{where_words(unit)} out: every end out of its terminals{last}, {held}"


def _parts(index: CircuitIndex) -> list[str]:
    """Looms, and holders and parts of the job that hang in its cables; a block leaves with its
    own, and what two batteries are joined through with its device."""
    looms = [unit.id for unit in index.circuit.units if unit.kind == "loom"]
    return looms + [
        element_words(each)
        for each in index.circuit.elements
        if not each.loom
        and each.kind not in MAKERS_OWN
        and each.place != BLOCK
        and each.purpose not in index.units
    ]
