"""What a bench sheet tells when a line fails: one mend at a place, else the loom is made anew.

Each length is reckoned here from the places of the joints, not by what writes the sheet.
"""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import product

import pytest
from circuit_checks import circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from test_bench_marks import line, most
from test_bench_order import made, sheets
from test_loom_jobs import SORREL, sheet_of

from builder.planning.harness.bench_counts import to_buy
from builder.planning.harness.joint_places import (
    BARE_MM,
    EMPTY_MM,
    FLAG_MM,
    SLEEVE_MM,
    TIES_MM,
    TURN_MM,
)
from builder.planning.harness.marks import BESIDE_MM, LABEL_FROM_MM, LABEL_MM, TIE_MM, fold_tapes
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.rows import LoomCableRow, LoomJointRow, LoomSheet, RingOutRow
from builder.planning.job.make_pack import make_pack
from builder.planning.views.names import wire_words
from builder.rendering.pages.job_looms import meter_words, must_read

GRIP_MM = SLEEVE_MM - EMPTY_MM
BARED_MM = FAR_BARE_MM + most("bench_bared_mm")
ANEW = "the loom anew"
ROW = {
    "number": 1,
    "what_for": "reaches its cable",
    "probe": "car end.1",
    "other": "far end of cable 2 pair 1 positive, brown",
    "joined": True,
}
MADE = "make anew the joint at which the joint list joins"


def grip_mm(row: LoomCableRow, off_mm: float) -> float:
    """What is left of a folded core for its sleeve: with the tape 2 mm beside its place, and the
    most bared that a house may allow."""
    return off_mm - TURN_MM - (fold_tapes(row)[-1][1] + BESIDE_MM) - BARED_MM


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_a_folded_core_keeps_the_grip_of_its_sleeve(name: str, straight: bool) -> None:
    for sheet in sheets(name, straight=straight):
        for row in sheet.cables:
            if row.others and row.off_mm is not None:
                assert grip_mm(row, row.off_mm) >= GRIP_MM, row


def pushed_mm(sheet: LoomSheet) -> float:
    """How far a cable is pushed for a joint from opposite sides that is made anew."""
    (told,) = re.findall(
        r"push this cable (\d+) mm towards it", line(sheet.failing, "a joint made anew")
    )
    return float(told)


def met_mm(row: LoomJointRow, edge_mm: float, anew: int) -> float:
    """How far core and wire lie beside each other once both were cut back so often: what is bared
    of each must, and what is more lies in a bow."""
    assert row.tip_mm is not None and row.core_mm is not None
    core_tip = edge_mm - (row.core_mm - BARE_MM * anew)
    if row.sleeve_on == "after":  # the wire comes from the same side as the core
        return BARE_MM - abs(core_tip - (row.tip_mm + BARE_MM * anew))
    return (row.tip_mm - BARE_MM * anew) - core_tip


def test_every_joint_of_a_cable_reaches_whichever_of_them_were_made_anew_once() -> None:
    """One push bears all of them: each takes 6 mm of its own core and 6 of the wire it meets."""
    sheet = sheet_of(shipped_pack(SORREL))
    push, met = pushed_mm(sheet), 0
    for cable in sheet.cables:
        mine = [row for row in sheet.joints if row.cable == cable.cable]
        assert cable.edge_mm is not None
        for anew in product((0, 1), repeat=len(mine)):
            head_on = any(
                on and row.sleeve_on == "before" for on, row in zip(anew, mine, strict=True)
            )
            edge = cable.edge_mm - push * head_on
            for on, row in zip(anew, mine, strict=True):
                reach = met_mm(row, edge, on)
                met += 1
                assert reach >= BARE_MM if row.sleeve_on == "before" else reach == BARE_MM, row
    assert met == 3 * 4 * 2**4
    assert "no cable is pushed twice" in line(sheet.failing, "a joint made anew")


def test_what_one_place_loses_a_second_time_no_push_is_there_for() -> None:
    """So the rule is once: head on a second joint would lack 12 mm, and the label meet the ties."""
    sheet = sheet_of(shipped_pack(SORREL))
    push = pushed_mm(sheet)
    first = next(row for row in sheet.joints if row.sleeve_on == "before")
    edge = sheet.cables[0].edge_mm or 0.0
    assert met_mm(first, edge - push, 1) == BARE_MM and met_mm(first, edge - push, 2) < 0
    last = edge + TIES_MM[1] + TIE_MM * len(sheet.cables)
    assert last <= edge - push + LABEL_FROM_MM - BESIDE_MM
    assert last > edge - 2 * push + LABEL_FROM_MM - BESIDE_MM
    told = re.findall(r"radio plug A\" from (\d+) to (\d+) mm", " ".join(sheet.order))
    (low, high) = map(float, told[0])
    assert high - low == LABEL_MM[0] and high + 2 * BESIDE_MM == edge - push
    anew = line(sheet.failing, "a joint made anew, once at a place")
    assert (
        f'write "anew" beside its line of the joint list; where it stands already: {ANEW}' in anew
    )


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_every_way_ends_in_a_mend_or_in_the_loom_made_anew(name: str, straight: bool) -> None:
    """No list of the sheet changes: no other lengths, no second mend, no cable exchanged alone."""
    for sheet in sheets(name, straight=straight):
        if not sheet.failing:
            continue
        kinds = [x for x in sheet.failing if x.startswith('"')]
        assert kinds and all(x.endswith(ANEW) for x in kinds), kinds
        said = " ".join((*sheet.failing, *sheet.rules, *sheet.order))
        assert not re.search(
            "another (cable|loom)|second time|exchange in both|mm off, cores", said
        )
        loom = line(sheet.failing, f"{ANEW}: begin at step 1")
        assert "Nothing of it crimped, cut or closed off is used again" in loom
        assert ("the cables" in loom) == bool(sheet.cables)
        assert ("plugs, contacts, wire" in loom) == (sheet.made == "bench")
        assert ("all off the bar, all contacts out" in sheet.failing[-1]) == bool(sheet.bundle)


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_labels_are_put_right_only_between_two_cables_that_are_alike(
    name: str, straight: bool
) -> None:
    for sheet in sheets(name, straight=straight):
        alike = [(row.material, row.length_m) for row in sheet.cables if row.bands]
        for said in (x for x in sheet.failing if x.startswith('"reaches its cable"')):
            two = "The same core of some other cable of its length sounds: ring every line"
            assert (two in said) == (len({*alike}) < len(alike))
            other = f"Not at each, or any other wrong core sounds: {ANEW}"
            assert (other if two in said else f"A wrong one sounds: {ANEW}") in said
            assert ("m of coloured tape" in line(sheet.needs, "to spare")) == (two in said)
            assert f"None sounds, or its own alone, or the line reads too much: {MADE}" in said
            ways = (
                "supply unclipped, ring its cavity",
                f"sounds: {ANEW}",
                "make anew the joint at which",
            )
            at = [said.index(each) for each in ways]
            assert at == sorted(at)


def test_a_half_that_stays_silent_ends_the_loom_before_any_cable_is_cut() -> None:
    order = sheet_of(shipped_pack(SORREL)).order
    cut = next(at for at, x in enumerate(order) if x.startswith("cut one wire at a time"))
    assert order[cut].endswith(f'{ANEW}, as told under "A line that fails"')
    assert any(x.startswith("each cable of the cable list") for x in order[cut + 1 :])


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_a_line_on_millivolts_is_read_only_while_the_current_flows(
    name: str, straight: bool
) -> None:
    """A clip that is off reads 0 mV, which would pass."""
    for sheet in sheets(name, straight=straight):
        rows = [row for row in sheet.ring_out if row.at_a is not None and row.most is not None]
        said = [x for x in sheet.measuring if x.startswith("lines on mV")]
        assert bool(said) >= bool(rows)
        assert all("read only while the supply shows 1 A" in x for x in said)
        assert all(meter_words(row) == "mV, 1 A flows" for row in rows)
        assert all(" mV at 1 A" in must_read(row) for row in rows)


def test_no_good_cable_fails_however_long_it_may_be_cut_and_stranded_in_a_warm_shop() -> None:
    """18 AWG: 23.2 Ω a kilometre at 20 °C (UL 758, from memory), 0.393 % a kelvin (IEC 60028)."""
    parts = shipped_parts(SORREL)
    for longer in (0.0, 50.0, 200.0):
        pack = make_pack(parts, defaults=replace(HOUSE, bench_cable_mm=longer))
        rows = [x for x in sheet_of(pack).ring_out if x.what_for == "reaches its cable"]
        assert rows
        for row in rows:
            good = (5.3 + longer / 1000) * 23.2 * (1 + 0.00393 * 10)
            assert row.of_cable is not None and good <= row.of_cable < 1.02 * good


SOLID_OHM_PER_KM = {"18": 20.95, "16": 13.17, "14": 8.286, "12": 5.211, "22": 52.96}
"""Solid copper at 20 °C: ASTM B258, from memory."""


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_a_meter_without_its_clips_reads_less_than_any_good_cable_gives(
    name: str, straight: bool
) -> None:
    """What a loose clip shows lies near 0; a core of its printed length at 20 °C, with nothing of
    it cut off, well over the least; one nicked at its far end, with its core cut to the shortest
    and in a shop at 10 °C, still over it."""
    pack = made(name, straight=straight)
    for sheet in pack.looms:
        cores = {wire_words(wire): wire for wire in circuit_of(pack).wires}
        cables = {row.cable: row for row in sheet.cables}
        for row in sheet.ring_out:
            assert (row.least is not None) == (row.at_a is not None and row.of_cable is not None)
            if row.least is None or row.most is None:
                continue
            core = cores[row.other.removeprefix("far end of ")]
            cable, size = cables[core.piece], core.size
            assert cable.length_m and size is not None
            metre = SOLID_OHM_PER_KM[size.size_awg] if size.size_awg else 17.24 / size.size_mm2
            short = cable.length_m - HOUSE.cut_end_m - (cable.off_mm or 0) / 1000
            cold = metre * short * (1 - 0.00393 * 10)
            assert 5 < row.least < 0.95 * cold < metre * cable.length_m < row.most, row
            low, high = map(float, re.findall(r"([\d.]+) to ([\d.]+) mV", must_read(row))[0])
            assert row.least <= low <= 1.1 * row.least and high <= row.most
            assert not any(low <= loose <= high for loose in (0, 0.5, 5))


def test_the_least_of_a_line_is_reckoned_from_copper_alone() -> None:
    """0.8231 mm² of annealed copper (IEC 60028: 0.017241 Ω·mm²/m at 20 °C, 0.393 % a kelvin), 12 %
    under it as the most is over it, in a shop at 10 °C: 5.3 m less 0.3 for a nick and 0.296 of
    jacket. The far end is cut off once by what the step says, later too."""
    sheet = sheet_of(shipped_pack(SORREL))
    rows = [x for x in sheet.ring_out if x.what_for == "reaches its cable"]
    own = 0.017241 / 0.8231 * (1 - 0.00393 * 10) / 1.12
    (least,) = {row.least for row in rows}
    assert least == pytest.approx(1000 * own * (5.3 - 0.3 - 0.296), rel=2e-3)
    assert {must_read(row) for row in rows} == {"84.6 to 230 mV at 1 A (cable 130, rest 100)"}
    assert "least: 18 mΩ a metre, cut short" in line(sheet.measuring, "why the limits")
    step = line(sheet.order, "each cable of the cable list")
    assert "a nick there, later too: cut it off and begin again, marks too, once (0.3 m" in step
    assert step.endswith("once joined the loom") and "no far end is nicked" in sheet.failing[0]
    none = make_pack(shipped_parts(SORREL), defaults=replace(HOUSE, cut_end_m=0.04))
    alone = sheet_of(none)
    assert line(alone.order, "each cable of the cable").endswith("a nick there: cut the cable anew")
    assert "nicked" not in alone.failing[0]


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_what_is_out_before_ringing_anew_can_be_proved_again(name: str, straight: bool) -> None:
    """A contact whose wire ends nowhere else any more stays in: only the pull is left for it."""
    for sheet in sheets(name, straight=straight):
        (said,) = [x for x in sheet.measuring if x.startswith("lines that must read open")]
        stays = re.search(r"it sounds \((.*?), sounded before", said)
        but = re.search(r"all contacts out but (.*?), which the pull proves$", sheet.failing[-1])
        assert (stays and stays[1]) == (but and but[1])


def test_what_is_used_up_and_to_spare_is_counted_and_the_bar_has_room_for_the_meter() -> None:
    sheet = sheet_of(shipped_pack(SORREL))
    assert "a bar of 28 screw terminals" in " ".join(sheet.needs) and len(sheet.bundle) == 27
    assert "0.5 m more on the roll" in " ".join(sheet.needs)
    assert 296 + 3 + 3 * HOUSE.bench_cable_mm <= 500
    assert "heads away from each other" in line(sheet.order, "cable 1, cable 2, cable 3")
    used = "12 barrels, 16 sleeves"
    assert f"12 joints, 4 ends of the loom's wires closed off: {used}" in line(
        sheet.order, "count, all lines"
    )
    assert f"the loom, the cables, {used}, ties" in line(sheet.failing, ANEW)
    assert sum(row.barrel != "none" for row in sheet.joints) == 12 and len(sheet.joints) == 16


def test_what_a_joint_made_anew_takes_is_there_and_needs_no_jacket_off() -> None:
    """From opposite sides 6 mm of either go: the cable is pushed 12 mm, and its ties with it. Its
    sleeve moves 6 mm, no farther than where the flags are."""
    sheet = sheet_of(shipped_pack(SORREL))
    (spare,) = [x for x in sheet.needs if x.startswith("to spare")]
    assert "9 labels and 0.9 m of coloured tape" in spare  # each place of each of three cables
    assert "2 sleeves and 2 barrels more of each size" in spare and "and 12 ties" in spare
    assert any(x.startswith("6 cable ties, at most 4 mm wide") for x in sheet.needs)
    anew = line(sheet.failing, "a joint made anew")
    assert "for such a joint alone cut all ties of the cables" in anew
    assert pushed_mm(sheet) == 2 * BARE_MM
    sleeves = [row.sleeve_from_mm for row in sheet.joints if row.sleeve_from_mm is not None]
    near = min(row.cut_mm for row in sheet.joints if row.cut_mm) - FLAG_MM[1] + FLAG_MM[0]
    assert min(sleeves) - BARE_MM >= near - BESIDE_MM and "moves towards its plug" in anew
    bought = {part.item: part.quantity for part in shipped_pack(SORREL).parts}
    for need in sheet.counts:
        if need.item == "cable tie":
            assert bought[need.item] >= to_buy(need, HOUSE) == 3 * need.quantity == 18
        if "sleeve" in need.item or "barrel" in need.item:
            assert bought[need.item] >= need.quantity + 2


@pytest.mark.parametrize(
    ("limit", "printed"),
    [
        (RingOutRow(**ROW, most=7.5, unit="mV", at_a=1.0, of_cable=None), "at most 7.5 mV at 1 A"),
        (
            RingOutRow(**ROW, most=106.81, unit="mV", at_a=1.0, of_cable=76.81),
            "at most 106 mV at 1 A (cable 76, rest 30)",
        ),
        (
            RingOutRow(**ROW, most=106.81, unit="mV", at_a=1.0, of_cable=76.81, least=41.93),
            "42 to 106 mV at 1 A (cable 76, rest 30)",
        ),
        (
            RingOutRow(**ROW, most=0.4297, unit="Ω", at_a=None, of_cable=0.1297),
            "at most 0.42 Ω (cable 0.12, rest 0.30)",
        ),
    ],
)
def test_a_limit_is_printed_on_the_side_that_passes(limit: RingOutRow, printed: str) -> None:
    """8 mV beside a limit of 7.5 would pass a bad line; both shares are the whole."""
    assert must_read(limit) == printed


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_no_printed_limit_lets_through_more_than_the_line_may_read(
    name: str, straight: bool
) -> None:
    for sheet in sheets(name, straight=straight):
        for row in (x for x in sheet.ring_out if x.most is not None):
            most, *shares = map(
                float, re.findall(r"(?:most|to|cable|rest) ([\d.]+)", must_read(row))
            )
            assert 0.9 * (row.most or 0.0) <= most <= (row.most or 0.0), row
            assert not shares or sum(shares) == pytest.approx(most)
