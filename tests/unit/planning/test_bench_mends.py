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

from builder.figures import shown
from builder.planning.harness.joint_places import (
    BARE_MM,
    CUT_BACK_MM,
    EMPTY_MM,
    SLEEVE_MM,
    TIES_MM,
    TURN_MM,
)
from builder.planning.harness.marks import (
    BESIDE_MM,
    LABEL_FROM_MM,
    LABEL_MM,
    TIE_MM,
    fold_tapes,
)
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.rows import LoomCableRow, LoomSheet
from builder.rendering.pages.job_looms import must_read

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


def reach_mm(core: Core, long_mm: float) -> float:
    """Where the edge of a jacket may lie at most so that a core reaches its wire, whole and new."""
    return long_mm + core.cut_mm + (-CUT_BACK_MM - BARE_MM if core.head_on else CUT_BACK_MM)


class EdgeRule(NamedTuple):
    """What the sheet says of jackets on another loom."""

    less_mm: float
    most_mm: float
    first_mm: float
    second_mm: float
    least_mm: float

    def edge_mm(self, tips_mm: list[float], cores_mm: list[float], head_on: list[bool]) -> float:
        """The least that Tip and core give together, as the sheet has it."""
        sums = [
            tip + core - self.less_mm * on
            for tip, core, on in zip(tips_mm, cores_mm, head_on, strict=True)
        ]
        return min(*sums, self.most_mm)


def edge_rule(sheet: LoomSheet) -> EdgeRule:
    said = line(sheet.failing, "another loom: get it first")
    (found,) = re.findall(
        r"at the least that Tip and the core, as it is then, give together, (\d+) mm less on the "
        r"radio end's half, at most (\d+) mm: (\d+) mm where nothing was made anew before, a "
        r"second time (\d+)\. Under (\d+) mm: a new cable",
        said,
    )
    return EdgeRule(*map(float, found))


HISTORIES = [
    (anew, exchanged, looms)
    for anew in range(4) for exchanged in range(3) for looms in (1, 2, 3)
]  # fmt: skip


@pytest.mark.parametrize(("anew", "exchanged", "looms"), HISTORIES)
def test_a_core_meets_the_wire_of_another_loom_where_its_jacket_is_laid(
    anew: int, exchanged: int, looms: int
) -> None:
    """However often one joint was made anew, its cable or the loom exchanged before: each joint in
    turn. What was made anew or taken apart cost the core 6 mm each time."""
    sheet = sheet_of(shipped_pack(SORREL))
    rule, rows = edge_rule(sheet), [row for row in sheet.joints if row.cable]
    cores = cores_of(sheet)
    for cable in sheet.cables:
        mine = [(c, r) for c, r in zip(cores, rows, strict=True) if r.cable == cable.cable]
        for worst in range(len(mine)):
            lengths = []
            for at, (core, row) in enumerate(mine):
                assert row.core_mm is not None
                grown = BARE_MM * (2 * core.head_on - 1) * exchanged
                lengths.append(row.core_mm + grown - BARE_MM * ((at == worst) * anew + looms))
            tips = [row.tip_mm or 0.0 for _, row in mine]
            edge = rule.edge_mm(tips, lengths, [core.head_on for core, _ in mine])
            for (core, _), length in zip(mine, lengths, strict=True):
                assert edge <= reach_mm(core, length)
            if not anew and not exchanged and looms < 3:
                assert edge == (rule.first_mm, rule.second_mm)[looms - 1]
            if edge >= rule.least_mm:
                assert edge <= (cable.edge_mm or 0.0)
            else:  # a new cable then: laid and cut as listed, it meets a new wire
                for core, row in mine:
                    assert cable.edge_mm and row.core_mm
                    assert core.long_mm(cable.edge_mm, core.cut_mm) == row.core_mm


@pytest.mark.parametrize("times", [1, 2])
def test_the_cores_of_another_cable_meet_wires_that_were_cut_off_once_or_twice(times: int) -> None:
    """308, 278, 248 and 218 mm on cable 1, the second time."""
    sheet = sheet_of(shipped_pack(SORREL))
    said = line(sheet.failing, "another cable: get first")
    first, _, rest = said.partition("on this loom")
    told = (first, rest.partition("all its cores:")[2].partition("after an exchange")[0])[times - 1]
    for cable in sheet.cables:
        mine = [each for each in cores_of(sheet) if each.cable == cable.cable]
        assert cable.edge_mm is not None
        wanted = [
            each.long_mm(cable.edge_mm, each.cut_mm) + BARE_MM * times * (2 * each.head_on - 1)
            for each in mine
        ]
        printed = re.findall(rf"{cable.cable}(?: \d+ mm off, cores)? ([\d, ]+) mm", told)
        assert [float(x) for x in printed[0].split(", ")] == wanted, (cable.cable, printed)


@pytest.mark.parametrize("start", ["listed", "first", "second"])
def test_a_jacket_comes_so_near_only_that_its_label_is_clear_of_ties_and_of_the_plugs_label(
    start: str,
) -> None:
    """The ties stay where they were: at 338 mm the last ends 45 mm from the edge, labels at 49. A
    joint from opposite sides takes 12 mm more: on another loom that is too near."""
    sheet = sheet_of(shipped_pack(SORREL))
    rule, edge = edge_rule(sheet), sheet.cables[0].edge_mm
    assert edge is not None
    least = rule.least_mm
    last = edge + TIES_MM[1] + TIE_MM * len(sheet.cables)
    assert last <= least + LABEL_FROM_MM - BESIDE_MM
    assert last > least - BARE_MM + LABEL_FROM_MM - BESIDE_MM
    anew = line(sheet.failing, "a joint made anew")
    (push, floor) = map(
        float, re.findall(r"push this cable (\d+) mm.* its edge would come under (\d+) mm", anew)[0]
    )
    assert floor == least
    laid = {"listed": edge, "first": rule.first_mm, "second": rule.second_mm}[start]
    assert (laid - push >= floor) == (start == "listed")
    (low, high) = map(
        float, re.findall(r"radio plug A\" from (\d+) to (\d+) mm", " ".join(sheet.order))[0]
    )
    assert high - low == LABEL_MM[0] and high + 2 * BESIDE_MM == least


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_no_mend_is_begun_twice_without_an_end(name: str, straight: bool) -> None:
    """A break that no joint mends is found before the crimp, a drop before the sleeve; what is bare
    is not bared again."""
    for sheet in sheets(name, straight=straight):
        wire = "a new wire of the same length" if sheet.made == "bench" else "another loom"
        for said in (x for x in sheet.failing if x.startswith('"reaches its cable"')):
            ways = (
                "the supply off, ring its cavity against every bare far end",
                "two of its cores are exchanged: another cable. None sounds, or the line reads too",
                f"ring the wire from its cavity; silent: {wire}; and the core from its far end",
                "silent: another cable. After the pull, before its sleeve, read the line again",
                "Still too much: the meter's one lead on the barrel",
                f": another cable; else, or no better with it: {wire}",
            )
            at = [said.index(each) for each in ways]
            assert at == sorted(at) and said.endswith(ways[-1])
            assert ("One of another cable sounds" in said) == (len(sheet.cables) > 1)
        for said in (x for x in sheet.failing if "joined to nothing here cut 5 mm" in x):
            assert f"{FAR_BARE_MM - 5} mm stay bare, bare no more" in said
        for said in (x for x in sheet.failing if "none to be seen" in x):
            assert said.endswith(
                "none to be seen: another cable for that of the earlier line, then for that of the "
                f"other; no cable, or no better: {wire}"
            )
        kinds = "reaches its branch|is joined by design|goes through"
        for said in (x for x in sheet.failing if re.match(f'"(?:{kinds})"', x)):
            assert re.search("no better after it: another|the loom itself is at fault", said), said
        again = sheet.failing[-1] if sheet.failing else ""
        assert ("off the bar first" in again) == bool(sheet.failing and sheet.bundle)
        assert ("with the joint list not done yet, go on with that" in again) == bool(sheet.joints)


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_what_reads_too_much_lies_in_the_core_or_in_the_wire_by_the_figure_that_is_told(
    name: str, straight: bool
) -> None:
    """A core at its figure and a rest at its own are the line's limit: over it one of them is."""
    for sheet in sheets(name, straight=straight):
        rows = [row for row in sheet.ring_out if row.what_for == "reaches its cable"]
        for said in (x for x in sheet.failing if x.startswith('"reaches its cable"')):
            told = re.findall(r"before: over ([\d.]+) (mV|Ω), the cable's share of its limit", said)
            shares = {(shown(x.of_cable or 0, 2 if x.unit == "Ω" else 0), x.unit) for x in rows}
            assert {*told} == (shares if len(shares) == 1 else set()), (told, shares)
            for row in rows:
                own = must_read(row).rpartition("(cable ")[2]
                assert len(shares) > 1 or own.startswith(f"{told[0][0]},")


def test_what_another_cable_takes_is_counted_and_the_bar_has_room_for_the_meter() -> None:
    sheet = sheet_of(shipped_pack(SORREL))
    assert "a sleeve, 6 ties, its labels" in line(sheet.failing, "another cable: get first")
    assert "a bar of 28 screw terminals" in " ".join(sheet.needs) and len(sheet.bundle) == 27
    assert "0.5 m more on the roll" in " ".join(sheet.needs)
    assert 3 * HOUSE.bench_cable_mm + 302 <= 500
    assert "heads away from each other" in line(sheet.order, "cable 1, cable 2, cable 3")
    assert "12 joints, 4 ends of the loom's wires closed off: 12 barrels, 16 sleeves" in line(
        sheet.order, "count, all lines"
    )
    assert "12 barrels, 16 sleeves" in line(sheet.failing, "another loom: get it first")
    assert sum(row.barrel != "none" for row in sheet.joints) == 12 and len(sheet.joints) == 16
