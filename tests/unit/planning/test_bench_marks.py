"""The marks and spares of a bench sheet: each has a place that is free, and what a step takes is
there."""

from __future__ import annotations

import re

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from test_bench_order import sheets
from test_loom_jobs import SORREL, sheet_of

from builder.planning.harness.contacts import mate_of, plugs_of
from builder.planning.harness.joint_places import EMPTY_MM, SLEEVE_MM, TIES_MM
from builder.planning.harness.marks import FREE_TIP_MM, TIE_MM, mark_places
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.rows import LoomSheet
from builder.planning.looms.conductors import conductors


def line(found: tuple[str, ...], words: str) -> str:
    """The one line that begins so."""
    (said,) = [each for each in found if each.startswith(words)]
    return said


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_no_tie_lies_on_a_label_no_label_on_tape_and_no_tape_on_a_band(
    name: str, straight: bool
) -> None:
    """Ties of further cables are beside the first's: the last ends 30 + 4 for each cable."""
    for sheet in sheets(name, straight=straight):
        count = sum(bool(row.bands) for row in sheet.cables)
        at = mark_places(sheet.cables)
        assert at.label_mm[0] >= TIES_MM[-1] + count * TIE_MM
        assert at.label_mm[0] <= HOUSE.label_from_end_mm or count > 5
        assert at.label_mm[1] <= at.tape_mm[0] and at.tape_mm[1] <= at.bands_mm


def test_the_places_of_three_cables_are_said_in_millimetres() -> None:
    """Ties at 10, 14, 18, 30, 34 and 38 mm, 4 mm wide: free from 42 on."""
    sheet = sheet_of(shipped_pack(SORREL))
    said = line(sheet.order, "mark each cable")
    assert "label from 45 mm of the edge" in said and "first band from 100 mm on" in said
    assert "from 75 to 94 mm of the jacket's edge" in line(sheet.rules, "a core that is joined to")


def test_the_tip_of_a_folded_core_is_bared_cut_and_closed_off_under_no_tape() -> None:
    """15 mm are bared and cut off, and a sleeve of 30 mm goes 18 mm on what is left."""
    assert FREE_TIP_MM >= FAR_BARE_MM + SLEEVE_MM - EMPTY_MM
    sheet = sheet_of(shipped_pack(SORREL))
    assert f"no tape on its last {FREE_TIP_MM:g} mm" in line(sheet.rules, "a core that is joined")
    shortest = min(row.off_mm or 0 for row in sheet.cables)
    assert shortest - mark_places(sheet.cables).tape_mm[1] >= FREE_TIP_MM


@pytest.mark.parametrize("name", SHIPPED)
def test_a_core_is_reckoned_anew_by_the_rule_that_made_the_list(name: str) -> None:
    """Of a wire that turns out to be another; the 6 mm more are those of a core met head on."""
    for sheet in shipped_pack(name).looms:
        rules = [each for each in sheet.rules if each.startswith("a half that stays silent")]
        for said in rules:
            edge, more = map(int, re.findall(r"is (\d+) mm less .*? half (\d+) mm more", said)[0])
            cores = [row for row in sheet.joints if row.core_mm is not None and row.cut_mm]
            for row in cores:
                on = more if row.side == f"{sheet.unit_end}'s half" else 0
                assert row.tip_mm is not None and row.core_mm == edge - row.tip_mm + on, row
            assert cores


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


def test_a_failing_line_names_the_one_joint_and_what_a_cable_takes_is_to_be_got() -> None:
    failing = sheet_of(shipped_pack(SORREL)).failing
    assert "make one joint anew" in line(failing, '"reaches its cable"')
    assert "neither has a joint" in line(failing, '"does not run through"')
    assert "another cable, as told below" in line(failing, '"is whole')
    assert "beyond what is to spare" in line(failing, "another cable: get first")
