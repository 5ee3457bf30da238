"""The drawing of a loom: every wire of it, no words over each other, none outside."""

from __future__ import annotations

from random import Random

import pytest
from drawing_samples import drawings_in, outside, overlapping, text_boxes
from loom_samples import CAR, RADIO, STRAIGHT_16, loom, random_loom
from pack_samples import shelf
from samples import many

from builder.model.parts import Loom
from builder.planning.looms.conductors import conductors
from builder.rendering.drawings.loom_map import loom_map, wire_in_words

LOOMS = shelf().looms
CROSSED = loom([{"from": f"{RADIO}.1", "to": f"{CAR}.2", "wire": {"base": "white"}}])


def judge(made: Loom) -> None:
    markup = loom_map(made, "lb-x")
    (drawing,) = drawings_in(markup)
    boxes = text_boxes(drawing)
    assert overlapping(boxes) == [] and outside(drawing, boxes) == []
    wires = conductors(made)
    assert markup.count('class="lb-wire"') == len(wires)
    cavities = sum(end.place in (RADIO, CAR) for wire in wires for end in (wire.start, wire.to))
    assert markup.count('class="lb-socket"') == cavities
    described = drawing.findtext("{*}desc") or drawing.findtext("desc") or ""
    assert all(wire_in_words(wire) in described for wire in wires)


@pytest.mark.parametrize("made", [*LOOMS.values(), STRAIGHT_16, CROSSED], ids=lambda one: one.id)
def test_a_loom_is_drawn_wire_by_wire(made):
    judge(made)


@pytest.mark.parametrize("seed", range(many(60)))
def test_a_random_loom_is_drawn_wire_by_wire(seed):
    judge(random_loom(Random(seed))[0])


def test_a_crossed_wire_says_where_it_goes():
    assert "1 to 2: white" in loom_map(CROSSED, "lb-x")
    assert loom_map(CROSSED, "lb-x").count("1 to 2") == 1
