"""The marks and spares of a bench sheet: each has a place that is free, and what a step takes is
there."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from test_bench_order import sheets
from test_loom_jobs import SORREL, sheet_of

from builder.declaring import fields_of
from builder.model.house_defaults import HouseDefaults
from builder.planning.harness.bench_words import LENGTH_MM
from builder.planning.harness.cables_of import roll_spare_m
from builder.planning.harness.contacts import mate_of, plugs_of
from builder.planning.harness.joint_places import BARE_MM, EMPTY_MM, SLEEVE_MM
from builder.planning.harness.marks import (
    BESIDE_MM,
    FOLDED_MM,
    FREE_TIP_MM,
    LABEL_MM,
    MOST_TIED,
    PUSHED_MM,
    TIE_MM,
    bands_end_mm,
    by_place,
    fold_tapes,
    mark_places,
    tie_places,
    tied_together,
    ties_end_mm,
)
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.rows import LoomSheet
from builder.planning.job.make_pack import make_pack
from builder.planning.looms.conductors import conductors


def most(default: str) -> float:
    """The most that a house may set one of its limits to."""
    (spec,) = [each.spec for each in fields_of(HouseDefaults) if each.key == default]
    return float(spec.limits["maximum"])


def line(found: tuple[str, ...], words: str) -> str:
    """The one line that begins so."""
    (said,) = [each for each in found if each.startswith(words)]
    return said


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_no_mark_lies_on_its_neighbour_though_both_are_beside_their_places(
    name: str, straight: bool
) -> None:
    """Each twice as far apart as the house's limit is at its most; the label is clear of all ties
    also when its cable was pushed 12 mm; bands and tapes of one cable in one row."""
    apart = 2 * BESIDE_MM
    at = mark_places()
    for sheet in sheets(name, straight=straight):
        for rows in by_place(sheet.cables).values():
            first, second = zip(*(places for _, places in tie_places(rows)), strict=True)
            assert min(second) - (max(first) + TIE_MM) >= apart
            assert at.label_mm[0] - PUSHED_MM - ties_end_mm(rows) >= apart
        for row in sheet.cables:
            bands = at.bands_mm, bands_end_mm(row, at.bands_mm)
            spans = [at.label_mm, *fold_tapes(row), *([bands] if row.bands else [])]
            for one, other in pairwise(sorted(spans)):
                assert other[0] - one[1] >= apart, (row.cable, one, other)


def test_many_cables_share_a_tie_and_few_have_each_their_own() -> None:
    """Three ties fit before the second row: 5 + 3 · 4 + 4 = 21."""
    cable = sheet_of(shipped_pack(SORREL)).cables[0]
    for count in range(1, 20):
        rows = [replace(cable, cable=f"cable {at}") for at in range(count)]
        groups = tied_together(rows)
        assert [row for group in groups for row in group] == rows
        assert len(groups) == min(count, len(groups)) <= MOST_TIED == 3
        assert count > 3 or len(groups) == count
        assert ties_end_mm(rows) <= 33


def test_the_places_of_three_cables_are_said_in_millimetres() -> None:
    """Ties at 5, 9, 13, 21, 25 and 29 mm, 4 mm wide: free from 33 on, from 45 when pushed."""
    sheet = sheet_of(shipped_pack(SORREL))
    said = line(sheet.order, "mark each cable")
    assert "label from 49 to 79 mm of the edge" in said and "first band from 108 mm on" in said
    assert "from 10 to 40 mm, the first band from 50 mm on. Mid-way" in said
    assert "at the loom's end: the label from 2600 to 2630 mm, the first band from 2640 mm" in said
    tapes = line(sheet.rules, "a core that is joined to")
    assert "on cable 1 and cable 2 from 83 to 102 mm and from 183 to 202 mm" in tapes
    assert "on cable 3 from 83 to 102 mm, nowhere else" in tapes


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_every_label_band_tape_and_tie_is_at_millimetres_from_a_named_end(
    name: str, straight: bool
) -> None:
    for sheet in sheets(name, straight=straight):
        for said in (x for x in sheet.order if x.startswith("mark each cable")):
            label = r"the label from \d+ to \d+ mm"
            band = r"the first band from \d+ mm on"
            for end in ("of the edge of the jacket", "far end, from the edge of the jacket there"):
                assert end in said
            assert re.search(
                rf"Mid-way, from the edge of the jacket at the loom's end: .*{label}", said
            )
            assert len(re.findall(label, said)) == len(re.findall(band, said)) >= 3
        folded = [row for row in sheet.cables if row.others]
        rules = [x for x in sheet.rules if x.startswith("a core that is joined to nothing")]
        assert bool(rules) == bool(folded)
        for row in folded:
            tapes = fold_tapes(row)
            assert tapes and row.off_mm is not None
            assert tapes[-1][1] + FOLDED_MM <= row.off_mm
            for low, high in tapes:
                assert f"from {low:.0f} to {high:.0f} mm" in rules[0]
        vague = r"near end|every 100 mm|beside these|where it is looked for"
        assert not [x for x in (*sheet.order, *sheet.rules) if re.search(vague, x)]


def test_a_cable_is_pushed_back_to_no_tie_of_another() -> None:
    """17 mm are left behind the last tie, of a loom that is 5 mm short 12: room for a cable."""
    sheet = sheet_of(shipped_pack(SORREL))
    said = line(sheet.order, "cable 1, cable 2, cable 3")
    assert sheet.length_m is not None and sheet.cables[0].edge_mm is not None
    room = 1000 * sheet.length_m - sheet.cables[0].edge_mm - ties_end_mm(sheet.cables)
    assert f"{room:.0f} mm before the {sheet.car_end}" in said and room + LENGTH_MM[0] >= 10


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_the_labels_of_the_plugs_have_one_place_that_is_free(name: str, straight: bool) -> None:
    """Told in one line of all, the last before the loom is laid aside; under no tie, no jacket."""
    for sheet in sheets(name, straight=straight):
        lines = (*sheet.order, *sheet.rules, *sheet.failing)
        told = [x for x in lines if f'"{sheet.loom}, {sheet.unit_end}' in x]
        assert len(told) == 1 and told[0] == sheet.order[-2]
        assert sheet.order[-3].startswith("cloth tape, wound half over itself, over all")
        assert not [x for x in sheet.order[:-2] if "label the plug" in x]
        spans = [(int(a), int(b)) for a, b in re.findall(r"from (\d+) to (\d+) mm", told[0])]
        assert len(spans) == 2 and all(b - a == LABEL_MM[0] for a, b in spans)
        edges = [row.edge_mm for row in sheet.cables if not row.branch and row.edge_mm is not None]
        stop = min([*edges, 1000 * (sheet.length_m or 0)])
        assert 0 <= spans[0][0] < spans[0][1] < spans[1][0] < spans[1][1] < stop


def test_the_tip_of_a_folded_core_is_bared_cut_and_closed_off_under_no_tape() -> None:
    """15 mm are bared and cut off, and a sleeve of 30 mm goes 18 mm on what is left."""
    sums = FAR_BARE_MM + SLEEVE_MM - EMPTY_MM
    assert sums + most("bench_bared_mm") <= FREE_TIP_MM
    sheet = sheet_of(shipped_pack(SORREL))
    assert f"its last {FREE_TIP_MM:g} mm stay free" in line(sheet.rules, "a core that is joined")


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_a_core_reaches_its_wire_with_everything_as_wrong_as_the_house_allows(
    name: str, straight: bool
) -> None:
    """Wires and cores are never short, the jacket's edge never farther: so what is listed just
    reaches, and what is longer lies in a bow."""
    for sheet in sheets(name, straight=straight):
        for row in sheet.joints:
            edge = next((x.edge_mm for x in sheet.cables if x.cable == row.cable), None)
            if row.branch or row.cut_mm is None or row.core_mm is None or edge is None:
                continue
            head_on = row.side == f"{sheet.unit_end}'s half"
            assert row.tip_mm is not None
            assert row.core_mm == edge - row.tip_mm + (BARE_MM if head_on else 0)
        said = line(sheet.rules, "how exact: ") if sheet.joints else ""
        for limit in (HOUSE.bench_longer_mm, HOUSE.bench_bared_mm, BESIDE_MM):
            assert f"at most {limit:g} mm" in said or not sheet.joints
        assert "a wire or core never shorter" in said or not sheet.joints
        assert "edge of a jacket only towards its joints" in said or not sheet.cables


def test_flags_and_sleeves_are_farther_apart_than_both_may_be_beside_their_places() -> None:
    """Flags end at 35 mm and begin at 335; sleeves lie from 42 to 318, jackets from 350 on."""
    sheet, beside = sheet_of(shipped_pack(SORREL)), BESIDE_MM
    lows = [row.sleeve_from_mm for row in sheet.joints if row.sleeve_from_mm is not None]
    highs = [row.sleeve_to_mm for row in sheet.joints if row.sleeve_to_mm is not None]
    near, far = re.findall(r"from (\d+) to (\d+) mm", line(sheet.rules, "flags: "))
    assert min(lows) - int(near[1]) >= 2 * beside
    assert int(far[0]) - max(highs) >= 2 * beside
    assert (sheet.cables[0].edge_mm or 0) - int(far[1]) >= 2 * beside


def test_the_roll_has_what_a_nick_takes() -> None:
    sheet = sheet_of(shipped_pack(SORREL))
    for row in sheet.cables:
        # Three pieces may be 50 mm longer each, and one end of 296 mm is cut off: 449 mm.
        sums = (row.off_mm or 0) + HOUSE.bench_longer_mm + 3 * HOUSE.bench_cable_mm
        assert roll_spare_m(sheet.cables, row.material, HOUSE) * 1000 >= sums


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_each_point_of_an_open_line_is_told_how_it_is_mended(name: str, straight: bool) -> None:
    """The other point of the two that are joined may be of another kind than the line's own."""
    for sheet in sheets(name, straight=straight):
        opened = [row.what_for for row in sheet.ring_out if not row.joined]
        if not opened:
            continue
        said = line(sheet.failing, next(x for x in sheet.failing if opened[0] in x)[:20])
        assert all(f'"{each}"' in said for each in opened)
        assert ("at a wire with a joint make" in said) == any(row.joint for row in sheet.joints)
        closed = any(not row.joint for row in sheet.joints)
        assert ("of an end that is closed off take the sleeve off" in said) == closed


def test_a_house_that_wants_labels_nearer_is_told_why_a_loom_has_them_farther() -> None:
    house = replace(HOUSE, label_from_end_mm=30.0)
    pack = make_pack(shipped_parts(SORREL), defaults=house)
    said = line(sheet_of(pack).order, "mark each cable")
    assert "its ties come first: not within the house's 30 mm" in said
    ends = {x.end for x in pack.labels if x.jacket == "cable 1"}
    assert any(x.startswith("within 49 mm") for x in ends)
    assert any(x.startswith("within 30 mm") for x in ends)
    assert "ties come first" not in line(sheet_of(shipped_pack(SORREL)).order, "mark each cable")


def reached(sheet: LoomSheet, plug: str) -> str:
    """What is said of the contacts into one plug."""
    return line(sheet.needs, f"contacts that go into the {plug} (")


@pytest.mark.parametrize("name", SHIPPED)
def test_every_cavity_with_a_wire_has_a_contact_that_it_is_found_with(name: str) -> None:
    """What is used again has its like among those that are made."""
    parts = shipped_parts(name)
    for sheet in shipped_pack(name).looms:
        loom, housings = parts.shelf.looms[sheet.record], parts.shelf.housings
        wires = conductors(loom)
        for plug, record in plugs_of(loom).items():
            made, _, again = reached(sheet, plug).partition("; used again")
            spots = {s.cavity for w in wires for s in (w.start, w.to) if s.place == plug}
            for cavity in spots - {""}:
                mate = mate_of(housings[record], cavity, housings)
                assert mate.words in made
                if f"{plug}.{cavity}" not in sheet.bundle:
                    assert f"that of {mate.blade_mm:g} mm in cavit" in again, cavity
