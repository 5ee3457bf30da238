"""Jobs on looms: what is cut and what goes through, the bench sheet, the ring-out, the way back.

What Sorrel's loom must come to is written out here, from the worked example of five channels.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from circuit_checks import check_circuit, circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from test_ring_out import judge

from builder.model.job import JobLoom
from builder.model.parts import Loom
from builder.model.parts.loom_wires import point_of
from builder.model.wire import Wire
from builder.model.words import View
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.nets import continuity
from builder.planning.harness.cut_places import cut_places
from builder.planning.harness.joint_places import (
    BARE_MM,
    SLEEVE_MM,
    Side,
    exit_mm,
    joint_place,
)
from builder.planning.harness.marks import least_off_mm
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import LoomSheet
from builder.planning.job import figures
from builder.planning.job.make_pack import make_pack
from builder.planning.views.plugs_home import home_words, plugs_home
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.pages.plan_phrases import feed_view

SORREL = "sorrel-five-channels"


def sorrel_plan() -> LoomPlan:
    """The plan of Sorrel's loom, as the planner makes it."""
    seen: list[dict[str, LoomPlan]] = []
    made = figures.loom_plans
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(figures, "loom_plans", lambda *given: seen.append(made(*given)) or seen[-1])
        make_pack(shipped_parts(SORREL), defaults=HOUSE)
    return seen[-1]["A"]


def sheet_of(pack: WorkPack) -> LoomSheet:
    (sheet,) = pack.looms
    return sheet


def test_eight_wires_are_broken_and_eight_go_through() -> None:
    counts = Counter(row.doing for row in sheet_of(shipped_pack(SORREL)).wires)
    assert counts == {"cut": 8, "through": 8}


def test_the_fronts_go_to_the_converter_and_the_rears_are_closed_off() -> None:
    rows = {row.wire: row for row in sheet_of(shipped_pack(SORREL)).wires}
    for cavity, input_, leg in ((1, 1, "+"), (2, 1, "−"), (3, 2, "+"), (4, 2, "−")):
        row = rows[f"radio end.{cavity} to car end.{cavity}"]
        assert row.unit_side.endswith(f"to CVN-2A in {input_} {leg}")
    for cavity in (5, 6, 7, 8):
        assert rows[f"radio end.{cavity} to car end.{cavity}"].unit_side == "closed off by itself"
    outs = [rows[f"radio end.{at} to car end.{at}"].car_side for at in range(1, 9)]
    assert [each.rpartition(", to ")[2] for each in outs] == [
        f"amp out {at} {sign}" for at in (1, 2, 3, 4) for sign in ("+", "−")
    ]


def test_three_colours_stand_beside_each_other() -> None:
    row = sheet_of(shipped_pack(SORREL)).wires[1]
    assert (row.car_colour, row.loom_colour) == ("green/black", "white/black")
    assert ", brown/black, " in row.unit_side


def test_the_ring_out_is_the_one_that_was_worked_out() -> None:
    """8 through, 4 radio ends and 8 car ends to cable, 4 closed off, 8 broken wires apart."""
    rows = sheet_of(shipped_pack(SORREL)).ring_out
    counts = Counter((row.what_for, row.probe.partition(".")[0]) for row in rows)
    assert counts["goes through", "radio end"] == 8
    assert counts["reaches its cable", "radio end"] == 4
    assert counts["reaches its cable", "car end"] == 8
    assert counts["is closed off", "radio end"] == 4
    assert counts["does not run through", "car end"] == 8
    assert [row.number for row in rows] == list(range(1, len(rows) + 1))
    closed = [row.probe for row in rows if row.what_for.startswith("is closed off")]
    assert closed == [f"radio end.{cavity}" for cavity in (5, 6, 7, 8)]


def test_every_single_fault_of_the_loom_is_found() -> None:
    plan = sorrel_plan()
    housing = shipped_parts(SORREL).shelf.housings["two-row-16-latch-bottom"]
    assert judge(plan.use.loom, plan.cuts, housing) > 300


def test_a_speaker_wire_drops_at_most_100_mv_and_what_its_cable_takes() -> None:
    """5.3 m of 18 AWG, 50 mm longer at most: 20.95 mΩ/m at 20 °C by the solid law of ASTM B258, a
    ninth more stranded and tinned (UL 758), 3.93 % at 30 °C; all from memory."""
    for row in sheet_of(shipped_pack(SORREL)).ring_out:
        if row.what_for == "reaches its cable":
            assert row.of_cable is not None and abs(row.of_cable - 5.35 * 23.2 * 1.0393) < 2
            assert row.most is not None and abs(row.most - 100 - row.of_cable) < 0.01
            assert (row.unit, row.at_a) == ("mV", 1)
        elif row.what_for == "goes through":
            assert (row.most, row.unit) == (0.3, "Ω")


def test_joints_lie_30_to_40_mm_apart_and_clear_of_the_plugs() -> None:
    rows = sheet_of(shipped_pack(SORREL)).wires
    places = sorted(row.joint_mm for row in rows if row.joint_mm is not None)
    assert len(places) == 8
    gaps = [b - a for a, b in pairwise(places)]
    assert all(30 <= gap <= 40 for gap in gaps)
    assert places[0] >= 75 and places[-1] <= 400 - 75


SIDES: tuple[Side, Side] = ("unit", "car")


def sorrel_cuts() -> list[float]:
    rows = sheet_of(shipped_pack(SORREL)).wires
    return [row.joint_mm for row in rows if row.joint_mm is not None]


def test_no_two_sleeves_of_a_wire_or_of_a_side_overlap() -> None:
    cuts = sorrel_cuts()
    for at in cuts:
        assert joint_place(at, "unit").sleeve_mm[1] < joint_place(at, "car").sleeve_mm[0]
    for side in SIDES:
        sleeves = sorted(joint_place(at, side).sleeve_mm for at in cuts)
        assert all(before[1] <= after[0] for before, after in pairwise(sleeves))


def test_every_sleeve_waits_on_its_core_and_every_core_is_long_enough() -> None:
    """From the jacket's edge: the sleeve waits whole, clear of where it will lie."""
    cuts, sheet = sorrel_cuts(), sheet_of(shipped_pack(SORREL))
    for cable in sheet.cables:
        cores = [sheet.joints[at - 1].core_mm or 0 for at in cable.joints]
        assert cable.off_mm == max(*cores, least_off_mm()) and len(cores) == 4
    for at in cuts:
        for side in SIDES:
            place = joint_place(at, side)
            assert exit_mm(cuts) - place.sleeve_mm[1] >= SLEEVE_MM
            assert place.sleeve_mm[0] < place.core_tip_mm < place.sleeve_mm[1]
            assert place.sleeve_mm[0] < place.tip_mm < place.sleeve_mm[1]


def test_cables_are_tied_by_their_jackets_before_the_plug() -> None:
    """400 mm of loom: jackets from 350 mm, both ties between there and the plug."""
    (said,) = [x for x in sheet_of(shipped_pack(SORREL)).order if "No tie goes round a core" in x]
    assert "edge of its jacket at 350 mm" in said and "cable 1 at 355 and 371, cable 2 at" in said
    assert "The last tie ends at 383 mm, 17 mm before the car end" in said
    assert exit_mm(sorrel_cuts()) == 350


def test_each_side_of_a_cut_wire_has_its_line_and_all_it_needs_comes_before() -> None:
    sheet = sheet_of(shipped_pack(SORREL))
    begins = next(at for at, x in enumerate(sheet.order) if x.startswith("now the joint list"))
    for before in ("cut one wire", "mark each cable", "each cable of", "cable 1, cable 2"):
        at = next(at for at, line in enumerate(sheet.order) if line.startswith(before))
        assert at < begins, before
    assert len(sheet.joints) == 16 and sum(not row.joint for row in sheet.joints) == 4
    assert [row.number for row in sheet.joints] == list(range(1, 17))
    halves = Counter(row.side for row in sheet.joints)
    assert halves == {"radio end's half": 8, "car end's half": 8}


def test_the_cores_that_are_not_of_the_loom_are_rung_out_and_counted() -> None:
    sheet = sheet_of(shipped_pack(SORREL))
    blue = [f"far end of cable {at} single 1, blue" for at in (1, 2, 3)]
    assert [row.probe for row in sheet.ring_out if not row.joined][-3:] == blue
    assert list(sheet.bundle[-3:]) == blue and len(sheet.bundle) == 27
    assert {row.other for row in sheet.ring_out if not row.joined} == {"the other 26 on the bar"}
    spared = {*sheet.bundle} - {row.probe for row in sheet.ring_out if not row.joined}
    assert spared == {"radio end.16"}
    assert any("radio end.16 needs no line" in line for line in sheet.measuring)


def test_what_is_needed_is_counted() -> None:
    """12 joints, 4 closed sides, 3 blue cores here, 15 cores at the far ends: 34 sleeves."""
    needs = sheet_of(shipped_pack(SORREL)).needs
    assert needs[0] == "the loom itself: 1 ok-x16, as bought"
    assert needs[1] == (
        "five-core-18, each core of 0.82 mm²: 15.9 m, in 3 pieces; 0.5 m more on the roll, for an "
        "end cut off"
    )
    (line,) = [part for part in shipped_pack(SORREL).parts if "five-core-18" in part.item]
    assert line.quantity == 15.9 and line.note.endswith("; 0.5 m more for the loom sheet")
    assert needs[2].startswith("34 adhesive sleeves, 30 mm long: 22 of 3 / 1 mm; 4 of 4.8 / ")
    assert needs[3].startswith("12 crimp barrels") and "1.5 to 2.5 mm²" in needs[3]
    contacts = [line.partition(": ")[2] for line in needs if line.startswith("contacts that go")]
    assert contacts == [
        "with one lead, 14 pins of 1.5 mm, part TSM-P15, cavities 2 to 8, 10 to 16; 2 pins of 2.8 "
        "mm, part TSM-P28, cavities 1, 9; with two leads, 1 pin of 1.5 mm, part TSM-P15; 1 pin of "
        "2.8 mm, part TSM-P28",
        "with one lead, 7 sockets for blades of 1.5 mm, part TSM-C15, cavities 2 to 8; 1 socket "
        "for blades of 2.8 mm, part TSM-C28, cavity 1; with two leads, 1 socket for blades of 1.5 "
        "mm, part TSM-C15; 1 socket for blades of 2.8 mm, part TSM-C28; used again, with one "
        "lead, one wire at a time: that of 1.5 mm in cavities 10 to 16, that of 2.8 mm in cavity 9",
    ]
    leads = (14 + 2 + 7 + 1) + (1 + 1 + 1 + 1) * 2
    (said,) = (line for line in needs if line.startswith("for the test leads"))
    assert said.startswith(f"for the test leads {leads * 0.5:.1f} m of single wire of 0.5 mm²")
    assert "24 contacts with one lead of 0.5 m, 4 with two" in said


def test_a_joint_says_its_barrel_and_its_sleeve() -> None:
    """1 mm² and 18 AWG, 0.82 mm²: together 1.82, a barrel of 1.5 to 2.5.

    Head on, the barrel of 4.2 mm passes a sleeve of 4.8; side by side two wires of 2.7 mm one of 6.
    """
    joints = sheet_of(shipped_pack(SORREL)).joints
    assert {row.barrel for row in joints if row.joint} == {"1.5 to 2.5 mm²"}
    assert {row.sleeve for row in joints if row.joint and "radio" in row.side} == {"4.8 / 1.6 mm"}
    assert {row.sleeve for row in joints if row.joint and "car" in row.side} == {"6 / 2 mm"}
    assert {(row.barrel, row.sleeve) for row in joints if not row.joint} == {("none", "3 / 1 mm")}


@pytest.mark.parametrize("name", SHIPPED)
def test_every_joint_of_a_loom_has_one_line_of_its_list(name: str) -> None:
    """Read from the circuit: what meets a loom and is made by us, and each end left open there."""
    pack = shipped_pack(name)
    if pack.circuit is None or not pack.looms:
        return
    check_joint_lists(pack)


def check_joint_lists(pack: WorkPack) -> None:
    index = CircuitIndex(circuit_of(pack))
    for sheet in pack.looms:
        made = [
            joint.id
            for joint in index.circuit.joints
            if joint.place == sheet.loom
            and joint.kind in ("splice", "tap", "element_lead")
            and made_by_us(index, joint)
        ]
        listed = [row.joint for row in sheet.joints if row.joint]
        assert sorted(listed) == sorted(made)
        opened = [each for each in index.circuit.open_ends if each.place == sheet.loom]
        assert sum(not row.joint for row in sheet.joints) == len(opened)
        cables = {row.cable for row in sheet.cables}
        assert cables == {row.cable for row in sheet.joints if row.cable}
        for wire in sheet.wires:
            assert wire.joints == tuple(r.number for r in sheet.joints if r.wire == wire.wire)


def test_at_a_branch_cores_turn_round_and_a_sleeve_waits_on_the_shortest() -> None:
    """Four joints 35 mm apart from the end of 600 mm of branch; 10 mm for the turn."""
    sheet = sheet_of(shipped_pack("sedge-fronts"))
    out = [row for row in sheet.joints if row.branch == "car fronts"]
    (cable,) = (row for row in sheet.cables if row.branch == "car fronts")
    assert [row.tip_mm for row in out] == [600, 565, 530, 495] and cable.edge_mm == 435
    assert [row.core_mm for row in out] == [175, 140, 105, 70] and cable.off_mm == 175
    nearest = out[-1].sleeve_from_mm or 0.0
    assert nearest - cable.edge_mm >= SLEEVE_MM + 10  # the sleeve, and both ties before it
    lows = [row.sleeve_from_mm or 0.0 for row in out]
    assert all(near >= SLEEVE_MM for near in (a - b for a, b in pairwise(lows)))


def test_what_is_joined_beside_a_whole_wire_is_wrapped_and_its_fuse_has_a_line() -> None:
    sheet = sheet_of(shipped_pack("sedge-fronts"))
    beside = [row for row in sheet.joints if "stays whole" in row.side]
    assert [(row.sleeve, row.barrel) for row in beside] == [("wrap of tape", "clip")]
    far = [row for row in sheet.joints if row.side.startswith("far lead")]
    assert [(row.core, row.core_mm) for row in far] == [
        ("cable 1 single 1, blue", 435 + 25 + BARE_MM)
    ]
    assert any("self-sealing tape" in line for line in sheet.needs)
    assert sum("open crimp clip" in line for line in sheet.needs) == 1
    assert any("short link of bare wire" in line for line in sheet.order)


def test_a_loom_that_is_too_short_for_a_row_begins_again() -> None:
    plan = sorrel_plan()
    short = replace(plan.use.loom, length_m=0.25)
    places = list(cut_places(replace(plan, use=replace(plan.use, loom=short))).values())
    assert [round(1000 * each) for each in places if each is not None] == [
        75, 105, 135, 165, 75, 105, 135, 165,
    ]  # fmt: skip
    exact = replace(plan.use.loom, length_m=0.24)
    at = list(cut_places(replace(plan, use=replace(plan.use, loom=exact))).values())
    assert [round(1000 * each) for each in at[:5] if each is not None] == [75, 105, 135, 165, 75]
    for count, length_m, apart_mm in ((2, 0.225, 35), (4, 0.3, 36), (2, 0.3, 40)):
        loom, few = replace(plan.use.loom, length_m=length_m), list(plan.wanted.items())[:count]
        narrow = replace(plan, use=replace(plan.use, loom=loom), wanted=dict(few))
        first, second, *_ = (each or 0.0 for each in cut_places(narrow).values())
        assert round(1000 * (second - first)) == apart_mm
    unknown = replace(plan.use.loom, length_m=None)
    found = cut_places(replace(plan, use=replace(plan.use, loom=unknown)))
    assert set(found.values()) == {None}


def test_the_way_back_is_to_unplug_and_to_take_one_wire_off() -> None:
    pack = shipped_pack(SORREL)
    out = "Unplug loom A at both ends: its own plug out of the radio, the car's plug out of it."
    home = next(line for line in pack.revert if line.startswith("Radio plug A home"))
    assert pack.revert.index(out) < pack.revert.index(home)
    others = [line for line in pack.revert if "take" in line and "B.4" in line]
    assert len(others) == 1
    assert not [line for line in pack.revert if "join radio end and speaker end" in line]


def test_a_plug_that_goes_home_is_named_by_its_loom_and_by_what_it_goes_into() -> None:
    circuit = circuit_of(shipped_pack(SORREL))
    index, homes = CircuitIndex(circuit), plugs_home(circuit.joints)
    of_looms = [joints for joints in homes.values() if len(joints) > 1]
    assert [home_words(index, joints) for joints in of_looms] == [
        "radio end of loom A and radio socket A, 16 cavities",
        "car end of loom A and radio plug A, 16 cavities",
    ]


def test_no_wire_of_the_car_is_cut() -> None:
    pack = shipped_pack(SORREL)
    assert pack.circuit is not None
    index = CircuitIndex(pack.circuit)
    assert [joint for joint in pack.circuit.joints if joint.undone == "rejoin"] == []
    nets = continuity(pack.circuit)
    for cavity in range(1, 9):
        wire = index.wires[f"A.{cavity} wire"]
        assert wire.stays and nets.together(f"A.{cavity}", wire.ends[1])
        assert not nets.together(f"A.{cavity}", f"radio A.{cavity}")
    for cavity in range(9, 17):
        assert nets.together(f"A.{cavity}", f"radio A.{cavity}")


def test_nothing_comes_apart_before_the_ring_out() -> None:
    pack = shipped_pack(SORREL)
    assert pack.tests[0].id == "loom-a-ring-out"
    texts = [step.text for step in pack.steps]
    gate = next(at for at, step in enumerate(pack.steps) if "no plug of the car" in step.gate)
    apart = [at for at, said in enumerate(texts) if "radio out" in said or said.endswith(" off")]
    assert apart and gate < min(apart)


def without_a_through(loom: Loom) -> Loom:
    """The loom without its wire from cavity 9 to cavity 9."""
    wires = [replace(w, through=tuple(c for c in w.through if c != "9")) for w in loom.wires]
    return replace(loom, wires=tuple(wires))


@pytest.mark.parametrize("maker", ["Okelund", None])
def test_a_bought_loom_is_on_the_parts_list_with_its_maker(maker: str | None) -> None:
    parts = shipped_parts(SORREL)
    loom = replace(parts.shelf.looms["ok-x16"], maker=maker, part_number="7-16")
    shelf = replace(parts.shelf, looms={"ok-x16": loom})
    pack = make_pack(replace(parts, shelf=shelf), defaults=HOUSE)
    (line,) = [part for part in pack.parts if part.item == loom.name]
    assert line.note == f"{maker or 'no maker recorded'} 7-16; loom A"


def test_a_microphone_that_does_not_get_through_is_told() -> None:
    parts = shipped_parts(SORREL)
    shelf = replace(parts.shelf, looms={"ok-x16": without_a_through(parts.shelf.looms["ok-x16"])})
    pack = make_pack(replace(parts, shelf=shelf), defaults=HOUSE)
    said = [flag for flag in pack.flags if flag.kind == "loom_cavity_dead"]
    assert [(flag.stops, "nobody hears you" in flag.says) for flag in said] == [(False, True)]


def test_without_the_loom_the_same_job_cuts_eight_wires() -> None:
    parts = shipped_parts(SORREL)
    pack = make_pack(replace(parts, job=replace(parts.job, looms=())), defaults=HOUSE)
    assert pack.kind == "tap_plan" and pack.circuit is not None and pack.looms == ()
    assert len([line for line in pack.revert if "join radio end and speaker end" in line]) == 8


def test_a_turn_on_in_the_loom_is_a_tap_with_its_own_fuse() -> None:
    """The whole of plug B on a loom: its accessory wire stays whole, and has its fuse there."""
    parts = shipped_parts(SORREL)
    plug = parts.shelf.housings["two-row-12-latch-bottom"]
    takes = replace(plug, id="takes-12", seen_from="mating_side", mates_with=(plug.id,),
                    contacts=None)  # fmt: skip
    ends = {"radio end": plug.id, "car end": takes.id}
    sixteen = parts.shelf.looms["straight-16"]
    twelve = replace(
        sixteen,
        id="straight-12",
        ends=tuple(replace(end, housing=ends[end.name]) for end in sixteen.ends),
        wires=tuple(
            replace(wire, through=cavities)
            for wire, cavities in zip(
                sixteen.wires, (("1",), ("7",), ("4", "11", "12")), strict=False
            )
        ),
    )
    shelf = replace(
        parts.shelf,
        looms={**parts.shelf.looms, twelve.id: twelve},
        housings={**parts.shelf.housings, takes.id: takes},
    )
    job = replace(parts.job, looms=(*parts.job.looms, JobLoom(record="straight-12", plug="B")))
    pack = make_pack(replace(parts, job=job, shelf=shelf), defaults=HOUSE)
    check_circuit(replace(parts, job=job, shelf=shelf), pack)
    assert pack.kind == "tap_plan", pack.refusals
    sheet = next(each for each in pack.looms if each.loom == "loom B")
    row = next(each for each in sheet.wires if each.doing == "beside")
    assert row.wire == "radio end.4 to car end.4" and "1 A" in row.car_side
    assert not [line for line in pack.revert if "B.4: take" in line]
    assert any(
        each.probe == "radio end.4" and "far end of" in each.other for each in sheet.ring_out
    )


def test_what_the_job_wants_is_what_the_loom_does() -> None:
    parts = shipped_parts(SORREL)
    assert set(sorrel_plan().wanted) == {str(cavity) for cavity in range(1, 9)}
    assert [(each.record, each.plug) for each in parts.job.looms] == [("ok-x16", "A")]


def test_a_loom_made_here_is_bought_as_plugs_terminals_and_wire() -> None:
    """Sedge's loom brings its fronts out; nothing of it is cut, and nothing of the car."""
    pack = shipped_pack("sedge-fronts")
    counts = Counter(row.doing for row in sheet_of(pack).wires)
    assert (counts["branch"], counts["beside"], counts["cut"]) == (8, 1, 0)
    bought = {part.item: part for part in pack.parts}
    assert bought["16-cavity in-line socket"].note == "bare; car end of loom A"
    assert bought["terminal for a bare plug"].quantity == 30
    # 0.1 m to the branch, 0.6 m of it, and 15 mm for the crimp at either end.
    assert bought["18 AWG copper, grey"].quantity == 0.8
    needs = sheet_of(pack).needs
    assert any("18 AWG copper: white 0.8 m, " in x and "red/blue 0.4 m" in x for x in needs)
    assert any(x.startswith("bare plugs: 1 two-row-16-latch-bottom, the radio ") for x in needs)
    assert any("2 crimp barrels for 2.5 to 6 mm²" in x for x in needs)  # its two splices
    assert any("4 joints of the loom's own" in x and "2 of 9 / 3 mm" in x for x in needs)
    assert sum(x.startswith("1 holder ") and "with leads" in x for x in needs) == 2
    assert not [line for line in pack.revert if "join radio end" in line]
    feed = [row for row in sheet_of(pack).ring_out if row.other == "feed.1"]
    assert [(row.most, row.unit) for row in feed] == [(150, "mV")]  # 300 mV over its 2 A
    # Its ground returns those 2 A; that of the radio 15 A.
    rung = [row for row in sheet_of(pack).ring_out if row.joined]
    back = {row.other: row.most for row in rung if row.probe == "radio end.9"}
    assert back == {"feed.2": 150, "car end.9": 20}
    assert any("divided by the amperes of the fuse" in x for x in sheet_of(pack).measuring)
    assert not any("of the fuse" in x for x in sheet_of(shipped_pack(SORREL)).measuring)


@pytest.mark.parametrize("name", [SORREL, "sedge-fronts"])
def test_a_loom_takes_a_pair_over_without_a_cut_and_leaves_the_car_on_the_way_back(
    name: str,
) -> None:
    pack = shipped_pack(name)
    said = {feed_view(feed, "loom A").treatment for feed in pack.plan.feeds}
    assert said == {"intercept in loom A: radio end to the converter"}
    assert {feed_view(feed).treatment for feed in pack.plan.feeds} == {
        "intercept: cut, radio end to the converter"
    }
    (out,) = [line for line in pack.revert if "every other cable of the job out" in line]
    assert "out with them, what holds them undone: loom A, " in out
    assert any(line.startswith("Unplug loom A at both ends") for line in pack.revert)


def test_a_plug_that_nothing_goes_into_says_why_its_fuse_goes_in() -> None:
    """Its wire is live: the fuse guards it."""
    order = sheet_of(shipped_pack("sedge-fronts")).order
    (said,) = [line for line in order if "the plug of feed" in line]
    assert "its fuse of 2 A goes in with the others, to guard its wire" in said


def test_the_ways_are_compared_and_the_job_decides() -> None:
    def said(pack: WorkPack) -> str:
        (found,) = (each for each in pack.because if "recommended" in each.decision)
        return f"{found.decision}: {found.because}"

    loomed = said(shipped_pack(SORREL))
    assert "recommended in a loom that is bought and altered" in loomed
    assert "0 of the car's wires cut, 0 joined beside, 12 joints" in loomed
    assert "at the plug: 8 of the car's wires cut" in loomed and "ok-x16" in loomed
    without = said(shipped_pack("leto-four-doors"))
    assert "recommended at the plug" in without and "no loom of this book fits" in without
    parts = shipped_parts(SORREL)
    bare = make_pack(replace(parts, job=replace(parts.job, looms=())), defaults=HOUSE)
    assert "the job has them at the plug, which decides" in said(bare)
    shelf = replace(parts.shelf, looms={"ok-x16": without_a_through(parts.shelf.looms["ok-x16"])})
    assert "no loom of this book fits" in said(
        make_pack(replace(parts, shelf=shelf), defaults=HOUSE)
    )


def on_straight_looms(parts: JobParts) -> JobParts:
    """The same job with every plug of the car on a thick straight loom of its own shells."""
    housings, looms, asked = dict(parts.shelf.housings), dict(parts.shelf.looms), []
    sixteen = parts.shelf.looms["straight-16"]
    for plug in parts.vehicle.plugs:
        shell = housings.get(plug.housing)
        if shell is None or plug.unit not in ("radio", "amplifier"):
            continue
        takes = replace(shell, id=f"takes-{plug.id.lower()}", mates_with=(shell.id,),
                        seen_from=_OTHER[shell.seen_from], contacts=None)  # fmt: skip
        unit, car = sixteen.ends
        loom = replace(
            sixteen,
            id=f"straight-{plug.id.lower()}",
            length_m=0.6,
            ends=(
                replace(unit, housing=shell.id, plugs_into=plug.unit),
                replace(car, housing=takes.id),
            ),
            wires=(replace(sixteen.wires[0], through=shell.cavities, wire=_THICK, carries=None),),
        )
        housings[takes.id], looms[loom.id] = takes, loom
        asked.append(JobLoom(record=loom.id, plug=plug.id))
    shelf = replace(parts.shelf, housings=housings, looms=looms)
    return replace(parts, job=replace(parts.job, looms=tuple(asked)), shelf=shelf)


_OTHER: dict[str, View] = {"wire_side": "mating_side", "mating_side": "wire_side"}
_THICK = Wire(base="grey", stripe=None, size_mm2=10.0)


@pytest.mark.parametrize("name", SHIPPED)
def test_any_job_holds_on_straight_looms(name: str) -> None:
    """Listened to or cut, from one plug or from three: the circuit is as whole as without."""
    parts = on_straight_looms(shipped_parts(name))
    pack = make_pack(parts, defaults=HOUSE)
    if shipped_pack(name).kind != "tap_plan":
        return
    assert pack.kind == "tap_plan", pack.refusals
    check_circuit(parts, pack)
    check_joint_lists(pack)
    assert not [joint for joint in circuit_of(pack).joints if joint.undone == "rejoin"]
    assert [flag for flag in pack.flags if flag.kind == "step_untested"] == []


def test_a_converter_fed_at_the_radio_takes_its_supply_in_the_loom() -> None:
    """The same joints as at the plug, on the table: a fuse of its own, and no wire of the car."""
    parts = on_straight_looms(shipped_parts("dash-converter"))
    pack = make_pack(parts, defaults=HOUSE)
    beside = {row.carries for sheet in pack.looms for row in sheet.wires if row.doing == "beside"}
    assert {"constant supply", "ground"} <= beside
    assert not [
        line for line in pack.revert if ": take " in line and "close the insulation" in line
    ]
    cables = [row.cable for sheet in pack.looms for row in sheet.cables]
    assert any(cable.startswith("supply of ") for cable in cables)
    lines = [line for sheet in pack.looms for line in sheet.order]
    assert any(line.startswith("each single wire of the cable list") for line in lines)


FUSED = "fuse of loom A splice 1 to feed.1"


def test_a_fuse_of_a_loom_is_a_part_of_the_circuit_on_every_sheet() -> None:
    """Splice, fuse, wire, plug: the branch hangs behind it, and nothing else."""
    pack = shipped_pack("sedge-fronts")
    index = CircuitIndex(circuit_of(pack))
    fuse = index.elements[FUSED]
    assert (fuse.kind, fuse.value, fuse.loom) == ("fuse", 2, "loom A")
    behind = [link for link in index.circuit.links if FUSED in link.path]
    assert [link.finishes for link in behind] == ["loom A feed.1"]
    path = behind[0].path
    assert path[path.index(FUSED) + 2] == "loom A splice 1 to feed.1"
    closed, opened = continuity(circuit_of(pack)), continuity(circuit_of(pack), lambda _: False)
    assert closed.together("A.1", "loom A feed.1")
    assert not opened.together("A.1", "loom A feed.1") and opened.together("A.1", "radio A.1")
    assert not index.is_of_loom("fuse of the turn-on at loom A car end.6 @from")
    sheet = sheet_of(pack)
    assert [row.wire for row in sheet.wires if row.fuse] == ["splice 1 to feed.1"]
    assert any(
        "cut it 50 mm behind splice 1; the holder of its fuse of 2 A" in x for x in sheet.order
    )
    (check,) = (test for test in pack.tests if test.id == "loom-a-fuses")
    assert "splice 1 to feed.1 2 A" in check.what and "link of wire" in check.what
    steps = [step for step in pack.steps if any(FUSED in line for line in step.lines)]
    assert [step.text for step in steps] == ["every fuse but the main one into its holder"]


@pytest.mark.parametrize("wired", [("car end.6", "radio end.6"), ("radio end.6", "car end.6")])
def test_a_fuse_in_a_wire_that_is_tapped_or_cut_lies_on_its_way(wired: tuple[str, str]) -> None:
    """Whichever end the record names first, and in a bought loom with a spare alone."""
    parts = shipped_parts("sedge-fronts")
    loom = parts.shelf.looms["sedge-fronts-out"]
    wires = [replace(w, through=tuple(c for c in w.through if c != "6")) for w in loom.wires]
    start, to = (point_of(each) for each in wired)
    six = replace(wires[14], through=(), start=start, to=to, fuse_a=10)
    made = replace(loom, made="bought", maker="Okelund Sound",
                   wires=(*[w for w in wires if w.through or w.start], six))  # fmt: skip
    shelf = replace(parts.shelf, looms={loom.id: made})
    pack = make_pack(replace(parts, shelf=shelf), defaults=HOUSE)
    check_circuit(replace(parts, shelf=shelf), pack)
    fuse = f"fuse of loom A {wired[0]} to {wired[1]}"
    index = CircuitIndex(circuit_of(pack))
    assert any(fuse in link.path for link in index.circuit.links)
    (part,) = (each for each in pack.parts if fuse in each.note)
    assert part.quantity == 1 and "a spare, one is in the loom" in part.note


def test_a_fuse_in_a_wire_that_is_cut_stays_with_one_half() -> None:
    parts = shipped_parts(SORREL)
    loom = parts.shelf.looms["ok-x16"]
    wires = (replace(loom.wires[0], fuse_a=10), *loom.wires[1:])
    shelf = replace(parts.shelf, looms={loom.id: replace(loom, wires=wires)})
    pack = make_pack(replace(parts, shelf=shelf), defaults=HOUSE)
    check_circuit(replace(parts, shelf=shelf), pack)
    index = CircuitIndex(circuit_of(pack))
    fuses = [part for part in index.circuit.elements if part.loom]
    assert len(fuses) == 4
    assert all(any(part.id in link.path for link in index.circuit.links) for part in fuses[:2])


def test_what_a_loom_passes_on_is_read_where_it_can_be_seen() -> None:
    """No speaker at volume zero, and no speed or mute in a car that stands."""
    found = {t.id: t for t in shipped_pack("sedge-fronts").tests if "passed-on" in t.id}
    standing, heard, seated, driven = (
        found.pop(f"loom-a-passed-on{end}") for end in ("", "-heard", "-seated", "-driven")
    )
    assert (standing.state, heard.state, driven.state) == ("radio_on_zero", "tuner", "engine")
    for word in ("speaker leg", "speed wire", "mute wire"):
        assert word not in standing.what
    assert "speaker leg" in heard.what and "low volume" in heard.what
    assert "speed wire" in driven.what and "mute wire" in driven.what
    assert (standing.phase, driven.phase) == ("bench", "close")
    assert seated.phase == "bench" and seated.probes == driven.probes  # felt for before trim
    states = {"loom-a-passed-on-lit": "lights_on", "loom-a-passed-on-geared": "run"}
    assert {test.id: test.state for test in found.values()}.items() <= states.items()
    probes = [*standing.probes, *heard.probes, *seated.probes]
    probes += [end for test in found.values() for end in test.probes]
    assert len(probes) == len(set(probes))  # each wire on one line
