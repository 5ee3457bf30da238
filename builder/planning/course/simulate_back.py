"""The way back walked through from its first move to its last: what in it could not be done.

Each law is said anew; nothing here asks what a move needs, or how the moves were ordered. An empty
answer means that hands can carry it out, and that nothing of the job stays behind.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.model.access import AccessPart
from builder.planning.car.access import parts_over, radio_parts
from builder.planning.circuit.devices import mounts_of
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.terminal_names import SECOND
from builder.planning.course.back_trade import LEFT_WHOLE, READ
from builder.planning.course.car_states import BATTERY, KEY, PLAY, RADIO, plug_of
from builder.planning.course.joined import Joined
from builder.planning.course.model import Act, Change, Course, State, done_by
from builder.planning.course.places import reached_at
from builder.planning.course.simulate_power import powered
from builder.planning.words import HowItStands, UndoneHow
from builder.planning.work_pack import JobParts

_OF_THE_CAR: tuple[UndoneHow, ...] = ("rejoin", "take_off", "put_back")
"""Joints that leave something of the car's own to be closed, joined or put back."""
_AS_IT_CAME: tuple[HowItStands, ...] = ("on", "home", "fitted", "absent", "out", "set", "noted")
_FREE = (KEY, PLAY)


@dataclass(slots=True)
class _Walk:
    """Where a walk through the moves stands."""

    parts: JobParts
    joined: Joined
    state: dict[str, HowItStands]
    undone: Counter[str] = field(default_factory=Counter)


def broken_back(course: Course, begins: State, joined: Joined, parts: JobParts) -> Iterator[str]:
    """Yield each law that a move breaks, from the state `begins`, and what the end lacks."""
    walk = _Walk(parts, joined, dict(begins))
    for move in course.moves:
        said = _moved(walk, move) if isinstance(move, Change) else _worked(walk, move)
        yield from (f"{move.said.text}: {each}" for each in said)
        walk.state = done_by(walk.state, move)
    yield from _at_the_end(walk)


def _moved(walk: _Walk, move: Change) -> Iterator[str]:
    """A thing moved by hand."""
    state, battery = walk.state, walk.state[BATTERY]
    if state[move.what] not in move.begins:
        yield f"{move.what} is {state[move.what]}"
    if move.what.startswith("plug ") and battery == "on":
        yield "a plug is moved with the battery on"
    yield from powered(walk.parts, state, move.what, move.to)
    if _near_restraint(walk.parts, move.what) and battery != "waited":
        yield f"{move.what} is moved before the wait is over"
    if move.what == RADIO and move.to == "pulled":
        yield from _covered(walk, radio_parts(walk.parts.vehicle))
    if move.what == RADIO and move.to == "fitted":
        plugs = [plug_of(x.id) for x in walk.parts.vehicle.plugs if x.unit == "radio"]
        yield from (f"{x} is not home" for x in plugs if state.get(x, "home") != "home")


def _near_restraint(parts: JobParts, what: str) -> bool:
    """Whether somebody said that it is near one, or nobody said that it is not."""
    if what == RADIO:
        removal = parts.vehicle.radio.removal
        return removal is None or removal.restraint != "no"
    return any(part.name == what and part.restraint != "no" for part in parts.vehicle.access)


def _worked(walk: _Walk, act: Act) -> Iterator[str]:
    """Joints are parted with the battery off and nothing before them; the whole car is read."""
    walk.undone.update(act.makes)
    for id in act.makes:
        yield from _parted(walk, id)
    for unit in walk.joined.circuit.units:
        if act.said.text.startswith(unit.id) and " out: every end" in act.said.text:
            held = (each.fixed_to for each in mounts_of(walk.parts.job, unit))
            for place in (unit.place, *held):
                yield from _covered(walk, parts_over(walk.parts.vehicle, place))
    if {READ, LEFT_WHOLE} & act.tags:
        if walk.state[BATTERY] != "on":
            yield "read with the battery off"
        yield from _not_whole(walk)


def _parted(walk: _Walk, id: str) -> Iterator[str]:
    index, vehicle = CircuitIndex(walk.joined.circuit), walk.parts.vehicle
    otherwise = {each.id: each for each in walk.joined.otherwise}
    if id not in index.joints and id not in otherwise:
        yield f"{id} was never made"
        return
    planned = index.joints.get(id)
    place = otherwise[id].place if planned is None else planned.place
    words = otherwise[id].meets.split() if planned is None else planned.joins
    yield from _covered(walk, parts_over(vehicle, reached_at(vehicle, place)))
    if walk.state[BATTERY] == "on":
        yield "parted with the battery on"
    if walk.state.get(SECOND) == "on":
        yield "parted with the second battery on"
    cavities = {f"{plug.id}.{pin.cavity}": plug.id for plug in vehicle.plugs for pin in plug.pins}
    for plug in {cavities[x] for end in words if (x := end.split(" ")[0]) in cavities}:
        if walk.state.get(plug_of(plug)) == "home":
            yield f"parted with plug {plug} home"


def _covered(walk: _Walk, parts: tuple[AccessPart, ...]) -> Iterator[str]:
    closed = (each.name for each in parts if walk.state.get(each.name, "on") == "on")
    yield from (f"{name} is still on" for name in closed)


def _at_the_end(walk: _Walk) -> Iterator[str]:
    """Everything undone once, and the car as it came."""
    planned = walk.joined.circuit.joints
    ours = [each.id for each in planned if each.undone in _OF_THE_CAR]
    ours += [each.id for each in walk.joined.otherwise if each.way_back]
    yield from (f"{x} is undone {walk.undone[x]} times" for x in ours if walk.undone[x] != 1)
    yield from _not_whole(walk)


def _not_whole(walk: _Walk) -> Iterator[str]:
    for what, value in walk.state.items():
        if what not in _FREE and value not in _AS_IT_CAME:
            yield f"{what} is {value}"
