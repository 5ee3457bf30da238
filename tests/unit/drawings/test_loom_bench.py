"""A loom on the table: each joint, cable and branch of its sheet drawn once, where its millimetre
is, and no words over each other."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from drawing_samples import drawings_in, outside, overlapping, text_boxes, words_in
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from test_loom_jobs import SORREL, on_straight_looms

from builder.model.parts import Loom
from builder.planning.harness.rows import LoomSheet
from builder.planning.job.make_pack import make_pack
from builder.rendering.drawings.loom_bench import loom_bench
from builder.rendering.drawings.loom_lane import LEFT, RIGHT
from builder.rendering.drawings.loom_said import read_out

Drawing = ElementTree.Element


@cache
def looms(name: str, *, straight: bool) -> list[tuple[LoomSheet, Loom]]:
    """The sheets of a job, on its own looms or with every plug on a straight one."""
    parts = shipped_parts(name)
    parts = on_straight_looms(parts) if straight else parts
    pack = make_pack(parts, defaults=HOUSE) if straight else shipped_pack(name)
    return [(sheet, parts.shelf.looms[sheet.record]) for sheet in pack.looms]


def drawn(sheet: LoomSheet, loom: Loom) -> list[Drawing]:
    return [each for markup in loom_bench(sheet, loom, "lb-x") for each in drawings_in(markup)]


def marks(drawing: Drawing) -> dict[int, tuple[float, float]]:
    """Line of the joint list to the left and right of its sleeve."""
    found: dict[int, tuple[float, float]] = {}
    for group in drawing.iter("g"):
        line = group.get("data-line")
        if line is not None:
            assert int(line) not in found
            box = group.find("rect")
            assert box is not None
            x, width = (float(box.get(key, "nan")) for key in ("x", "width"))
            found[int(line)] = (x, x + width)
    return found


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_every_joint_cable_and_branch_is_drawn_and_no_words_meet(name: str, straight: bool) -> None:
    for sheet, loom in looms(name, straight=straight):
        drawings = drawn(sheet, loom)
        assert len(drawings) == 1 + len(loom.branches)
        lines = [line for drawing in drawings for line in marks(drawing)]
        assert sorted(lines) == [row.number for row in sheet.joints]
        said = [words for drawing in drawings for words in words_in(drawing)]
        for row in sheet.joints:
            place = "measure" if row.tip_mm is None else f"{row.tip_mm:g} mm"
            assert any(words.startswith(f"{row.number}: {place}, ") for words in said), row
        for cable in sheet.cables:
            assert any(words.startswith(f"{cable.cable}: ") for words in said), cable
        assert {branch.name for branch in loom.branches} <= {*said}
        assert {sheet.unit_end, sheet.car_end} <= {*said}
        for drawing in drawings:
            boxes = text_boxes(drawing)
            assert overlapping(boxes) == [] and outside(drawing, boxes) == []


def test_sleeves_lie_where_their_millimetres_are_and_are_staggered() -> None:
    """400 mm of bundle between the two plugs."""
    ((sheet, loom),) = looms(SORREL, straight=False)
    (drawing,) = drawn(sheet, loom)
    found, unit = marks(drawing), (RIGHT - LEFT) / 400
    for row in sheet.joints:
        low, high = found[row.number]
        assert row.sleeve_from_mm is not None and row.sleeve_to_mm is not None
        assert low == pytest.approx(LEFT + unit * row.sleeve_from_mm, abs=0.1)
        assert high == pytest.approx(LEFT + unit * row.sleeve_to_mm, abs=0.2)
    for side in ("radio end's half", "car end's half"):
        rows = [found[row.number] for row in sheet.joints if row.side == side]
        assert all(one[1] <= other[0] + 0.1 for one, other in pairwise(rows))


def test_a_barrel_is_drawn_as_long_as_it_may_be_where_both_bare_ends_lie() -> None:
    """6 mm of 400, from the core's tip to the wire's: at 54 to 60 mm on line 1, 90 to 96 on 2."""
    ((sheet, loom),) = looms(SORREL, straight=False)
    (drawing,) = drawn(sheet, loom)
    boxes = [each for each in drawing.iter("rect") if each.get("class") == "lb-barrel"]
    joints = [row for row in sheet.joints if row.joint]
    assert len(boxes) == len(joints) == 12
    unit = (RIGHT - LEFT) / 400
    for box, row in zip(boxes, joints, strict=True):
        assert row.tip_mm is not None
        start = row.tip_mm - 6 * (row.side == "radio end's half")
        assert float(box.get("x", "nan")) == pytest.approx(LEFT + unit * start, abs=0.1)
        assert float(box.get("width", "nan")) == pytest.approx(6 * unit, abs=0.2)


def test_an_ear_hears_the_bundle_from_left_to_right() -> None:
    ((sheet, loom),) = looms(SORREL, straight=False)
    said = [*read_out(sheet, loom)]
    at = [int(found[1]) for each in said if (found := re.match(r"\d+: (\d+) mm, ", each))]
    assert len(at) == 16 and at == sorted(at)
    assert said[-3:] == [
        f"cable {jacket}: five-core-18, 5300 mm, jacket from 350 mm on, {off} mm of it off."
        for jacket, off in ((1, 296), (2, 260), (3, 150))
    ]
    assert "".join(loom_bench(sheet, loom, "lb-x")).count(said[0]) == 1


def test_a_loom_made_here_shows_its_splices_and_how_long_each_wire_is_cut() -> None:
    ((sheet, loom),) = looms("sedge-fronts", straight=False)
    bundle, *branches = drawn(sheet, loom)
    words = words_in(bundle)
    assert "splice 1: 220 mm, red/yellow" in words and "80 mm" in words
    assert "splice 1: 220 mm, to feed: 205 mm, red" in words
    feed = words_in(branches[-1])
    assert "leaves at 205 mm, 400 mm from there" in feed and feed.count("415 mm") == 2
