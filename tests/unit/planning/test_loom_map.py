"""What sits where in a loom, what runs through it, what it joins, and what its plugs mate with."""

from __future__ import annotations

from dataclasses import replace

import pytest
from loom_samples import CAR, CUTS, RADIO, STRAIGHT_16, loom
from pack_samples import shelf
from shipped_cars import car

from builder.planning.car.interface_fit import bus_plug, plug_for
from builder.planning.looms.conductors import at_cavity, conductors, leading_to, length_m
from builder.planning.looms.cutting import cut_loom
from builder.planning.looms.mates import mates_said, mismatches
from builder.planning.looms.nets import nets_of, through_cavities

SHELF = shelf()
SEDGE = SHELF.looms["sedge-fronts-out"]


def test_a_cavity_holds_one_wire_and_both_of_its_ends_are_known():
    (wire,) = at_cavity(SEDGE, CAR, "2")
    assert wire.start.shown == "car end.2"
    assert wire.to.shown == "car fronts (from car end.2)"
    assert (wire.wire.base, wire.carries, wire.path) == ("brown", "speaker", ("wires", 4))
    assert at_cavity(SEDGE, CAR, "16") == ()


def test_short_forms_are_taken_apart_wire_by_wire():
    straight = [wire for wire in conductors(SEDGE) if wire.through]
    assert [wire.start.cavity for wire in straight] == [
        "6",
        "10",
        "11",
        "12",
        "13",
        "7",
        "14",
        "15",
    ]
    assert straight[2].path == ("wires", 15, "through", 1)
    assert {(w.start.place, w.to.place) for w in straight} == {(RADIO, CAR)}
    assert len(conductors(SEDGE)) == 14 + 8


def test_what_leads_to_a_branch_bare_or_in_a_plug():
    assert [w.start.shown for w in leading_to(SEDGE, "radio fronts")] == [
        *("radio end.2", "radio end.3", "radio end.4", "radio end.5"),
    ]
    assert [(w.start.shown, w.to.shown) for w in leading_to(SEDGE, "feed")] == [
        *(("splice 1", "feed.1"), ("splice 2", "feed.2")),
    ]


def test_through_is_what_reaches_the_same_cavity_over_splices_too():
    assert sorted(through_cavities(SEDGE), key=int) == [
        *("1", "6", "7", "9", "10", "11", "12", "13", "14", "15"),
    ]
    crossed = loom([{"from": f"{RADIO}.1", "to": f"{CAR}.2"}, {"through": [3]}])
    assert through_cavities(crossed) == ("3",)


def test_the_map_of_a_loom_has_each_splice_as_one_net():
    found = {net.terminals: net for net in nets_of(SEDGE)}
    assert len(found) == 8 + 2 + 8  # fronts in halves, supply and ground, straight through
    supply = next(net for net in found.values() if net.cavities("feed") == ("1",))
    assert supply.cavities(RADIO) == supply.cavities(CAR) == ("1",)
    assert len(supply.conductors) == 3


def test_wires_to_one_bare_branch_are_not_joined_by_it():
    nets = nets_of(
        loom(
            [{"from": f"{CAR}.1", "to": "branch 1"}, {"from": "branch 1", "to": f"{CAR}.2"}],
            branches=[{"name": "branch 1"}],
        )
    )
    assert [net.cavities(CAR) for net in nets] == [("1",), ("2",)]


def test_lengths_are_those_of_the_branch_or_of_the_loom():
    of = {wire.start.shown: length_m(SEDGE, wire) for wire in conductors(SEDGE)}
    assert of["radio end.6"] == 0.3
    assert of["car end.2"] == 0.76  # leaves 0.14 m from the radio end: 0.16 m to there, 0.6 m out
    assert of["car end.1"] == 0.08  # ends at a splice 0.22 m from the radio end
    assert of["splice 1"] == 0.415  # 15 mm along the bundle, then 0.4 m of branch
    assert length_m(STRAIGHT_16, conductors(STRAIGHT_16)[0]) is None


def test_the_loom_of_the_worked_example_breaks_eight_wires_and_keeps_eight():
    harness = cut_loom(STRAIGHT_16, CUTS)
    straight = [wire for wire in harness.wires if wire.through]
    assert [wire.start.cavity for wire in straight] == [str(at) for at in range(9, 17)]
    assert len(harness.wires) - len(straight) == 4 + 8  # radio ends and car ends to cable
    assert [stub.shown for stub in harness.stubs] == [f"radio end.{at}" for at in (5, 6, 7, 8)]


@pytest.mark.parametrize("made", SHELF.looms.values(), ids=SHELF.looms)
def test_the_ends_of_a_shipped_loom_go_into_each_other(made):
    one, other = (SHELF.housings[end.housing] for end in made.ends)
    assert mates_said(one, other) == "yes"
    assert [*mismatches(one, other)] == [*mismatches(other, one)] == []


def test_a_plug_does_not_go_into_a_plug():
    plug = SHELF.housings["two-row-18-latch-top"]
    assert mates_said(plug, plug) == "no"
    assert next(mismatches(plug, plug)) == "with the latches together cavity 9 faces cavity 1"


def test_every_pair_that_says_it_mates_is_drawn_so():
    for housing in SHELF.housings.values():
        for mate in housing.mates_with:
            assert [*mismatches(housing, SHELF.housings[mate])] == []


TEASEL = car("cindral-teasel-2023")
OSIER = car("cindral-osier-2018")


def test_an_interface_fits_by_its_plug_and_its_bus():
    two, one = SHELF.interfaces["ok-7n"], SHELF.interfaces["tsm-9n"]
    assert (plug_for(two, TEASEL), plug_for(one, TEASEL)) == ("B", None)
    assert (plug_for(two, OSIER), plug_for(one, OSIER)) == (None, "A")


@pytest.mark.parametrize(
    ("wires", "plug"),
    [
        ([("A", "data_high"), ("A", "data_low")], "A"),
        ([("A", "data_high")], None),
        ([("A", "data_high"), ("B", "data_low")], None),
        ([("A", "ground"), ("B", "data_low"), ("B", "data_high")], "B"),
        ([("A", "data_single")], None),
    ],
)
def test_a_bus_needs_all_its_wires_in_one_plug(wires, plug):
    interface = SHELF.interfaces["ok-7n"]
    placed = [(name, "two-row-20-latch-top", function) for name, function in wires]
    assert bus_plug(interface, placed) == plug
    assert bus_plug(interface, [(n, "two-row-16", f) for n, _, f in placed]) is None


def test_a_wire_to_a_place_that_nobody_measured_is_as_long_as_its_branch_or_unknown():
    bare = replace(
        SEDGE,
        branches=tuple(replace(each, at_m=None) for each in SEDGE.branches),
        splices=tuple(replace(each, at_m=None) for each in SEDGE.splices),
    )
    of = {wire.start.shown: length_m(bare, wire) for wire in conductors(bare)}
    assert (of["car end.2"], of["radio end.6"]) == (0.6, 0.3)
    assert of["car end.1"] is None and of["splice 1"] is None
