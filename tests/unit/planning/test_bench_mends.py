"""What a bench sheet tells when a line fails or a flag is wrong: the lengths come out on the table.

Each is reckoned here from the places of the joints, not by what writes the sheet.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack
from test_bench_marks import line, most
from test_bench_order import sheets
from test_loom_jobs import SORREL, sheet_of

from builder.planning.harness.joint_places import (
    BARE_MM,
    CUT_BACK_MM,
    EMPTY_MM,
    SLEEVE_MM,
    TIES_MM,
    TURN_MM,
)
from builder.planning.harness.marks import BESIDE_MM, LABEL_FROM_MM, TIE_MM, fold_tapes
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.rows import LoomCableRow, LoomSheet

GRIP_MM = SLEEVE_MM - EMPTY_MM
BARED_MM = FAR_BARE_MM + most("bench_bared_mm")


class Core(NamedTuple):
    """A core and the wire that it meets: where that is cut, and whether it is met head on."""

    cable: str
    wire: str
    cut_mm: float
    head_on: bool

    def long_mm(self, edge_mm: float, cut_mm: float) -> float:
        """A core met head on lies 6 mm beside the wire; the other ends where the wire ends."""
        if self.head_on:
            return edge_mm - (cut_mm - CUT_BACK_MM) + BARE_MM
        return edge_mm - (cut_mm + CUT_BACK_MM)


def cores_of(sheet: LoomSheet) -> list[Core]:
    """Every core that meets a wire that is cut on the bundle."""
    return [
        Core(row.cable, row.wire, row.cut_mm, row.side == f"{sheet.unit_end}'s half")
        for row in sheet.joints
        if row.cable and row.cut_mm is not None and not row.branch
    ]


def floors(said: str) -> dict[str, float]:
    """How much jacket comes off at least, as a line says it: by cable."""
    found: dict[str, float] = {}
    for mm, names in re.findall(r"under (\d+) mm on (cable \d+(?: and cable \d+)*)", said):
        found |= {name: float(mm) for name in names.split(" and ")}
    return found


def grip_mm(row: LoomCableRow, off_mm: float) -> float:
    """What is left of a folded core for its sleeve: with the tape 2 mm beside its place, and the
    most bared that a house may allow."""
    return off_mm - TURN_MM - (fold_tapes(row)[-1][1] + BESIDE_MM) - BARED_MM


def exchanges(sheet: LoomSheet) -> Iterator[tuple[dict[str, float], list[Core]]]:
    """Where each wire is cut once the flags of two of them were exchanged; nothing, first."""
    cores, cuts = cores_of(sheet), {row.wire: row.cut_mm for row in sheet.joints if row.cut_mm}
    yield cuts, cores
    for one, other in combinations(cuts, 2):
        yield cuts | {one: cuts[other], other: cuts[one]}, cores


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_a_folded_core_keeps_the_grip_of_its_sleeve_as_the_list_has_it(
    name: str, straight: bool
) -> None:
    for sheet in sheets(name, straight=straight):
        for row in sheet.cables:
            if row.others and row.off_mm is not None:
                assert grip_mm(row, row.off_mm) >= GRIP_MM, row
                assert row.remade_off_mm and grip_mm(row, row.remade_off_mm) >= GRIP_MM, row


@pytest.mark.parametrize("again", [0, 1, 2, 3])
def test_a_folded_core_keeps_its_grip_after_every_exchange_and_every_remake(again: int) -> None:
    """As much jacket comes off as the longest core needs, but never less than the sheet says: of
    cable 2 with the wires 1 and 7 exchanged 230 mm would, and its tape ends at 202."""
    sheet = sheet_of(shipped_pack(SORREL))
    silent = floors(line(sheet.rules, "a half that stays silent"))
    remade = floors(line(sheet.failing, "another cable: get first"))
    assert silent == remade and {*silent} == {row.cable for row in sheet.cables if row.others}
    without = 0
    for cuts, cores in exchanges(sheet):
        for row in (each for each in sheet.cables if each.others and each.edge_mm):
            assert row.edge_mm is not None
            longest = max(
                each.long_mm(row.edge_mm, cuts[each.wire])
                + again * BARE_MM * (2 * each.head_on - 1)
                for each in cores
                if each.cable == row.cable
            )
            without += grip_mm(row, longest) < GRIP_MM
            assert grip_mm(row, max(longest, silent[row.cable])) >= GRIP_MM, (row.cable, cuts)
    assert without  # the floors are needed


def test_an_exchange_gives_the_wire_that_was_cut_the_place_of_its_cut() -> None:
    """Flags of 1 and 3 exchanged on both halves: the wire that sounds is 3, cut at 75, not at its
    own 135, though the wire list joins its two cavities: a new flag alone would leave its tip at
    120, where no copper is."""
    sheet = sheet_of(shipped_pack(SORREL))
    said = line(sheet.rules, "a half that stays silent")
    assert 'at the "At" of that wire: only this flag is wrong' in said
    assert "at that of another: put right flags on both wires, and exchange in both lists" in said
    assert 'their "At", "Cut", "Tip" and where their sleeves lie' in said
    assert "the size of a sleeve stays with its line" in said
    # What is exchanged hangs on the cut alone, the same on one side whether joined or closed off.
    for side in (sheet.unit_end, sheet.car_end):
        rows = [row for row in sheet.joints if row.side == f"{side}'s half"]
        for column in ("tip_mm", "sleeve_from_mm", "sleeve_to_mm"):
            assert len({getattr(row, column) - row.cut_mm for row in rows if row.cut_mm}) == 1


@pytest.mark.parametrize("times", [0, 1, 2])
def test_a_core_meets_the_wire_of_another_loom_where_its_jacket_is_laid(times: int) -> None:
    """Each joint that was made anew took 6 mm of its core, and taking it apart takes 6 more."""
    sheet = sheet_of(shipped_pack(SORREL))
    said = line(sheet.failing, "another loom: get it first")
    (first, listed) = map(float, re.findall(r"at (\d+) mm, not (\d+) mm", said)[0])
    (less,) = map(float, re.findall(r"mm; (\d+) less for each time that a joint", said))
    (unit,) = map(float, re.findall(r"together, (\d+) less on the radio end's half", said))
    for core, row in zip(cores_of(sheet), [x for x in sheet.joints if x.cable], strict=True):
        assert row.core_mm is not None and row.tip_mm is not None and row.remade_core_mm
        now = row.core_mm - BARE_MM * (1 + times)
        edge = row.tip_mm + now - unit * core.head_on
        assert edge == first - less * times and core.long_mm(edge, core.cut_mm) == now
        # One that came in another's place was cut to its own length: the sum of the sheet.
        again = row.remade_core_mm - BARE_MM
        edge = row.tip_mm + again - unit * core.head_on
        assert core.long_mm(edge, core.cut_mm) == again and edge <= listed


def test_a_jacket_on_another_loom_is_laid_only_so_near_that_its_label_is_clear_of_the_ties() -> (
    None
):
    """The ties stay where they were: at 338 mm the last ends 45 mm from the edge, labels at 49."""
    sheet = sheet_of(shipped_pack(SORREL))
    said = line(sheet.failing, "another loom: get it first")
    (least,) = map(float, re.findall(r"Under (\d+) mm: a new cable", said))
    edge = sheet.cables[0].edge_mm
    assert edge is not None
    last = edge + TIES_MM[1] + TIE_MM * len(sheet.cables)
    assert last <= least + LABEL_FROM_MM - BESIDE_MM
    assert last > least - BARE_MM + LABEL_FROM_MM - BESIDE_MM
    assert "the plug's label from 310 mm to the edge" in said


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_no_mend_is_begun_twice_without_an_end(name: str, straight: bool) -> None:
    """A break that no joint mends is found before the crimp; what is bare is not bared again."""
    for sheet in sheets(name, straight=straight):
        for said in (x for x in sheet.failing if x.startswith('"reaches its cable"')):
            assert "the wire from its cavity, the core from its far end" in said
            assert re.search("The wire silent: (a new one of the same|another loom)", said)
            assert "the core silent, or no better after it: another cable" in said
        for said in (x for x in sheet.failing if "joined to nothing here cut 5 mm" in x):
            assert f"{FAR_BARE_MM - 5} mm stay bare, bare no more" in said
        again = sheet.failing[-1] if sheet.failing else ""
        assert ("off the bar first" in again) == bool(sheet.failing and sheet.bundle)


def test_what_another_cable_takes_is_counted_and_the_bar_has_room_for_the_meter() -> None:
    sheet = sheet_of(shipped_pack(SORREL))
    assert "a sleeve, 6 ties, its labels" in line(sheet.failing, "another cable: get first")
    assert "a bar of 28 screw terminals" in " ".join(sheet.needs) and len(sheet.bundle) == 27
    assert "0.5 m more on the roll" in " ".join(sheet.needs)
    assert 3 * HOUSE.bench_cable_mm + 302 <= 500
    assert "heads away from each other" in line(sheet.order, "cable 1, cable 2, cable 3")
