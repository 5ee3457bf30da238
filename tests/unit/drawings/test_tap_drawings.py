"""The tap diagram: the break, the branch, the terminals, the turn-on lead."""

from __future__ import annotations

from dataclasses import replace
from xml.etree.ElementTree import Element

import pytest
from drawing_samples import (
    FEEDS,
    TURN_ON,
    Box,
    converter,
    drawings_in,
    outside,
    overlapping,
    plan,
    plug,
    rect_box,
    text_boxes,
    vehicle,
    words_in,
)

from builder.planning.plan import Plan
from builder.rendering.drawings import tap_diagram

STRIP, CUT, BRANCHED, LEAD = range(4)  # the drawings of the sample plan


def blocks(**changed: object) -> list[Element]:
    return drawings_in(tap_diagram(plan(**changed), vehicle(plug()), converter()))


def wires(drawing: Element) -> list[Box]:
    return [rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-wire"]


def joints(drawing: Element) -> list[tuple[float, float]]:
    found = [c for c in drawing.iter("circle") if c.get("class") == "lb-joint"]
    return [(float(c.get("cx", "nan")), float(c.get("cy", "nan"))) for c in found]


def added(drawing: Element) -> list[tuple[float, float, float, float]]:
    """Return the added conductors as (x1, y1, x2, y2)."""
    lines = [p.get("d", "") for p in drawing.iter("path") if p.get("class") == "lb-added"]
    return [tuple(map(float, d[1:].replace("L", " ").split())) for d in lines]  # type: ignore[misc]


def test_one_drawing_for_terminals_each_pair_and_the_turn_on() -> None:
    titles = [block.findtext("title") or "" for block in blocks()]
    assert titles == [
        "ZEC-2 example, terminals",
        "front left: intercept, input 1",
        "front right: add-on, input 2",
        "turn-on: amplifier turn-on output",
    ]


def test_intercepted_wires_have_a_gap_between_two_named_ends() -> None:
    cut = blocks()[CUT]
    lengths = wires(cut)
    assert len(lengths) == 4
    for x in {box[0] for box in lengths}:
        upper, lower = sorted((y, y + h) for bx, y, _, h in lengths if bx == x)
        assert lower[0] - upper[1] > 50
        label = {w: b for w, b in text_boxes(cut) if w in ("radio end", "speaker end")}
        assert upper[1] < label["radio end"][1] < label["speaker end"][1] < lower[0]
    assert words_in(cut).count("radio end") == words_in(cut).count("speaker end") == 2


def test_intercepted_radio_end_goes_to_the_converter_and_amplifier_to_the_speaker_end() -> None:
    cut = blocks()[CUT]
    ends = sorted({y for _, y in joints(cut)})
    assert [y for _, y, _, _ in sorted(added(cut), key=lambda line: line[1])] == [
        ends[0],
        ends[0],
        ends[1],
        ends[1],
    ]
    parts = {(b[1], b[1] + b[3]) for b in map(rect_box, cut.iter("rect")) if 100 < b[2] < 200}
    assert [any(top < end < bottom for top, bottom in parts) for end in ends] == [True, True]
    assert "to the amplifier" in words_in(cut)


def test_branched_wires_are_whole_and_have_one_joint_each() -> None:
    branched = blocks()[BRANCHED]
    lengths = wires(branched)
    assert len(lengths) == len(joints(branched)) == 2
    for x, y, w, h in lengths:
        assert [jx for jx, jy in joints(branched) if y < jy < y + h and x < jx < x + w]
    assert "speaker end" not in words_in(branched)
    assert "join, do not cut" in words_in(branched)


@pytest.mark.parametrize("at", [CUT, BRANCHED])
def test_added_conductors_cross_no_wire(at: int) -> None:
    block = blocks()[at]
    for x1, y1, x2, _ in added(block):
        left, right = sorted((x1, x2))
        crossed = [b for b in wires(block) if b[1] < y1 < b[1] + b[3] and left < b[0] < right - 8]
        inside = [b for b in crossed if not b[0] <= x1 <= b[0] + b[2]]
        assert inside == []


@pytest.mark.parametrize("at", [CUT, BRANCHED])
def test_wires_reach_from_the_radio_and_to_the_speaker(at: int) -> None:
    block = blocks()[at]
    wide = [b for b in map(rect_box, block.iter("rect")) if b[2] > 300]
    radio, speaker = sorted(wide, key=lambda box: box[1])
    for x in {box[0] for box in wires(block)}:
        reach = [edge for bx, y, _, h in wires(block) if bx == x for edge in (y, y + h)]
        assert (min(reach), max(reach)) == (radio[1] + radio[3], speaker[1])


def test_positive_is_left_and_negative_right_at_both_ends() -> None:
    cut = blocks()[CUT]
    places = [(w, b[0]) for w, b in text_boxes(cut) if w in ("+", "−", "A.4", "A.5")]
    left = [word for word, x in places if x < 180]
    assert sorted(left) == ["+", "+", "A.4"]


def test_colours_are_words_as_well_as_lines() -> None:
    strip, cut, branched, lead = blocks()
    assert words_in(cut).count("white/black") == 2  # at the radio end and at the speaker end
    assert {"A.4", "A.5"} <= set(words_in(cut))
    assert "not recorded" in words_in(branched)
    fed = ["A.4 white", "A.5 white/black", "A.8 grey", "A.9 not recorded", "A.11 blue/white"]
    assert [words for words in words_in(strip) if words in fed] == fed
    assert "wire blue/white" in words_in(lead)


def test_strip_shows_every_terminal_of_the_converter() -> None:
    strip = blocks()[STRIP]
    terminals = {"1 +", "1 −", "2 +", "2 −", "turn-on in", "12 V", "ground"}
    assert terminals | {"output 1", "output 2", "turn-on out"} <= set(words_in(strip))


def test_an_input_that_nothing_feeds_is_said_to_be_unused() -> None:
    assert words_in(blocks(feeds=FEEDS[:2])[STRIP]).count("not used") == 2


def test_two_pairs_summed_into_one_input_are_two_drawings() -> None:
    second = tuple(replace(feed, converter_input=1) for feed in FEEDS[2:])
    shown = blocks(feeds=FEEDS[:2] + second)
    assert len(shown) == 4
    assert any("A.4 white, A.8 grey" in words for words in words_in(shown[STRIP]))


def test_a_factory_amplifier_is_not_called_the_radio() -> None:
    shown = tap_diagram(plan(), vehicle(plug(unit="amplifier")), converter())
    cut = drawings_in(shown)[CUT]
    assert "factory amplifier, plug A" in words_in(cut)
    assert "factory end" in words_in(cut)
    assert "radio end" not in words_in(cut)


def test_a_pair_with_one_leg_known_is_drawn_with_one_leg() -> None:
    assert len(wires(blocks(feeds=FEEDS[:1])[CUT])) == 2


def test_without_feeds_there_is_no_drawing() -> None:
    assert tap_diagram(plan(kind="no_plan", feeds=()), vehicle(), converter()) == ""


def test_a_probe_plan_says_to_measure_first() -> None:
    shown = tap_diagram(plan(kind="probe_plan"), vehicle(), converter())
    assert "measure first, join nothing yet" in shown
    assert "cut both wires" not in [w for d in drawings_in(shown) for w in words_in(d)]


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({}, "radio, plug A, cavity 11"),
        ({"plug": None, "cavity": None, "fuse_position": "F14"}, "fuse F14"),
        ({"plug": None, "cavity": None, "pair": "front-left"}, "no separate lead"),
        ({"draw_ma": None}, "current not known"),
        ({"plug": None, "cavity": None, "kind": "none"}, "turn-on in: nothing joined"),
    ],
)
def test_turn_on_lead_names_its_source(changed: dict[str, object], said: str) -> None:
    lead = blocks(turn_on=replace(TURN_ON, **changed))[LEAD]  # type: ignore[arg-type]
    assert said in words_in(lead)
    assert TURN_ON.because in words_in(lead)


def test_a_passive_converter_has_no_turn_on_and_no_supply() -> None:
    passive = replace(converter(), supply=None, turn_on=None, remote_out=None)
    turn_on = replace(TURN_ON, kind="none", plug=None, cavity=None)
    strip, *_, lead = drawings_in(tap_diagram(plan(turn_on=turn_on), vehicle(), passive))
    assert not {"12 V", "turn-on in", "turn-on out"} & set(words_in(strip))
    assert list(lead.iter("rect")) == []


LONG = "light green/dark violet"
ODD_PLANS: list[Plan] = [
    plan(),
    plan(feeds=tuple(replace(feed, wire=LONG, channel="front-left-tweeter") for feed in FEEDS)),
    plan(turn_on=replace(TURN_ON, because="a reason with many words in it " * 12)),
    plan(turn_on=replace(TURN_ON, because="unbroken" * 40, kind="fuse_position" * 6)),
]


@pytest.mark.parametrize("odd", ODD_PLANS)
def test_no_words_collide_or_leave_the_drawing(odd: Plan) -> None:
    named = replace(converter(), name="A converter with quite a long name of its own")
    for device in (converter(), named):
        for block in drawings_in(tap_diagram(odd, vehicle(), device)):
            boxes = text_boxes(block)
            assert overlapping(boxes) == []
            assert outside(block, boxes) == []


@pytest.mark.parametrize("at", [CUT, BRANCHED])
def test_no_words_lie_on_a_conductor(at: int) -> None:
    block = blocks(feeds=tuple(replace(feed, wire=LONG) for feed in FEEDS))[at]
    lines = [("line", (min(x1, x2), y - 1, abs(x2 - x1), 2.0)) for x1, y, x2, _ in added(block)]
    conductors = lines + [("wire", box) for box in wires(block)]
    words = [(w, b) for w, b in text_boxes(block) if w not in ("+", "−")]
    touching = [p for p in overlapping(conductors + words) if not set(p) <= {"line", "wire"}]
    assert [p for p in touching if set(p) & {"line", "wire"}] == []


def test_ids_are_unique_and_output_is_repeatable() -> None:
    first = tap_diagram(plan(), vehicle(plug()), converter())
    assert tap_diagram(plan(), vehicle(plug()), converter()) == first
    ids = [e.get("id") for d in drawings_in(first) for e in d.iter() if e.get("id")]
    assert len(set(ids)) == len(ids) == 8
