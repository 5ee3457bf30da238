"""Conductors: pairs whole, classes apart, every spare insulated, jackets counted."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Cable, CablePair
from builder.model.wire import Wire
from builder.planning.cables.allocation import (
    Allocation,
    allocate,
    conductors_of_cable,
)
from builder.planning.cables.checks import overload_flags, unplaced_flags, use_flags
from builder.planning.cables.colour_clashes import CarWire, clash_words, colour_clashes
from builder.planning.car.demands import Demand, count_demands
from builder.planning.power.conductors import awg

HOUSE = HouseDefaults()
CORNERS = ("front-left", "front-right", "rear-left", "rear-right")


def spare_ends(found: Allocation) -> list[str]:
    """Both ends of every spare conductor."""
    spare = [use.place for jacket in found.jackets for use in jacket.spare]
    return [f"{place} {end}" for place in spare for end in ("from", "to")]


def wire(base: str, stripe: str | None = None) -> Wire:
    return Wire(base=base, stripe=stripe)


def cable(pairs: tuple[str, ...], singles: tuple[str, ...], name: str = "cable") -> Cable:
    return Cable(
        id=name, data="invented", name=name, use="multi_conductor", size_awg="18", size_mm2=None,
        material="copper", jacket="black",
        pairs=tuple(CablePair(positive=wire(base), negative=wire(base, "black")) for base in pairs),
        singles=tuple(wire(base) for base in singles), shield="no", on_reel_m=None,
    )  # fmt: skip


FIVE_CORE = cable(("brown", "orange"), ("blue",), "five-core")
THREE_CORE = cable((), ("red", "black", "yellow"), "three-core")
TWIN = cable(("red",), (), "twin")


def signal(channel: str, to_end: str = "converter") -> Demand:
    return Demand(channel, "radio", to_end, "signal", True, 0.0, channel)


def amplified(channel: str, music_a: float = 2.04) -> Demand:
    return Demand(channel, "amplifier", "car plug", "amplified", True, music_a, channel)


TURN_ON = Demand("turn-on", "radio", "converter", "control", False)
FOUR_DOORS = (*(amplified(c) for c in CORNERS), TURN_ON, *(signal(c) for c in reversed(CORNERS)))


def work(found: Allocation, jacket: int) -> dict[str, str]:
    return {
        use.place: use.demand.purpose
        for use in found.jackets[jacket - 1].uses
        if use.demand is not None
    }


def test_four_doors_take_four_jackets() -> None:
    count = count_demands(FOUR_DOORS)
    assert (count.pairs, count.singles, count.conductors) == (8, 1, 17)
    found = allocate(FOUR_DOORS, [FIVE_CORE])
    assert len(found.jackets) == 4
    assert [jacket.kind for jacket in found.jackets] == ["signal"] * 2 + ["amplified"] * 2
    assert work(found, 1) == {
        "pair 1 positive": "front-left",
        "pair 1 negative": "front-left",
        "pair 2 positive": "front-right",
        "pair 2 negative": "front-right",
        "single 1": "turn-on",
    }
    assert work(found, 4)["pair 2 negative"] == "rear-right"
    assert not found.unplaced and not use_flags(found.uses)


def test_three_spare_singles_are_insulated_at_both_ends() -> None:
    found = allocate(FOUR_DOORS, [FIVE_CORE])
    assert len(spare_ends(found)) == 2 * 3


SPLIT_FRONTS = (
    *(signal(f"{side}-{band}") for side in CORNERS[:2] for band in ("woofer", "tweeter")),
    signal("sub"),
    *(amplified(f"{side}-{band}") for side in CORNERS[:2] for band in ("woofer", "tweeter")),
)


def test_nine_pairs_are_not_eighteen_conductors() -> None:
    count = count_demands(SPLIT_FRONTS)
    assert (count.pairs, count.conductors) == (9, 18)
    found = allocate(SPLIT_FRONTS, [FIVE_CORE])
    # Four jackets hold 20 conductors, but only 8 pairs; unmixed and whole it takes five.
    assert len(found.jackets) == 5
    assert [jacket.kind for jacket in found.jackets] == ["signal"] * 3 + ["amplified"] * 2
    spare = Counter(use.place.split()[0] for jacket in found.jackets for use in jacket.spare)
    assert spare == {"pair": 2, "single": 5}
    assert len(spare_ends(found)) == 14


def test_add_on_sub_to_two_places() -> None:
    to_trim = [Demand(c, "side trim", "converter", "signal", True, 0, c) for c in CORNERS[2:]]
    twins = allocate(to_trim, [TWIN])
    assert len(twins.jackets) == 2 and not spare_ends(twins)
    single = allocate([TURN_ON], [cable((), ("blue",), "single")])
    assert len(single.jackets) == 1 and not spare_ends(single)


def test_stock_is_taken_in_its_order() -> None:
    power = replace(cable((), ("red",), "power"), use="power")
    single = cable((), ("blue",), "single")
    found = allocate([signal("front-left"), TURN_ON], [power, TWIN, single])
    assert [jacket.cable for jacket in found.jackets] == ["twin", "single"]


def test_bands_of_a_side_stand_beside_each_other() -> None:
    found = allocate(reversed(SPLIT_FRONTS), [FIVE_CORE])
    order = [use.demand.purpose for use in found.uses if use.demand and "positive" in use.place]
    assert order[:5] == [
        "front-left-woofer",
        "front-left-tweeter",
        "front-right-woofer",
        "front-right-tweeter",
        "sub",
    ]


def test_control_never_rides_with_amplified_wires() -> None:
    control = Demand("turn-on", "amplifier", "car plug", "control", False)
    found = allocate([amplified("front-left"), control], [FIVE_CORE])
    assert [jacket.kind for jacket in found.jackets] == ["amplified", "control"]


def test_supply_takes_singles_and_control_rides_along() -> None:
    supply = [Demand(name, "amplifier", "converter", "supply", False) for name in ("plus", "minus")]
    control = Demand("remote", "converter", "amplifier", "control", False)
    found = allocate([control, *supply], [THREE_CORE])
    assert work(found, 1) == {"single 1": "plus", "single 2": "minus", "single 3": "remote"}


def test_other_ends_are_another_jacket() -> None:
    found = allocate([signal("front-left"), signal("front-right", "second box")], [FIVE_CORE])
    assert [jacket.to_end for jacket in found.jackets] == ["converter", "second box"]


def test_a_cable_without_pairs_never_fits() -> None:
    found = allocate([signal("front-left"), TURN_ON], [THREE_CORE])
    assert len(found.jackets) == 1
    (flag,) = unplaced_flags(found)
    assert flag.kind == "no_conductor_fits" and "front-left" in flag.where


def test_overloaded_conductors() -> None:
    found = allocate([amplified("sub", 18.3), amplified("front-left", 2.0)], [FIVE_CORE])
    flags = overload_flags(found, {"five-core": awg("16")}, HOUSE)
    assert [flag.where for flag in flags] == [
        "pair 2 positive of cable 1",
        "pair 2 negative of cable 1",
    ]
    assert "18.3 A" in flags[0].says and "10 A" in flags[0].says
    assert not overload_flags(found, {"five-core": awg("12")}, HOUSE)


def test_a_layout_of_the_jobs_own_is_judged() -> None:
    uses = list(allocate([signal("front-left"), signal("front-right")], [FIVE_CORE]).uses)
    swapped = [
        replace(uses[0], demand=uses[2].demand),
        uses[1],
        replace(uses[2], demand=uses[0].demand),
        uses[3],
    ]
    assert {flag.kind for flag in use_flags(swapped)} == {"pair_split"}
    assert [flag.kind for flag in use_flags([*uses, uses[0]])] == ["conductor_twice"]
    mixed = [
        replace(uses[0], demand=amplified("sub")),
        replace(uses[1], demand=amplified("sub")),
        *uses[2:],
    ]
    assert [flag.kind for flag in use_flags(mixed)] == ["classes_mixed"]


@pytest.mark.parametrize(
    ("kind", "pair"), [("signal", False), ("amplified", False), ("control", True), ("light", True)]
)
def test_impossible_demands(kind: str, pair: bool) -> None:
    with pytest.raises(ValueError, match="odd"):
        Demand("odd", "a", "b", kind, pair)


def test_colours_that_deceive() -> None:
    found = allocate([signal("front-left"), signal("front-right"), TURN_ON], [FIVE_CORE])
    car = [
        CarWire("A.1", "constant", None, None, wire("blue")),
        CarWire("A.2", "speaker", "front-left", "positive", wire("brown")),
        CarWire("A.3", "speaker", "rear-left", "positive", wire("orange")),
        CarWire("A.4", "speaker", "front-left", "positive", wire("brown", "black")),
        CarWire("A.5", "amplifier_on", None, None, wire("blue")),
    ]
    clashes = colour_clashes(found, car)
    assert [(clash.colours, clash.other) for clash in clashes] == [
        ("brown/black", "A.4"),
        ("orange", "A.3"),
        ("blue", "A.1"),
    ]
    assert not any(clash.expected for clash in clashes)
    assert "turn-on" in clashes[2].says and "constant" in clashes[2].says


def test_same_colours_in_two_jackets_are_expected() -> None:
    clashes = colour_clashes(allocate(FOUR_DOORS, [FIVE_CORE]))
    assert {clash.colours for clash in clashes} == {
        "brown", "brown/black", "orange", "orange/black",
    }  # fmt: skip
    assert all(clash.expected for clash in clashes)
    assert clash_words(clashes) == (
        "brown, brown/black, orange, orange/black are in cables 1, 2, 3, 4: go by the labels",
    )


def test_one_wire_of_the_car_is_told_once_for_all_that_look_like_it() -> None:
    car = [CarWire("A.9", "ground", None, None, wire("brown"))]
    told = clash_words(colour_clashes(allocate(FOUR_DOORS, [FIVE_CORE]), car))
    assert told[1:] == (
        "the car's brown at A.9 is ground, ours is front-left, rear-left: label it",
    )


@st.composite
def jobs(draw: st.DrawFn) -> tuple[list[Demand], Cable]:
    count = draw(st.integers(0, 14))
    ends = st.sampled_from((("radio", "converter"), ("amplifier", "car plug"), ("a", "b")))
    demands = []
    for number in range(count):
        kind = draw(st.sampled_from(("signal", "amplified", "supply", "control")))
        pair = kind in ("signal", "amplified") or (kind == "supply" and draw(st.booleans()))
        demands.append(Demand(f"demand {number}", *draw(ends), kind, pair))
    pairs = draw(st.integers(0, 4))
    singles = draw(st.integers(0 if pairs else 1, 3))
    stock = cable(("brown", "orange", "green", "white")[:pairs], ("blue", "red", "grey")[:singles])
    return demands, stock


@given(jobs())
def test_every_conductor_is_used_once_or_insulated(
    job: tuple[list[Demand], Cable],
) -> None:
    demands, stock = job
    found = allocate(demands, [stock])
    places = [place for place, _ in conductors_of_cable(stock)]
    for jacket in found.jackets:
        assert [use.place for use in jacket.uses] == places
    assert not use_flags(found.uses)
    used = sum(use.demand is not None for use in found.uses)
    assert 2 * (len(found.uses) - used) == len(spare_ends(found))
    placed = count_demands([d for d in demands if d not in found.unplaced])
    assert used == placed.conductors


@given(jobs())
def test_the_order_of_the_demands_does_not_change_how_many_jackets(
    job: tuple[list[Demand], Cable],
) -> None:
    demands, stock = job
    here, back = (allocate(each, [stock]) for each in (demands, demands[::-1]))
    assert len(here.jackets) == len(back.jackets)
