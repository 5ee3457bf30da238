"""What comes off before a place is reached, and in which order."""

from __future__ import annotations

from dataclasses import replace

import pytest
from plan_cars import doors_car

from builder.model.access import AccessPart, Removal
from builder.model.vehicle import Vehicle
from builder.planning.car.access import parts_over, radio_parts


def panel(name: str, *uncovers: str, behind: tuple[str, ...] = ()) -> AccessPart:
    return AccessPart(name=name, kind="panel", uncovers=uncovers or ("nothing",), behind=behind)


def names(parts: tuple[AccessPart, ...]) -> list[str]:
    return [part.name for part in parts]


RING = panel("trim ring", "radio", behind=("strip",))
STRIP = panel("strip", "fuse panel behind the coin tray", behind=("flap",))
FLAP = panel("flap", "coin tray")
LUGGAGE = panel("left luggage trim", "left luggage side", behind=("load floor",))
FLOOR = panel("load floor", "spare wheel well")
PARTS = (RING, STRIP, FLAP, LUGGAGE, FLOOR)


@pytest.fixture
def vehicle() -> Vehicle:
    return replace(doors_car(), access=PARTS)


@pytest.mark.parametrize(
    ("place", "off"),
    [
        ("radio", ["flap", "strip", "trim ring"]),
        ("behind the radio, left of centre", ["flap", "strip", "trim ring"]),
        ("left luggage side", ["load floor", "left luggage trim"]),
        ("left luggage side, beside the amplifier", ["load floor", "left luggage trim"]),
        ("luggage side", ["load floor", "left luggage trim"]),  # which side is not said: as if left
        ("right luggage side", []),
        ("spare wheel well", ["load floor"]),
        ("roof", []),
        ("", []),
    ],
)
def test_parts_come_off_in_the_order_that_each_allows(vehicle, place, off):
    assert names(parts_over(vehicle, place)) == off


def test_the_parts_that_the_radio_is_behind_stand_over_what_uncovers_it(vehicle):
    assert names(radio_parts(vehicle)) == ["flap", "strip", "trim ring"]
    removal = Removal(steps=("lift it out",), behind=("load floor", "flap"))
    said = replace(vehicle, radio=replace(vehicle.radio, removal=removal))
    assert names(radio_parts(said)) == ["load floor", "flap"]
    silent = replace(said, radio=replace(said.radio, removal=replace(removal, behind=())))
    assert names(radio_parts(silent)) == ["flap", "strip", "trim ring"]


def test_a_car_of_which_nobody_said_anything_has_nothing_off(vehicle):
    bare = replace(vehicle, access=())
    assert parts_over(bare, "radio") == radio_parts(bare) == ()


def test_what_two_parts_are_behind_comes_off_once(vehicle):
    shared = panel("vent", "radio", behind=("flap",))
    both = replace(vehicle, access=(*PARTS, shared))
    assert names(parts_over(both, "radio")) == ["flap", "strip", "trim ring", "vent"]


def test_a_circle_and_a_name_of_nothing_still_end(vehicle):
    first = panel("first", "radio", behind=("second", "nobody knows it"))
    second = panel("second", "glove box", behind=("first",))
    circle = replace(vehicle, access=(first, second))
    assert names(parts_over(circle, "radio")) == ["second", "first"]


def test_many_parts_behind_all_those_before_them_cost_no_more_than_their_number(vehicle):
    every = [f"part {number}" for number in range(60)]
    deep = tuple(panel(name, "radio", behind=tuple(every[:at])) for at, name in enumerate(every))
    assert names(parts_over(replace(vehicle, access=deep), "radio")) == every
