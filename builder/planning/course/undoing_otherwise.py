"""The acts that undo what was done otherwise than planned, as it was written down."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from builder.model.job import FittedLoom, MadeJoint
from builder.model.vehicle import Vehicle
from builder.planning.circuit.index import CircuitIndex
from builder.planning.course.back_trade import GROUND_OFF, UNDONE
from builder.planning.course.car_states import DEAD, plug_of
from builder.planning.course.job_hands import JobHands
from builder.planning.course.joined import Joined
from builder.planning.course.model import Act, Needs, Said, among
from builder.planning.course.undoing import loomed_plugs

_GROUND = "ground"
"""In the name of every conductor and post that is one."""


def otherwise_at(joined: Joined, vehicle: Vehicle) -> tuple[tuple[str, ...], frozenset[str]]:
    """Return the places and the plugs of the car at which something was done otherwise."""
    known = {plug.id for plug in vehicle.plugs}
    named = {each for joint in joined.otherwise for each in _plugs(joint, known)}
    places = (joint.place for joint in joined.otherwise if joint.way_back)
    return tuple(places), frozenset(named | {each.plug for each in joined.looms} & known)


def _plugs(joint: MadeJoint, known: Collection[str]) -> list[str]:
    """The plugs whose cavities a joint names: "A.7 red and …"."""
    words = joint.meets.replace(",", " ").split()
    return [each for each in known if any(word.startswith(f"{each}.") for word in words)]


def loomed_in(joined: Joined, index: CircuitIndex, moved: JobHands) -> dict[str, str]:
    """Return the plugs of the car that go to their unit by way of something, and what that is."""
    there = {plug_of(plug.id) for plug in moved.hands.plugs}
    besides = {
        plug_of(x.plug): f"loom {x.record}" for x in joined.looms if plug_of(x.plug) in there
    }
    return {**loomed_plugs(index, moved), **besides}


def otherwise_acts(joined: Joined, moved: JobHands) -> Iterator[Act]:
    """Yield each joint undone that no plan knows, and each loom out of a plug that no record of the
    car describes; what leaves with its part has none."""
    for joint in joined.otherwise:
        if joint.way_back:
            yield _undone(joint, moved)
    there = {plug.id for plug in moved.hands.plugs}
    for loom in joined.looms:
        if loom.plug not in there:
            yield _unplugged(loom)


def _undone(joint: MadeJoint, moved: JobHands) -> Act:
    known = {plug.id for plug in moved.hands.plugs}
    wanted: Needs = {
        **moved.batteries.dead,
        **moved.places.open_at([joint.place]),
        **{plug_of(each): among("off") for each in _plugs(joint, known)},
    }
    text = f"{joint.meets}: {joint.way_back} ({joint.place})"
    return Act(
        f"{joint.id}: {text}", "close", Said(text), wanted,
        frozenset({GROUND_OFF if _GROUND in joint.meets else UNDONE}), makes=(joint.id,),
        minutes=moved.hands.house.hand_joint_min,
    )  # fmt: skip


def _unplugged(loom: FittedLoom) -> Act:
    text = f"plug {loom.plug}: loom {loom.record} out, the car's plug home"
    return Act(text, "close", Said(text), DEAD, frozenset({UNDONE}))
