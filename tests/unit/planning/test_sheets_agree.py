"""What one sheet of a job says the others say too: counts, places, names, what is still out."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from circuit_checks import circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.bay.ids import speakable
from builder.planning.cables.cut_lengths import cut_length_m, with_spare
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.circuit.terminal_names import RADIO_END, SPEAKER_END
from builder.planning.job.make_pack import make_pack
from builder.planning.levels.pair_tone import tone_words
from builder.planning.views.capped_ends import CAP
from builder.planning.views.device_runs import device_runs
from builder.planning.views.names import end_words, joint_words
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.work_pack import WorkPack
from builder.proof.band import where_in
from builder.rendering.drawings.gain_ladder import alike, places
from builder.rendering.pack_text import pack_text
from builder.rendering.pages.bay_lines import bay_band
from builder.rendering.pages.job_phrases import LEADS
from builder.rendering.pages.job_tests import bay_groups
from builder.rules import (
    bands_cancel,
    label_beyond_rail,
    open_load_unanswered,
    tweeter_on_full_band,
)

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]


def texts(pack: WorkPack) -> list[str]:
    return [step.text for step in pack.steps]


@pytest.mark.parametrize("name", JOBS)
def test_as_many_labels_are_picked_as_are_stuck_on(name: str) -> None:
    pack = shipped_pack(name)
    (line,) = [each for each in pack.parts if each.item == "label"]
    assert line.quantity == with_spare(len(pack.labels), HOUSE)


@pytest.mark.parametrize("name", JOBS)
def test_the_step_asks_for_a_label_mid_way_only_where_the_list_has_one(name: str) -> None:
    pack = shipped_pack(name)
    (said,) = [text for text in texts(pack) if text.startswith("label ")]
    assert "a cable also mid-way" in said and "every piece before" in said
    mid_way = {label.jacket for label in pack.labels if label.end == "mid-way"}
    assert all(piece.startswith("cable ") for piece in mid_way)


@pytest.mark.parametrize("name", JOBS)
def test_every_fuse_goes_into_its_holder_before_anything_is_powered(name: str) -> None:
    pack = shipped_pack(name)
    fuses = [part for part in circuit_of(pack).elements if part.kind == "fuse"]
    link = [part for part in fuses if part.id == "fuse of the link at the battery"]
    others = [part for part in fuses if part.id != "main fuse" and part not in link]
    (at,) = [n for n, text in enumerate(texts(pack)) if text.startswith("every fuse but the main")]
    assert pack.steps[at].lines == tuple(
        f"{part.purpose}: {part.rating}; place: {part.place}" for part in others
    )
    dead = {x.id for x in pack.tests if x.phase == "build" and x.turn != "fused"}
    taken = [n for n, step in enumerate(pack.steps) if dead & {*step.tests}]
    (last,) = [n for n, text in enumerate(texts(pack)) if text.endswith("then the main fuse in")]
    assert "supply-insulation" in dead and max(taken) < at < last
    joined = [n for n, text in enumerate(texts(pack)) if text.startswith("the last fuse into")]
    assert len(joined) == len(link) and all(n == last + 1 for n in joined)


@pytest.mark.parametrize("name", JOBS)
def test_the_customer_finds_each_fuse_at_its_place(name: str) -> None:
    pack = shipped_pack(name)
    lines = [line for line in pack.customer if "; place: " in line]
    places = [
        f.place for f in circuit_of(pack).elements if f.kind == "fuse" and f.id != "main fuse"
    ]
    assert [line.split("; place: ")[1].rstrip(".") for line in lines] == places


READ = re.compile(r"read ([\d.]+) V")


@pytest.mark.parametrize("name", JOBS)
def test_what_a_gain_is_set_to_passes_its_own_test(name: str) -> None:
    pack = shipped_pack(name)
    tests = {test.id: test for test in pack.tests}
    assert pack.levels
    for chain in pack.levels:
        test = tests[speakable(chain.speaker, "gain")]
        (said,) = READ.findall(chain.tone_note)
        assert said in test.what
        assert test.low is not None and test.high is not None
        assert test.low < float(said) <= test.high
        assert bay_band(test).endswith(f" to {said} V AC")


@pytest.mark.parametrize("name", JOBS)
def test_all_that_hangs_on_a_cut_wire_comes_off_before_its_ends_meet_again(name: str) -> None:
    pack = shipped_pack(name)
    index = CircuitIndex(circuit_of(pack))
    for joint in index.circuit.joints:
        if joint.undone != "rejoin":
            continue
        owners = {end: index.owners.get(end) for end in joint.joins}
        halves = [x for x in owners.values() if isinstance(x, CircuitWire) and x.stays]
        ours = [end for end in joint.joins if owners[end] not in halves]
        (line,) = [each for each in pack.revert if each.startswith(f"{halves[0].place}: take ")]
        assert all(end_words(index, end) in line for end in ours)


@pytest.mark.parametrize("name", JOBS)
def test_the_two_ends_of_a_cut_wire_are_told_apart_where_they_are_joined(name: str) -> None:
    """Both have one colour: exchanged, the amplifier drives the radio and nobody sees it."""
    pack = shipped_pack(name)
    index = CircuitIndex(circuit_of(pack))
    said = {line for step in pack.steps for line in step.lines}
    for joint in index.circuit.joints:
        for end in joint.joins if joint.undone == "rejoin" else ():
            half = index.owners.get(end)
            if isinstance(half, CircuitWire) and half.stays:
                which = half.id.removeprefix(f"{half.place} ")
                assert which in (RADIO_END, SPEAKER_END)
                (line,) = [each for each in said if each.startswith(joint_words(index, joint))]
                assert f"{which} of {half.place} {half.colours}" in line


@pytest.mark.parametrize("name", JOBS)
def test_the_customer_is_told_how_many_wires_are_cut_and_how_many_bared(name: str) -> None:
    pack = shipped_pack(name)
    told = " ".join(pack.customer)
    for how, undone in (("cut and joined to:", ", then join radio end"), ("not cut:", "close the")):
        counted = re.findall(rf"(\w+) wires? of the car (?:is|are) [a-z, ]*{how}", told)
        lines = [each for each in pack.revert if undone in each]
        assert sum(1 if each == "One" else int(each) for each in counted) == len(lines)


@pytest.mark.parametrize("name", JOBS)
def test_a_wire_from_device_to_device_has_one_name_on_every_sheet(name: str) -> None:
    pack = shipped_pack(name)
    listed = {row.name for row in pack.cut_list} | {row.jacket for row in pack.labels}
    wires = [w for w in circuit_of(pack).wires if w.carries == "control" and not w.cable]
    for wire in wires:
        if not wire.stays and not wire.loom:
            assert wire.id == wire.piece and wire.piece in listed


@pytest.mark.parametrize("name", JOBS)
def test_a_step_at_the_cars_wires_says_where_as_the_joints_do(name: str) -> None:
    pack = shipped_pack(name)
    joints = {joint.id: joint for joint in circuit_of(pack).joints}
    for step in pack.steps:
        if ": cut each wire" in step.text or ": join beside each wire" in step.text:
            assert all(f"({joints[made].place})" in step.text for made in step.makes)


@pytest.mark.parametrize("name", JOBS)
def test_a_line_output_is_named_by_its_terminal(name: str) -> None:
    pack = shipped_pack(name)
    terminals = {t.id for unit in circuit_of(pack).units for t in unit.terminals}
    for test in pack.tests:
        if "line output for" in test.what:
            named = test.what.split(", line output for")[0].split(" and ")
            assert named and set(named) <= terminals


def _pair_ohms(pack: WorkPack) -> dict[str, set[tuple[float | None, float | None]]]:
    """Every band in which the ohms of a pair of the car are read, by its channel."""
    channels = {(feed.plug, feed.cavity): feed.channel for feed in pack.plan.feeds}
    padded = {feed.channel for feed in pack.plan.feeds if feed.pad_ohm_per_leg}
    stood_in = {feed.channel for feed in pack.plan.feeds if feed.treatment != "addon"}
    found: dict[str, set[tuple[float | None, float | None]]] = {}
    for test in (each for each in pack.tests if each.quantity == "ohm"):
        at = test.reading and channels.get((f"{test.reading.plug}", f"{test.reading.cavity}"))
        if at and test.low is not None and test.high is not None:
            found.setdefault(at, set()).add((test.low, test.high))
        for channel in {*channels.values()}:
            later = [f"{channel}-return-ohms"]
            later += [] if channel in padded | stood_in else [f"{channel}-signal-ohms"]
            if test.id in later and test.high is not None:
                found.setdefault(channel, set()).add((test.low, test.high))
    return found


@pytest.mark.parametrize("name", JOBS)
def test_a_pair_reads_the_same_ohms_before_and_while_it_is_built(name: str) -> None:
    """Through our own wires at most as much more as they have, of which half an ohm is much."""
    found = _pair_ohms(shipped_pack(name))
    assert found
    for bands in found.values():
        highs = sorted(high for _, high in bands if high is not None)
        assert len({low for low, _ in bands}) == 1 and len(highs) <= 2, found
        assert highs[-1] - highs[0] < 0.5


def _named_places(pack: WorkPack) -> list[str]:
    """Every place that a sheet names, but those of the reasons and of what people typed."""
    return [
        *(row.note for row in pack.cut_list),
        *(f"{label.end} {label.text}" for label in pack.labels),
        *(f"{row.place} {row.meets}" for row in pack.joints),
        *(f"{row.from_end} {row.to_end}" for row in pack.conductors),
        *(f"{row.from_place} {row.to_place}" for row in pack.wiring),
        *(end.what for end in pack.insulate),
        *(line for step in pack.steps for line in step.lines if not line.startswith("mind: ")),
        *(test.what for test in pack.tests),
        *pack.customer,
    ]


@pytest.mark.parametrize("name", JOBS)
def test_a_plug_is_named_with_what_it_goes_into(name: str) -> None:
    """A plug A alone may be the plug of the radio, of its amplifier, of a loom."""
    pack = shipped_pack(name)
    units = {u.id: u.place for u in circuit_of(pack).units if u.kind == "plug"}
    assert units and all(unit.startswith(f"{place} plug ") for unit, place in units.items())
    bare = re.compile(r"(?<!radio )(?<!amplifier )(?<!its )\bplug (?:[A-Z]\d?)\b")
    assert [text for text in _named_places(pack) if bare.search(text)] == []


def test_a_coil_that_is_switched_has_its_way_back_on_every_sheet() -> None:
    """Without its ground nothing pulls in, however live the turn-on lead is."""
    pack = shipped_pack("rook-two-amplifiers")
    wire = "ground of fan relay"
    assert wire in {row.name for row in pack.cut_list} & {row.jacket for row in pack.labels}
    assert any(wire in row.meets and "fan relay GND" in row.meets for row in pack.joints)
    (step,) = [s for s in pack.steps if any("fan relay GND" in line for line in s.lines)]
    assert step.text.startswith("grounds")
    (test,) = [t for t in pack.tests if t.id == "fan-relay-turn-on-radio-on"]
    assert test.what == "turn-on terminal of fan relay to fan relay GND"
    assert "fan relay" in {part.item for part in pack.parts}


@pytest.mark.parametrize("name", JOBS)
def test_a_step_says_what_meets_as_the_list_of_joints_does(name: str) -> None:
    """A name may hold a comma, so no comma parts the two ends of a joint."""
    pack = shipped_pack(name)
    met = {row.meets for row in pack.joints}
    lines = [
        line.rpartition(": ")[0]
        for step in pack.steps
        for line in step.lines
        if step.makes and not step.text.startswith(("line leads", "at the table"))
        if not line.startswith("then ")  # what follows the joints and makes none
    ]
    lines = [line.removesuffix(": plug home") for line in lines]
    assert lines and set(lines) <= met


def test_the_ends_of_a_wire_between_coils_are_told_apart_on_every_sheet() -> None:
    pack = shipped_pack("tansy-two-coils")
    wire = "subwoofer coil 1 to coil 2"
    ends = ("subwoofer coil 1 −", "subwoofer coil 2 +")
    for end, label in zip(ends, [x for x in pack.labels if x.jacket == wire], strict=True):
        assert end in label.end and all(each in label.text for each in ends)
    (cut,) = [row for row in pack.cut_list if row.name == wire]
    assert cut.note.startswith(" to ".join(ends))
    joints = [row.meets for row in pack.joints if wire in row.meets]
    assert joints == [f"{end} (2 Ω) and {wire}" for end in ends]
    outer = [row.meets for row in pack.joints if "(coil " in row.meets]
    assert outer == [
        "lead to subwoofer + and subwoofer + (coil 1 +, 2 Ω)",
        "lead to subwoofer − and subwoofer − (coil 2 −, 2 Ω)",
    ]


@pytest.mark.parametrize("name", JOBS)
def test_a_length_to_cut_says_what_it_is_made_of(name: str) -> None:
    """A wire between devices was measured along its way, or by nobody; never by itself."""
    pack, converter = shipped_pack(name), shipped_parts(name).converter.name
    between = ("turn-on of ", f"supply of {converter}", f"ground of {converter}")
    rows = [row for row in pack.cut_list if row.name.startswith(("cable ", *between))]
    assert rows
    for row in rows:
        if row.route_m is None:
            assert row.cut_m == HOUSE.beside_m and "house default, side by side" in row.note
        else:
            assert row.cut_m == cut_length_m(row.route_m, HOUSE)
            assert f"{row.route_m:g} m of way" in row.note
        assert "as measured" not in row.note


LOOMED = [name for name in JOBS if shipped_parts(name).job.looms]


@pytest.mark.parametrize("name", LOOMED)
def test_what_is_done_at_the_table_is_not_done_again_in_the_car(name: str) -> None:
    pack = shipped_pack(name)
    rings = [test for test in pack.tests if test.state == "step"]
    assert len(rings) == len(shipped_parts(name).job.looms)
    for test in rings:
        named = [text for text in texts(pack) if text.endswith(f"; take test {test.number}")]
        assert len(named) == 1 and named[0].startswith("ring loom ")
    (lay,) = [text for text in texts(pack) if text.startswith("lay every cable dry")]
    at_table = [
        line for step in pack.steps if step.text.startswith("at the table: ") for line in step.lines
    ]
    cut = {piece for line in at_table for piece in re.findall(r"cable \d+", line)}
    assert cut and cut == set(re.findall(r"cable \d+", lay)) and lay.endswith("cut at the table")


def test_every_piece_is_cut_in_the_car_where_no_loom_is_made() -> None:
    assert "lay every cable dry, everything in its final place, then cut" in texts(
        shipped_pack("rook-two-amplifiers")
    )


@pytest.mark.parametrize("name", JOBS)
def test_a_line_is_read_at_the_tone_that_sets_its_gain(name: str) -> None:
    """A channel passes the tone of its gain; what a subwoofer hears of 1 kHz says nothing."""
    pack = shipped_pack(name)
    tests = {test.id: test for test in pack.tests}
    for chain in pack.levels:
        line = tests.get(speakable(chain.speaker, "line level"))
        if line is None:
            continue
        assert chain.tone_low_hz is not None and chain.tone_high_hz is not None
        tone = tone_words((chain.tone_low_hz, chain.tone_high_hz))
        assert f": {tone} tone" in line.what


def test_what_becomes_of_the_fader_is_said_once() -> None:
    pack = shipped_pack("sorrel-five-channels")
    (said,) = [loss for loss in pack.losses if "fader" in loss]
    assert said.startswith("The fader is lost: rear left door and rear right door play a copy")
    assert "turned to the rear it silences everything" in said
    assert [line for line in pack.customer if "fader" in line] == [f"What changes: {said}"]


@pytest.mark.parametrize("name", JOBS)
def test_the_way_back_says_where_each_joint_lies(name: str) -> None:
    pack = shipped_pack(name)
    lines = [line for line in pack.revert if "insulation" in line or "wire again" in line]
    places = {joint.place for joint in circuit_of(pack).joints}
    assert all(re.fullmatch(r".*\((.*)\)\.", line)[1] in places for line in lines)  # type: ignore[index]
    radio = any("(radio)." in line or line.startswith("Unplug loom") for line in pack.revert)
    assert radio == any(line.startswith("Radio out, ") for line in pack.revert)
    assert radio == any(line.startswith("Radio home, ") for line in pack.revert)


def test_the_way_back_of_a_car_that_nobody_took_apart_says_so() -> None:
    parts = shipped_parts("tansy-two-coils")
    bare = replace(parts, vehicle=replace(parts.vehicle, access=()))
    revert = make_pack(bare, defaults=HOUSE).revert
    assert "Open the right luggage side: how is not on record; write down what comes off." in revert
    assert "Close the right luggage side again, with whatever was taken off." in revert


SAID = {
    "adhesive sleeve, ": r"^(\d+) adhesive sleeves?, ",
    "crimp barrel": r"(?:^|; )(\d+) crimp barrels?\b",
    "open crimp clip": r"^(\d+) open crimp clips? ",
    "cable tie": r"^(\d+) cable ties?, ",
    "flag for a wire": r"; (\d+) flags? for wires, ",
}


@pytest.mark.parametrize("name", LOOMED)
def test_as_many_small_parts_are_bought_as_the_bench_sheet_asks_for(name: str) -> None:
    pack = shipped_pack(name)
    for sheet in pack.looms:
        for item, asks in SAID.items():
            asked = sum(int(each) for line in sheet.needs for each in re.findall(asks, line))
            counted = [need for need in sheet.counts if need.item.startswith(item)]
            assert sum(need.quantity for need in counted) == asked, item
            for need in counted if item != "cable tie" else ():
                (line,) = [part for part in pack.parts if part.item == need.item]
                share, two = with_spare(need.quantity, HOUSE), need.quantity + 2
                joined = item != "flag for a wire"
                assert line.quantity == (max(share, two) if joined else share)
                assert line.note.startswith(f"{need.quantity} on the sheet of {sheet.loom}")


@pytest.mark.parametrize("name", JOBS)
def test_what_each_joint_in_the_car_is_crimped_with_is_bought(name: str) -> None:
    """Every joint that its step calls crimped, and every one beside a whole wire, but those of the
    looms, which their bench sheets count."""
    pack = shipped_pack(name)
    circuit = circuit_of(pack)
    looms = {unit.id for unit in circuit.units if unit.kind == "loom"}
    index = CircuitIndex(circuit)
    made = [x for x in circuit.joints if made_by_us(index, x) and x.place not in looms]
    for kinds, item in (
        (("splice", "element_lead"), "crimp barrel"),
        (("tap",), "open crimp clip"),
    ):
        joints = [each for each in made if each.kind in kinds]
        lines = [x for x in pack.parts if x.item.startswith(item) and x.item.endswith("in the car")]
        assert sum(int(line.note.split()[0]) for line in lines) == len(joints), item
        assert all(line.quantity >= int(line.note.split()[0]) for line in lines)


@pytest.mark.parametrize("name", LOOMED)
def test_no_sleeve_of_a_loom_is_bought_twice(name: str) -> None:
    """What is closed outside the looms and their cables has the one line without a size."""
    pack = shipped_pack(name)
    index, looms = CircuitIndex(circuit_of(pack)), {sheet.loom for sheet in pack.looms}
    cables = {row.cable for sheet in pack.looms for row in sheet.cables}
    joints = [
        joint
        for joint in index.circuit.joints
        if joint.closed_by == "adhesive sleeve" and joint.place not in looms
    ]
    ends = [
        each
        for each in index.circuit.open_ends
        if each.closed_by == "adhesive sleeve"
        and each.place not in looms
        and getattr(index.owners.get(each.end), "piece", "") not in cables
    ]
    lines = [part for part in pack.parts if part.item == "adhesive sleeve"]
    assert sum(part.quantity for part in lines) == with_spare(len(joints) + len(ends), HOUSE)


@pytest.mark.parametrize("name", JOBS)
def test_a_printed_limit_passes_and_has_three_digits_where_a_meter_shows_them(name: str) -> None:
    for test in shipped_pack(name).tests:
        limits = [test.low, test.high]
        if test.quantity == "check" or test.high_mohm is not None or None in limits:
            continue
        printed = [float(each) for each in re.findall(r"[\d.]+", bay_band(test))]
        assert all(where_in(test.band, each, None) == "in" for each in printed), bay_band(test)
        assert all(len(f"{each:g}".replace(".", "").strip("0")) <= 3 for each in printed)


@pytest.mark.parametrize("name", JOBS)
def test_what_copper_is_worked_out_at_stands_beside_it(name: str) -> None:
    """A lead's loss at the 20 °C that copper is given at, a supply's at the house's warmer one."""
    pack = shipped_pack(name)
    assert pack.power
    leads = [
        each.because for each in pack.because if " Ω" in each.because and "damping" in each.because
    ]
    runs = [each.because for each in pack.power.because if " lose " in each.because]
    assert len(leads) == len(pack.speaker_leads) and all(" Ω at 20 °C costs" in x for x in leads)
    assert runs and all(f" at {HOUSE.hot_conductor_c:g} °C" in each for each in runs)
    assert LEADS.endswith("20 °C")


@pytest.mark.parametrize("name", JOBS)
def test_the_ways_count_the_joints_beside_whole_wires_that_the_job_makes(name: str) -> None:
    pack = shipped_pack(name)
    for reason in pack.because if not pack.looms else ():
        if ": recommended " not in reason.decision:
            continue
        plug = reason.decision.partition(":")[0].split()[-1]
        (told,) = re.findall(r"at the plug: .*?(\d+) joined beside", reason.because)
        taps = [x for x in circuit_of(pack).joints if x.kind == "tap"]
        assert int(told) == sum(any(end.startswith(f"{plug}.") for end in x.joins) for x in taps)


@pytest.mark.parametrize("name", JOBS)
def test_there_is_a_cap_for_each_end_that_a_step_caps(name: str) -> None:
    pack = shipped_pack(name)
    capped = [len(step.lines) for step in pack.steps if ": cap each by itself" in step.text]
    assert [line.quantity for line in pack.parts if line.item == CAP] == capped
    assert capped or name not in ("dash-converter", "tansy-two-coils", "tarn-subwoofer")


@pytest.mark.parametrize("name", SHIPPED)
def test_a_ladder_begins_at_the_unit_that_is_tapped_and_ends_at_the_speaker(name: str) -> None:
    """Also where nothing may be built yet: what is set is printed on the same sheet."""
    pack, vehicle = shipped_pack(name), shipped_parts(name).vehicle
    for one in alike(pack):
        first, *_, last = (place.name for place in places(one, pack.plan.levels))
        pair = vehicle.channel(one.chain.channels[0])
        behind = pair is not None and pair.driven_by == "amplifier"
        assert first == f"{'factory amplifier' if behind else 'radio'}, loudest clean"
        assert last == "speaker"
    assert "converter output" in {x.name for x in places(alike(pack)[0], pack.plan.levels)}


@pytest.mark.parametrize("name", JOBS)
def test_a_core_is_called_core_and_a_turn_on_turn_on(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    lines = pack_text(pack, parts, ()).splitlines()
    told = [line for line in lines if "conductor" in line]
    assert all("length" in line or "spec" in line for line in told), told
    assert not [
        line for line in lines if re.search(r" for control:|, control,|turn-on wire to", line)
    ]
    assert not [line for line in lines if "into the unit" in line or "out of the unit" in line]


def test_the_cars_own_subwoofer_is_told_from_that_of_the_job() -> None:
    pack, parts = shipped_pack("lovage-mid-subwoofer"), shipped_parts("lovage-mid-subwoofer")
    lines = [
        line
        for line in pack_text(pack, parts, ()).splitlines()
        if re.search(r"\bsub\b(?! amp|-)", line)
    ]
    assert lines == []


def test_findings_of_a_job_name_a_pair_as_its_sheets_do() -> None:
    pack, parts = shipped_pack("ullin-split-fronts"), shipped_parts("ullin-split-fronts")
    rules = (open_load_unanswered, bands_cancel, tweeter_on_full_band, label_beyond_rail)
    said = [fault.message for rule in rules for fault in rule.check(pack, parts)]
    assert said and not [each for each in said if re.search(r"(front|rear)-(left|right)", each)]


@pytest.mark.parametrize("name", JOBS)
def test_a_wire_of_the_car_has_one_size_on_both_sides_of_its_cut(name: str) -> None:
    wires = circuit_of(shipped_pack(name)).wires
    sizes: dict[str, set[str]] = {}
    for wire in wires:
        if wire.stays and wire.size is not None:
            sizes.setdefault(wire.id.rsplit(" ", 1)[0], set()).add(wire.size.words)
    assert sizes and all(len(each) == 1 for each in sizes.values()), sizes


def test_a_data_interface_draws_what_its_record_says_in_the_netlist() -> None:
    """What it draws itself while the bus is awake, and what its output gives besides."""
    pack, parts = shipped_pack("teasel-four-doors"), shipped_parts("teasel-four-doors")
    gives = pack.plan.turn_on.draw_ma
    supply = parts.shelf.interfaces["ok-7n"].supply
    assert gives and supply.awake_ma
    (terminal,) = [x for x in circuit_of(pack).terminals if x.id == "OK-7N +12 V"]
    assert terminal.draw_ma == supply.awake_ma + gives
    runs = {each.name: each for each in device_runs(circuit_of(pack), HOUSE)}
    assert runs["supply of OK-7N"].current_a == terminal.draw_ma / 1000


@pytest.mark.parametrize("name", JOBS)
def test_a_line_that_may_not_be_read_yet_says_so_itself(name: str) -> None:
    pack = shipped_pack(name)
    held = {test: step.blocked for step in pack.steps if step.blocked for test in step.tests}
    said: dict[int, str] = {}
    for group in bay_groups(pack, ()):
        for line in group.lines:
            again = re.fullmatch(r"as test (\d+)", line.waits)
            said[line.number] = said[int(again[1])] if again else line.waits
            assert said[line.number] == held.get(line.id, "")
    assert held or name != "tarn-subwoofer"
