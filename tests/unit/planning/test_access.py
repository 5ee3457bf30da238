"""What comes off before a place is reached, and in which order."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import shipped_parts
from plan_cars import doors_car

from builder.model.access import AccessPart, Passage, Removal
from builder.model.job import CablePass, Hole, Mount, Route
from builder.model.vehicle import Vehicle
from builder.planning.car.access import job_parts, parts_over, radio_parts
from builder.planning.car.route_zones import touches


def panel(name: str, *uncovers: str, behind: tuple[str, ...] = ()) -> AccessPart:
    return AccessPart(name=name, kind="panel", uncovers=uncovers or ("nothing",), behind=behind)


def names(parts: tuple[AccessPart, ...]) -> list[str]:
    return [part.name for part in parts]


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("under the left seat", "under both front seats", True),
        ("under the driver's seat", "under both front seats", True),
        ("right sill", "both sills", True),
        ("both sills", "sill", True),
        ("under both front seats", "the seats", True),
        ("both front doors", "both doors", True),
        ("left rear seat", "under both front seats", False),
        ("left sill", "right sill", False),
        ("left kick panel", "both sills", False),
        ("under both front seats", "both rear doors", False),
        ("under the left seat, facing the sill", "left sill", False),
        ("left sill, facing the door", "left sill", True),
    ],
)
def test_both_sides_of_a_place_are_each_of_the_two(one: str, other: str, same: bool) -> None:
    assert touches(one, other) is same
    assert touches(other, one) is same


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


def test_a_job_takes_off_what_lies_over_its_devices_ways_and_passages(vehicle):
    job = shipped_parts("tansy-subwoofer").job
    sill = panel("left sill strip", "left sill, front", "footwell")
    way = Passage(name="grommet", where="low", between=("engine bay", "footwell"), grommet="own")
    car = replace(vehicle, access=(*PARTS, sill), passages=(way,))
    bare = replace(job, routes=(), converter_place="roof", amplifiers=(), mounts=(), holes=())
    bare = replace(bare, passes=())
    assert job_parts(car, bare) == ()
    assert names(job_parts(car, replace(bare, converter_place="left luggage side"))) == [
        "load floor",
        "left luggage trim",
    ]
    taken = CablePass(through="grommet", carries=("supply",), seal="grommet", drip_loop="yes")
    assert names(job_parts(car, replace(bare, passes=(taken,)))) == ["left sill strip"]
    drilled = Hole(where="spare wheel well", purpose="screws", size_mm=4, behind="free air")
    assert names(job_parts(car, replace(bare, holes=(drilled,)))) == ["load floor"]
    fixed = Mount(device="amp 1", fixed_to="a board in the spare wheel well", by="screws")
    assert names(job_parts(car, replace(bare, mounts=(fixed,)))) == ["load floor"]
    way = Route(from_place="coin tray", to_place="amp 1", carries="control", length_m=1, zones=())
    assert names(job_parts(car, replace(bare, routes=(way,)))) == ["flap", "strip"]


@pytest.mark.parametrize(
    ("job", "off"),
    [
        ("tansy-subwoofer", ["load floor", "tail sill cover", "right luggage trim",
                             "right sill strip", "left sill strip", "trim ring"]),
        ("rook-two-amplifiers", ["right sill plate", "left sill plate", "rear bench",
                                 "ash tray", "centre stack"]),
        ("ullin-split-fronts", ["left front seat", "left sill strip", "load floor",
                                "left luggage trim"]),
        ("cutter-fronts", ["left sill strip", "right kick panel", "left seat",
                           "left kick panel"]),
    ],
)  # fmt: skip
def test_the_shipped_cars_say_what_comes_off_for_their_jobs(job, off):
    parts = shipped_parts(job)
    assert names(job_parts(parts.vehicle, parts.job)) == off
