"""The acts of a loom: made and rung out at the table, its car end in, its own plug in the unit."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Joint, Unit
from builder.planning.circuit.terminal_names import plug_name
from builder.planning.course.car_states import DEAD, plug_of
from builder.planning.course.model import Act, Said, among
from builder.planning.course.places import Places, plug_in
from builder.planning.course.trade import LOOM_HOME, LOOM_IN, LOOM_MADE
from builder.planning.views.loom_joints import looms_of, made_in
from builder.planning.views.names import joint_words
from builder.planning.views.plugs_home import home_words, plugs_home


def table_acts(index: CircuitIndex, house: HouseDefaults) -> Iterator[Act]:
    """Yield what is done on a table before the car is touched, loom by loom."""
    for unit in looms_of(index):
        made = [each for each in made_in(index, unit) if each.kind != "plug_home"]
        closed = [each.what for each in index.circuit.open_ends if each.place == unit.id]
        text = (
            f"at the table: make {unit.id} ({unit.record}) by its loom sheet; cut its cables by "
            "the cut list and join them to it"
        )
        lines = (
            *(joint_words(index, joint) for joint in made),
            *(f"closed off: {what}" for what in closed),
        )
        wires = sum(1 for wire in index.circuit.wires if wire.loom == unit.id)
        yield Act(
            f"make {unit.id}", "before", Said(text, lines), tags=frozenset({LOOM_MADE}),
            makes=tuple(joint.id for joint in made),
            minutes=house.hand_loom_min * wires + house.hand_joint_min * len(made),
        )  # fmt: skip


def plug_acts(index: CircuitIndex, places: Places, house: HouseDefaults) -> Iterator[Act]:
    """Yield how each loom goes in: the car's plug first, its own plug when its legs were read."""
    for unit in looms_of(index):
        for joints in plugs_home(made_in(index, unit)).values():
            yield _home(index, places, unit, joints, house)


def interface_acts(index: CircuitIndex, places: Places, house: HouseDefaults) -> Iterator[Act]:
    """Yield how each data interface goes between a plug and its unit, by plugs of its own.

    Where the car's plug goes into a loom it is the loom's own plug that goes into the interface.
    """
    loomed = {what for act in plug_acts(index, places, house) for what in act.does}
    for unit in index.circuit.units:
        plugs = [each for each in places.hands.plugs if plug_name(each) == unit.place]
        if unit.kind == "interface" and plugs:
            yield _between(unit, plug_of(plugs[0].id), loomed, places, house)


def _between(unit: Unit, what: str, loomed: set[str], places: Places, house: HouseDefaults) -> Act:
    behind, into = what in loomed, places.unit_of(what)
    said = (
        f"between the plug of the loom and the {into}, until both click"
        if behind
        else f"{unit.place} into it until it clicks, its own plug into the {into}"
    )
    return Act(
        f"{unit.id} in", "build",
        Said(f"{unit.id} in: {said}"),
        {**DEAD, **places.open_at([unit.place]), what: among("loomed" if behind else "off")},
        frozenset({LOOM_HOME}), {} if behind else {what: "loomed"},
        minutes=2 * house.hand_plug_min,
    )  # fmt: skip


def _home(
    index: CircuitIndex, places: Places, unit: Unit, joints: list[Joint], house: HouseDefaults
) -> Act:
    ends = [end for joint in joints for end in joint.joins]
    other = next(end for end in ends if index.unit_of(end).kind != "loom")
    at_car = index.unit_of(other).kind == "plug"
    what = plug_of(plug_in(other))
    text = (
        f"{unit.id} in: the car's plug into it until it clicks"
        if at_car
        else f"{unit.id}, its own plug into the {places.unit_of(what)} until it clicks"
    )
    begins = among("off" if at_car else "in loom")
    return Act(
        f"{unit.id} {'in' if at_car else 'home'}", "build",
        Said(text, (f"{home_words(index, joints)}: plug home",)),
        {**DEAD, **places.open_at([what]), what: begins},
        frozenset({LOOM_IN if at_car else LOOM_HOME}),
        {what: "in loom" if at_car else "loomed"},
        makes=tuple(joint.id for joint in joints), minutes=house.hand_plug_min,
    )  # fmt: skip
