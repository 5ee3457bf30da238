"""The acts that undo what a job changed of the car's own wires and plugs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.model.job import AT_RADIO
from builder.planning.car.access import parts_over
from builder.planning.car.route_zones import touches
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Joint
from builder.planning.circuit.terminal_names import plug_name
from builder.planning.course.back_trade import GROUND_OFF, LINES_OUT, OPENED, SHUT, UNDONE
from builder.planning.course.back_work import BackWork
from builder.planning.course.car_states import DEAD
from builder.planning.course.job_hands import JobHands
from builder.planning.course.joined import is_under_trim
from builder.planning.course.joining import link_through
from builder.planning.course.looms import interface_acts, plug_acts
from builder.planning.course.model import Act, Needs, Said, among
from builder.planning.course.places import reached_at
from builder.planning.views.lead_lines import leads_of, y_leads
from builder.planning.views.way_back import undone
from builder.planning.views.wiring_rows import is_on_a_stud


def loomed_plugs(index: CircuitIndex, moved: JobHands) -> dict[str, str]:
    """Return the plugs of the car that go to their unit by way of a loom or an interface, each
    with the first thing that it goes into."""
    found: dict[str, str] = {}
    acts = (
        *plug_acts(index, moved.places, moved.hands.house),
        *interface_acts(index, moved.places, moved.hands.house),
    )
    for act in acts:
        for what in act.does:
            found.setdefault(what, act.id.rpartition(" ")[0])
    return found


def undoing_acts(
    bay: BackWork, index: CircuitIndex, moved: JobHands, loomed: Mapping[str, str]
) -> Iterator[Act]:
    """Yield what is opened that no record tells of, and every joint and plug of the job undone.

    `loomed` are the plugs that go to their unit by way of something, and what that is.
    """
    yield from _opening(bay, index, moved)
    for what, by in loomed.items():
        yield _unplugged(what, by, moved)
    for unit in index.circuit.units:
        if unit.kind == "interface" and unit.id not in loomed.values():
            yield _act(f"unplug the data interface {unit.id}", moved, [unit.place], UNDONE)
    for text, joints in undone(index):
        yield _undone(text, joints, index, moved)
    yield from _line_leads(index, moved)
    if bay.microphones:
        text = "plug the noise-cancellation microphones in again, each where it was noted"
        yield Act(text, "close", Said(text), DEAD, frozenset({UNDONE}))


def _act(text: str, moved: JobHands, places: Sequence[str], *tags: str) -> Act:
    needs = {**moved.batteries.dead, **moved.places.open_at(places)}
    return Act(
        text,
        "close",
        Said(text),
        needs,
        frozenset(tags),
        minutes=moved.hands.house.hand_terminal_min,
    )


def _undone(text: str, joints: Sequence[Joint], index: CircuitIndex, moved: JobHands) -> Act:
    house = moved.hands.house
    link = link_through(index, joints[0])
    ground = link is not None and link.carries == "ground"
    needs: Needs = {
        **moved.batteries.dead,
        **moved.places.open_at(joint.place for joint in joints),
        **dict.fromkeys(moved.places.plugs_apart(index, joints), among("off")),
    }
    return Act(
        text, "close", Said(text), needs, frozenset({GROUND_OFF if ground else UNDONE}),
        makes=tuple(joint.id for joint in joints), minutes=house.hand_joint_min * len(joints),
    )  # fmt: skip


def _unplugged(what: str, by: str, moved: JobHands) -> Act:
    """A loom or an interface pulled at both ends: the plug of the car hangs free then."""
    unit = moved.places.unit_of(what)
    text = f"unplug {by} at both ends: its own plug out of the {unit}, the car's plug out of it"
    needs = {**moved.batteries.dead, **moved.places.open_at([what]), what: among("loomed")}
    minutes = 2 * moved.hands.house.hand_plug_min
    return Act(
        text, "close", Said(text), needs, frozenset({UNDONE}), {what: "off"}, minutes=minutes
    )


def _line_leads(index: CircuitIndex, moved: JobHands) -> Iterator[Act]:
    places = [
        joint.place for joint in index.circuit.joints if joint.kind in ("line_plug", "y_lead")
    ]
    names = leads_of(index)
    if names:
        forks = [unit.id for unit in y_leads(index)]
        text = f"every line lead unplugged at both ends: {', '.join([*names, *forks])}"
        yield _act(text, moved, places, LINES_OUT)


def _opening(bay: BackWork, index: CircuitIndex, moved: JobHands) -> Iterator[Act]:
    """Places behind trim of which the record does not say what covers them."""
    for place in _untold(bay, index, moved):
        text = f"open the {place}: how is not on record; write down what comes off"
        yield Act(text, "close", Said(text), DEAD, frozenset({OPENED}))
        text = f"close the {place} again, with whatever was taken off"
        yield Act(text, "close", Said(text), DEAD, frozenset({SHUT}))


def _untold(bay: BackWork, index: CircuitIndex, moved: JobHands) -> tuple[str, ...]:
    """Return the places at which something of the car is undone that nobody says how to open; a
    stud lies open."""
    vehicle = moved.hands.vehicle
    joints = [joint for _, joints in undone(index) for joint in joints if not is_on_a_stud(joint)]
    places = dict.fromkeys(joint.place for joint in joints)
    places |= dict.fromkeys(each.place for each in bay.joined.otherwise if is_under_trim(each))
    names = {plug_name(each) for each in vehicle.plugs}
    return tuple(
        place
        for place in places
        if not (touches(place, AT_RADIO) or place in names)
        and not parts_over(vehicle, reached_at(vehicle, place))
    )
