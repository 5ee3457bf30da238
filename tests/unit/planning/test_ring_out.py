"""The ring-out finds each fault that a loom can have, and leaves out what finds none.

A loom is played as wires between points; faults are put in one by one, and each measurement is
answered from what is then joined, with no help of the planner.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations
from random import Random

import pytest
from loom_samples import CAR, CUTS, RADIO, STRAIGHT_16, loom, random_loom
from pack_samples import shelf
from samples import many

from builder.model.housing import Housing
from builder.model.parts import Loom
from builder.model.parts.loom_wires import Point
from builder.planning.looms.conductors import CABLE, Terminal
from builder.planning.looms.cutting import Cut, Harness, cut_loom
from builder.planning.looms.ring_out import Limit, Measurement, Use, ring_out
from builder.proof.faces.poses import mirror

Wires = list[tuple[Terminal, Terminal]]


def wires_of(harness: Harness) -> Wires:
    return [(wire.start, wire.to) for wire in harness.wires]


def groups(wires: Wires, points: Sequence[Terminal]) -> set[frozenset[Terminal]]:
    """What is joined to what, by walking along the wires."""
    near: dict[Terminal, set[Terminal]] = {point: set() for point in points}
    for one, other in wires:
        near.setdefault(one, set()).add(other)
        near.setdefault(other, set()).add(one)
    found = set()
    for point in points:
        seen, todo = {point}, [point]
        while todo:
            todo += (new := near[todo.pop()] - seen)
            seen |= new
        found.add(frozenset(seen & {*points}))
    return found


def passes(measured: Measurement, found: set[frozenset[Terminal]]) -> bool:
    """Whether a loom in which this is joined gives the reading that is wanted."""
    net = next(group for group in found if measured.at in group)
    if measured.limit is not None:
        return {*measured.against} <= net
    return not net & {*measured.against}


def opens(wires: Wires) -> Iterator[Wires]:
    """Each wire broken; and each splice fallen into two."""
    yield from (wires[:at] + wires[at + 1 :] for at in range(len(wires)))
    for splice in {point for wire in wires for point in wire if point.is_splice}:
        at = [index for index, wire in enumerate(wires) if splice in wire]
        for size in range(1, len(at)):
            for moved in combinations(at, size):
                other = splice._replace(place=f"{splice.place} b")
                yield [
                    _renamed(wire, {splice: other}) if index in moved else wire
                    for index, wire in enumerate(wires)
                ]


def _renamed(
    wire: tuple[Terminal, Terminal], names: dict[Terminal, Terminal]
) -> tuple[Terminal, Terminal]:
    return names.get(wire[0], wire[0]), names.get(wire[1], wire[1])


def shorts(wires: Wires, points: Sequence[Terminal]) -> Iterator[Wires]:
    yield from ([*wires, pair] for pair in combinations(points, 2))


def swaps(wires: Wires, points: Sequence[Terminal]) -> Iterator[Wires]:
    """Any two wires of one plug or branch in each other's place."""
    for one, other in combinations(points, 2):
        if one.place == other.place:
            yield [_renamed(wire, {one: other, other: one}) for wire in wires]


def strays(wires: Wires, points: Sequence[Terminal]) -> Iterator[Wires]:
    """Any wire of a plug in a cavity that should be empty."""
    for point in points:
        if point.cavity:
            yield [_renamed(wire, {point: point._replace(cavity="199")}) for wire in wires]


def mirrors(wires: Wires, points: Sequence[Terminal], housing: Housing) -> Iterator[Wires]:
    """A plug filled as it is seen from its other face."""
    image = mirror(housing)
    for place in {point.place for point in points if point.cavity}:
        names = {Terminal(place, cavity): Terminal(place, seen) for cavity, seen in image.items()}
        yield [_renamed(wire, names) for wire in wires]


def points_of(harness: Harness) -> list[Terminal]:
    ends = [point for wire in harness.wires for point in (wire.start, wire.to)]
    return [p for p in dict.fromkeys([*ends, *harness.stubs]) if not p.is_splice]


def faults(harness: Harness, housing: Housing) -> Iterator[Wires]:
    """Every single fault that joins something else than the loom should."""
    wires, points = wires_of(harness), points_of(harness)
    right = groups(wires, points)
    for spoilt in (
        *opens(wires), *shorts(wires, points), *swaps(wires, points), *strays(wires, points),
        *mirrors(wires, points, housing),
    ):  # fmt: skip
        if groups(spoilt, points) != right:
            yield spoilt


def judge(made: Loom, cuts: Sequence[Cut], housing: Housing) -> int:
    """See that a loom in order passes, that each fault is found, that no measurement is idle."""
    harness, plan = cut_loom(made, cuts), ring_out(made, cuts, {})
    points = points_of(harness)
    right = groups(wires_of(harness), points)
    assert all(passes(each, right) for each in plan)
    needed, count = set(), 0
    for spoilt in faults(harness, housing):
        found = groups(spoilt, points)
        alarms = [at for at, each in enumerate(plan) if not passes(each, found)]
        assert alarms, spoilt
        needed |= {*alarms} if len(alarms) == 1 else set()
        count += 1
    assert needed == {*range(len(plan))}, "a measurement that no fault needs"
    return count


SHELL = shelf().housings["mixed-32-latch-bottom"]
SIXTEEN = shelf().housings["two-row-16-latch-bottom"]


def test_the_worked_example_is_rung_out_as_designed():
    whys = Counter(each.why for each in ring_out(STRAIGHT_16, CUTS, {}))
    assert whys == {
        "through": 8, "to cable": 12, "broken": 8, "closed off": 4, "apart": 11,
    }  # fmt: skip
    joined = [each for each in ring_out(STRAIGHT_16, CUTS, {}) if each.why == "to cable"]
    assert Counter(each.at.place for each in joined) == {RADIO: 4, CAR: 8}
    assert all(each.against[0].place == CABLE for each in joined)


def test_a_broken_wire_is_open_from_end_to_end_and_a_closed_end_to_everything():
    plan = ring_out(STRAIGHT_16, CUTS, {})
    broken = {each.at: each.against for each in plan if each.why == "broken"}
    for cavity in map(str, range(1, 9)):
        assert Terminal(RADIO, cavity) in broken[Terminal(CAR, cavity)]
    closed = [each for each in plan if each.why == "closed off"]
    assert {each.at.cavity for each in closed} == {"5", "6", "7", "8"}
    assert {len(each.against) for each in closed} == {23}


def test_every_fault_of_the_worked_example_is_found():
    """Opens 20, shorts, swaps and strays of 36 points, two mirrors: fixed by its shape."""
    assert judge(STRAIGHT_16, CUTS, SIXTEEN) > 600


@pytest.mark.parametrize("made", shelf().looms.values(), ids=shelf().looms)
def test_every_fault_of_a_shipped_loom_is_found(made):
    housings = shelf().housings
    assert judge(made, (), housings[made.ends[0].housing]) > 20


@pytest.mark.parametrize("seed", range(many(60)))
def test_every_fault_of_a_random_loom_is_found(seed):
    made, cuts = random_loom(Random(seed))
    judge(made, cuts, SHELL)


def test_fewer_measurements_find_less():
    """The counts are the least: points less nets of the one kind, nets less one of the other."""
    for seed in range(20):
        made, cuts = random_loom(Random(seed))
        harness, plan = cut_loom(made, cuts), ring_out(made, cuts, {})
        points = points_of(harness)
        count = len(groups(wires_of(harness), points))
        assert sum(each.limit is not None for each in plan) == len(points) - count
        assert sum(each.limit is None for each in plan) == count - 1


@pytest.mark.parametrize(
    ("use", "limit"),
    [
        (Use("signal"), Limit(0.3, "Ω")),
        (Use("control"), Limit(0.3, "Ω")),
        (Use("data"), Limit(0.3, "Ω")),
        (Use("speaker"), Limit(100, "mV", 1)),
        (Use("supply", 15), Limit(20, "mV", 1)),
        (Use("ground", 10), Limit(30, "mV", 1)),
        (Use("supply"), Limit(None, "mV", 1)),
    ],
)
def test_a_limit_is_that_of_what_the_wire_carries(use, limit):
    made = loom([{"through": [1, 2]}])
    first, _, _ = ring_out(made, (), {Point(CAR, "1"): use})
    assert first.limit == limit


def test_what_the_record_says_of_a_wire_counts_where_a_job_says_nothing():
    made = loom(
        [
            {"from": f"{CAR}.1", "to": "splice 1", "carries": "supply"},
            {"from": "splice 1", "to": "branch 1", "carries": "supply", "fuse_a": 2},
            {"through": [2], "carries": "speaker"},
            {"through": [3]},
        ],
        branches=[{"name": "branch 1"}],
        splices=[{"name": "splice 1", "made": "crimp"}],
    )
    limits = [each.limit for each in ring_out(made, (), {}) if each.limit]
    assert limits == [Limit(150, "mV", 1), Limit(100, "mV", 1), Limit(0.3, "Ω")]


def test_a_fuse_counts_for_what_lies_behind_it_alone():
    """The radio's supply goes on without the fuse of the tap: its own is that of the car."""
    made = loom(
        [
            {"from": f"{RADIO}.1", "to": "splice 1", "carries": "supply"},
            {"from": f"{CAR}.1", "to": "splice 1", "carries": "supply"},
            {"from": "splice 1", "to": "branch 1", "carries": "supply", "fuse_a": 2},
        ],
        branches=[{"name": "branch 1"}],
        splices=[{"name": "splice 1", "made": "crimp"}],
    )
    limits = {
        (each.at.place, each.against[0].place): each.limit
        for each in ring_out(made, (), {Point(CAR, "1"): Use("supply", 15)})
    }
    assert limits[RADIO, CAR] == Limit(20, "mV", 1)
    assert limits[RADIO, "branch 1"] == Limit(150, "mV", 1)


def test_a_branch_has_its_limits_by_the_record_alone_its_ground_by_the_fuses_that_feed_it():
    """A loom's own page knows no job: what its own fuse does not set is left to the car's."""
    made = loom(
        [
            {"from": f"{CAR}.1", "to": "branch 1", "carries": "supply", "fuse_a": 2},
            {"from": f"{CAR}.2", "to": "branch 1", "carries": "ground"},
            {"from": f"{RADIO}.3", "to": f"{CAR}.3", "carries": "ground"},
        ],
        branches=[{"name": "branch 1"}],
    )
    limits = {each.at.cavity: each.limit for each in ring_out(made, (), {}) if each.limit}
    assert limits == {
        "1": Limit(150, "mV", 1), "2": Limit(150, "mV", 1), "3": Limit(None, "mV", 1),
    }  # fmt: skip
    page = ring_out(shelf().looms["sedge-fronts-out"], (), {})
    (feed,) = [each for each in page if each.against[0].shown == "feed.2"]
    assert feed.limit == Limit(150, "mV", 1)


def test_both_halves_of_a_cut_speaker_wire_are_of_the_speakers_class():
    made = loom([{"through": [1], "carries": "speaker"}])
    plan = ring_out(made, [Cut(Point(RADIO, "1"), "cable", "cable")], {})
    assert [each.limit for each in plan if each.limit] == [Limit(100, "mV", 1)] * 2


def test_the_published_cost_of_two_legs_at_the_limit_of_signals():
    """Arithmetic, no outside source: two legs of 0.3 Ω before 4 Ω."""
    from math import log10

    assert round(20 * log10((4 + 2 * 0.3) / 4), 2) == 1.21


@pytest.mark.parametrize("cavity", ["9", "1"])
def test_a_cut_names_one_wire(cavity):
    made = loom([{"through": [1]}, {"from": f"{RADIO}.1", "to": f"{CAR}.2"}])
    with pytest.raises(ValueError, match=r"wires sit in radio end"):
        ring_out(made, [Cut(Point(RADIO, cavity), "cable", "cable")], {})


def test_a_loom_of_one_wire_has_nothing_to_be_held_apart_from():
    assert [each.why for each in ring_out(loom([{"through": [1]}]), (), {})] == ["through"]
