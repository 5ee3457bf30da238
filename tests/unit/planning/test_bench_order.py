"""The order of a bench sheet: what explains comes first, wires are told apart before they are cut,
and every sleeve can be put on where its line says."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from functools import cache
from itertools import product

import pytest
from circuit_checks import circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from test_loom_jobs import SIDES, SORREL, on_straight_looms, sheet_of

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.terminal_names import loom_terminal
from builder.planning.harness.joint_places import BARE_MM, BARREL_MM, EMPTY_MM, joint_place
from builder.planning.harness.rows import LoomSheet
from builder.planning.job.make_pack import make_pack
from builder.planning.views.names import wire_words
from builder.planning.work_pack import WorkPack


@cache
def made(name: str, *, straight: bool) -> WorkPack:
    """A job on its own looms, or with every plug on a straight one."""
    if not straight:
        return shipped_pack(name)
    return make_pack(on_straight_looms(shipped_parts(name)), defaults=HOUSE)


def sheets(name: str, *, straight: bool) -> tuple[LoomSheet, ...]:
    """The bench sheets of such a job."""
    return made(name, straight=straight).looms


def first(lines: Sequence[str], words: str) -> int:
    """Where a line begins with these words."""
    return next(at for at, line in enumerate(lines) if line.startswith(words))


@pytest.mark.parametrize("name", SHIPPED)
def test_rules_are_no_steps_and_each_word_of_the_lists_has_its_rule(name: str) -> None:
    """The ways of the joint list are told before the steps; what is ticked is an act."""
    for sheet in shipped_pack(name).looms:
        said = sheet.order
        forms = [x for x in sheet.rules if x.startswith(('"before', '"after', "a joint"))]
        assert bool(forms) == any(row.sleeve_on != "none" and row.joint for row in sheet.joints)
        assert not [x for x in said if x.startswith(('"', "a joint", "lines on", "lines that"))]
        assert not {*sheet.rules, *sheet.measuring, *sheet.failing} & {*said}
        finding = [at for at, x in enumerate(said) if x.startswith("one wire at a time")]
        assert len(finding) == (sheet.made != "bench")
        rung = first(said, "now the ring-out")
        assert all(first(said, "make the test leads") < at < rung for at in finding)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_sleeve_waits_on_a_core_only_where_it_comes_back_over_the_joint(name: str) -> None:
    """Two wires from one side: no sleeve threaded on one of them passes the other."""
    for sheet in shipped_pack(name).looms:
        unit = f"{sheet.unit_end}'s half"
        for row in sheet.joints:
            if not row.joint:
                assert row.sleeve_on == "after"
            elif row.sleeve == "wrap of tape":
                assert row.sleeve_on == "none"
            else:
                head_on = row.side == unit or row.side.startswith("far lead")
                assert row.sleeve_on == ("before" if head_on else "after"), row
        ways = {row.sleeve_on for row in sheet.joints if row.joint}
        said = " ".join(sheet.rules)
        assert ('"before": ' in said) == ("before" in ways)
        assert ('"after": ' in said) == ("after" in ways)


def test_a_barrel_is_no_longer_than_what_is_bared_and_a_sleeve_closes_on_insulation() -> None:
    assert BARREL_MM <= BARE_MM
    for side in SIDES:
        place = joint_place(100, side)
        copper = (100 - 15 - BARE_MM, 100 - 15) if side == "unit" else (115, 115 + BARE_MM)
        low, high = place.sleeve_mm
        assert (copper[0] - low, high - copper[1]) == (EMPTY_MM, EMPTY_MM)
    sheet = sheet_of(shipped_pack(SORREL))
    assert sum(f"{EMPTY_MM:g} mm of it" in line for line in sheet.rules) == 2
    assert any(f"bare, {BARREL_MM:g} mm long" in line for line in sheet.needs)


def test_a_wire_is_known_before_it_has_its_flags_and_rung_before_the_next_is_cut() -> None:
    """The tape is off up to the plug, so that a wire is held where it leaves its cavity."""
    order = sheet_of(shipped_pack(SORREL)).order
    tape, rung = first(order, "take the tape off"), first(order, "one wire at a time")
    cut, joints = first(order, "cut one wire at a time"), first(order, "now the joint list")
    assert tape < rung < cut < first(order, "each cable of") < joints
    assert "from the back of the radio end to 350 mm, no farther" in order[tape]
    acts = ("ring it with", "tick it under Found", "take hold of it", "put its flags on", "follow")
    at = [order[rung].rindex(act) for act in acts]
    assert at == sorted(at)
    assert order[cut].index("before the next is cut ring both") < order[cut].index("shorten each")
    assert not [x for x in order[cut + 1 :] if x.startswith("flags") or "flags on" in x]


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_flags_lie_on_no_sleeve_no_jacket_and_not_under_tape_that_stays(
    name: str, straight: bool
) -> None:
    for sheet in sheets(name, straight=straight):
        (said,) = [x for x in sheet.rules if x.startswith("flags: ")] or [""]
        flags = {(int(a), int(b)) for a, b in re.findall(r"from (\d+) to (\d+) mm", said)}
        places = [row for row in sheet.joints if row.sleeve_from_mm is not None and not row.branch]
        assert all(b - a == 10 and a >= 0 for a, b in flags)
        assert len(flags) == 2 or not any(row.doing == "cut" for row in sheet.wires) or not places
        for row in places:
            low, high = row.sleeve_from_mm or 0, row.sleeve_to_mm or 0
            assert all(b <= low or a >= high for a, b in flags), row
        edges = [row.edge_mm for row in sheet.cables if row.edge_mm and not row.branch]
        assert all(b <= edge for edge in edges for _, b in flags)


def test_a_core_that_goes_elsewhere_in_the_car_is_a_line_with_the_limit_of_its_use() -> None:
    """18 AWG, 5.35 m at most, at 30 °C: 5.35 · 23.2 · 1.039 / 1000 = 0.129 Ω (UL 758, from memory),
    and 0.3 Ω as any that switches."""
    sheet = sheet_of(shipped_pack(SORREL))
    (line,) = [row for row in sheet.ring_out if row.what_for.startswith("is whole")]
    assert (line.probe, line.other) == (
        "loom's end of cable 1 single 1, blue",
        "far end of cable 1 single 1, blue",
    )
    assert (
        line.most == pytest.approx(0.3 + 5.35 * 23.2 * 1.0393 / 1000, abs=0.002)
        and line.unit == "Ω"
    )
    closed = first(sheet.order, "all lines passed")
    assert "15 at the far ends, 3 at the loom's end" in sheet.order[closed]
    assert [row.others[0].split(":")[0] for row in sheet.cables] == ["single 1, blue"] * 3
    assert "turn-on of CVN-2A" in sheet.cables[0].others[0] and "B.4" in sheet.cables[0].others[0]
    (zero,) = [x for x in sheet.measuring if x.startswith("lines on ohms")]
    for kind in (
        "contacts of 1.5 mm ____",
        "contacts of 2.8 mm ____",
        "two clips on each other __",
    ):
        assert kind in zero
    folded = [x for x in sheet.rules if "is joined to nothing here" in x]
    tied = [x for x in (*sheet.rules, *sheet.order) if "under the ties of its cable" in x]
    assert len(folded) == 1 and tied == folded


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_no_limit_is_below_what_its_cable_takes_and_a_share(name: str, straight: bool) -> None:
    for sheet in sheets(name, straight=straight):
        for row in sheet.ring_out:
            if row.most is not None and row.of_cable is not None:
                assert row.most - row.of_cable >= (0.3 if row.unit == "Ω" else 10) - 1e-6, row


class Table:
    """A loom on the table with its cables: what is joined to what, walked along the circuit."""

    def __init__(self, index: CircuitIndex, sheet: LoomSheet) -> None:
        self.index, self.near = index, defaultdict[str, set[str]](set)
        cables = {row.cable for row in sheet.cables}
        self.cores = [each for each in index.circuit.wires if each.piece in cables]
        mine = [w for w in index.circuit.wires if w.loom == sheet.loom]
        parts = [x for x in index.circuit.elements if sheet.loom in (x.loom, x.place)]
        for piece in (*self.cores, *mine, *parts):
            self.join(piece.ends)
        for joint in index.circuit.joints:
            if joint.place == sheet.loom and joint.kind != "plug_home":
                self.join(joint.joins)

    def join(self, ends: Sequence[str]) -> None:
        for end in ends:
            self.near[end] |= {*ends}

    def reached(self, end: str) -> set[str]:
        seen, todo = {end}, [end]
        while todo:
            new = self.near[todo.pop()] - seen
            seen |= new
            todo += new
        return seen

    def point(self, sheet: LoomSheet, said: str) -> str:
        """A point of the sheet as an end of the circuit."""
        if said.startswith("far end of "):
            return next(x for x in self.cores if wire_words(x) == said[11:]).ends[0]
        place, _, cavity = said.rpartition(".")
        return loom_terminal(sheet.loom, place, cavity)


def shown_in(terminal: str, line: str) -> bool:
    """Whether a line names a cavity of a loom: "loom A radio end.1" is "radio end.1" there."""
    return bool(re.search(rf"\b{re.escape(terminal.split(' ', 2)[2])}\b", line))


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_what_hangs_on_the_bar_is_apart_and_each_other_bare_end_is_its_other_end(
    name: str, straight: bool
) -> None:
    """Read from the step alone; a far end of what is measured on the bar would fail a good line."""
    pack = made(name, straight=straight)
    for sheet in pack.looms:
        (said,) = [x for x in sheet.measuring if x.startswith("lines that must read open")]
        bare = [each for each in sheet.bundle if each in said.replace("needs no line", "")]
        bare = [each for each in bare if not re.fullmatch(r".* end\.\d+", each)]
        cavities = [each for each in sheet.bundle if each not in bare]
        assert f"all {len(cavities)} contacts with one lead are in" in said
        bar = f"a bar of {len(sheet.bundle) + 1} screw"
        assert sum(bar in x for x in sheet.needs) == 1
        table = Table(CircuitIndex(circuit_of(pack)), sheet)
        on_bar = [table.point(sheet, each) for each in (*cavities, *bare)]
        nets = [table.reached(each) for each in on_bar]
        loaded = [x for x in sheet.measuring if x.startswith("a load lies between")]
        for at, net in zip(on_bar, nets, strict=True):
            told = {x for x in on_bar if any(shown_in(x, line) for line in loaded)}
            assert net & {*on_bar} == {at} or (
                len(net & {*on_bar}) == 2 and net & {*on_bar} <= told
            )
        named = [core for core in table.cores if wire_words(core) in said]
        for core in table.cores:
            assert core in named or any({*core.ends} & net for net in nets), core.id
        assert {f"far end of {wire_words(core)}" for core in named} == {
            each for each in bare if each.startswith("far end of ")
        }


def cavities_in(said: str) -> set[str]:
    """The cavities of "radio end, cavities 5 to 7, 9; car end, cavity 1", each as a point."""
    found = set()
    for plug, many in re.findall(r"([a-z][\w ]*), cavit(?:y|ies) ([\d, to]+)", said):
        for run in many.strip(", ").split(", "):
            low, _, high = run.partition(" to ")
            found |= {f"{plug}.{at}" for at in range(int(low), int(high or low) + 1)}
    return found


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_no_open_line_passes_with_a_contact_that_does_not_sit_or_a_clip_that_is_off(
    name: str, straight: bool
) -> None:
    """Each contact is sounded to another point of its wire, found along the circuit; where none is
    left, from its cavity before the tip is closed off, and it stays in. Each reading of open lies
    between two of near 0; the one point without a line has such a reading too."""
    pack = made(name, straight=straight)
    for sheet in pack.looms:
        (said,) = [x for x in sheet.measuring if x.startswith("lines that must read open")]
        spared = {*sheet.bundle} - {row.probe for row in sheet.ring_out if not row.joined}
        last = [
            f"{each} needs no line: near 0 Ω on the bar and that pull, before" for each in spared
        ]
        acts = ("Pull lightly", "ring its lead", "under a screw of the bar", "near 0 Ω on",
                "off it, open", "on it again, near 0 Ω, and it holds a light pull", *last,
                "Last, pull at each contact again")  # fmt: skip
        assert [*map(said.index, acts)] == sorted(map(said.index, acts))
        told = re.search(r"it sounds \((.*?), sounded before", said)
        alone = cavities_in(told[1]) if told else set()
        table = Table(CircuitIndex(circuit_of(pack)), sheet)
        bare = {end for core in table.cores for end in core.ends}
        ends = "|".join(map(re.escape, (sheet.unit_end, sheet.car_end)))
        cavity = re.compile(rf"{re.escape(sheet.loom)} ({ends})\.\w+")
        for each in (x for x in sheet.bundle if not x.startswith("far end")):
            at = table.point(sheet, each)
            others = [x for x in table.reached(at) - {at} if x in bare or cavity.fullmatch(x)]
            assert bool(others) == (each not in alone), each
        joins = [x for x in sheet.order if x.startswith("now the joint list")]
        stays = "closes off ring it from its cavity to its tip, leave that contact in"
        assert any(stays in x for x in joins) == bool(alone)


def open_acts(sheet: LoomSheet) -> list[tuple[str, str]]:
    """What is done at the open lines, point by point, as far as the sheet has it done."""
    (said,) = [x for x in sheet.measuring if x.startswith("lines that must read open")]
    held = [row.probe for row in sheet.ring_out if not row.joined]
    acts = []
    for point in held:
        acts += [(point, "near 0")] * ("the point: near 0 Ω" in said)
        acts += [(point, "open")]
        acts += [(point, "near 0")] * ("on it again, near 0 Ω" in said)
        acts += [(point, "pull")] * ("it holds a light pull" in said)
    for point in (x for x in sheet.bundle if f"{x} needs no line: near 0 Ω" in said):
        acts += [(point, "near 0"), (point, "pull")]
    contacts = [x for x in sheet.bundle if not x.startswith("far end")]
    seats = [(x, "seat") for x in contacts] if "Last, pull at each contact again" in said else []
    return [*acts, *seats]


def seen(act: str, *, here: bool, fault: str) -> bool:
    """Whether an act comes out otherwise for what came loose; a reading of open never does."""
    if act == "near 0":
        return fault == "clip" or (fault == "lead" and here)
    return here and (act, fault) in {("pull", "lead"), ("seat", "contact")}


@pytest.mark.parametrize("name", [SORREL, "sedge-fronts"])
def test_whatever_comes_loose_at_the_open_lines_is_seen_at_a_later_act(name: str) -> None:
    """It comes loose just before any one reading of open: the meter's clip; the lead of a point
    that was not yet pulled; a contact that the work at some lead drags out."""
    sheet = sheets(name, straight=False)[0]
    acts, played = open_acts(sheet), 0
    pulled = {point: at for at, (point, act) in enumerate(acts) if act == "pull"}
    assert {*pulled} == {*sheet.bundle}
    for at in (index for index, (_, act) in enumerate(acts) if act == "open"):
        assert acts[at + 1][1] == "near 0", "before the next line is read"
        for point, fault in product(sheet.bundle, ("clip", "lead", "contact")):
            if fault == "contact" and point.startswith("far end"):
                continue
            if fault == "lead" and pulled[point] < at:
                continue
            later = acts[at + 1 :]
            assert any(seen(act, here=point == of, fault=fault) for of, act in later), (at, point)
            played += 1
    assert played > 500


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_every_kind_of_line_says_what_is_done_when_it_fails(name: str, straight: bool) -> None:
    for sheet in sheets(name, straight=straight):
        kinds = [x for x in sheet.failing if x.startswith('"')]
        told = [kind for x in kinds for kind in re.findall(r'"([^"]+)"', x)]
        assert sorted(told) == sorted({row.what_for for row in sheet.ring_out})


@pytest.mark.parametrize("straight", [False, True])
@pytest.mark.parametrize("name", SHIPPED)
def test_the_end_that_comes_here_has_the_words_of_its_label(name: str, straight: bool) -> None:
    for sheet in sheets(name, straight=straight):
        for row in sheet.cables:
            assert re.search(rf"(from|to) {re.escape(row.comes)}(,|$)", row.label), row


@pytest.mark.parametrize("name", SHIPPED)
def test_a_code_that_the_lists_name_stands_at_the_head(name: str) -> None:
    """Each device that a cable leads to, but one that is called what it is; each other cavity."""
    pack = shipped_pack(name)
    for sheet in pack.looms:
        head = "; ".join(sheet.terms)
        listed = " ".join([row.joined for row in sheet.joints] + [
            other for row in sheet.cables for other in row.others
        ])  # fmt: skip
        for unit in circuit_of(pack).units:
            if unit.kind in ("converter", "amplifier") and unit.id in listed:
                assert f"{unit.id} is the {unit.kind}, {unit.place}" in head
    if name == SORREL:
        assert "B.4 is cavity 4 of the car's radio plug B" in head
        assert (
            head.startswith('"radio end.5" is cavity 5') and '"single" is a core of no pair' in head
        )
