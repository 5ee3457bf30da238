"""Two sheets beside each other, in the hands of whoever does the work: one name, one figure."""

from __future__ import annotations

import re

import pytest
from circuit_checks import circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.figures import shown
from builder.planning.cables.piece_names import cable_number
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.views.device_runs import device_runs
from builder.rendering.pack_text import pack_text
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.supply_phrases import supply_views

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]
CORES_APART = f"within {HOUSE.label_from_end_mm:g} mm of the"


@pytest.mark.parametrize("name", JOBS)
def test_labels_tell_pieces_of_cable_apart_by_their_bands(name: str) -> None:
    pack = shipped_pack(name)
    for piece in {row.piece for row in pack.conductors if row.jacket is not None}:
        mine = [label for label in pack.labels if label.jacket == piece]
        assert {label.bands for label in mine} == {cable_number(piece)}
        near, far, middle = (label.end for label in mine)
        assert near.startswith(CORES_APART) and far.startswith(CORES_APART) and middle == "mid-way"


@pytest.mark.parametrize("name", JOBS)
def test_a_label_says_what_its_cores_are_joined_to(name: str) -> None:
    """At the radio alone there are its own ends, its speakers' wires and both plugs of a loom."""
    pack = shipped_pack(name)
    index, texts = CircuitIndex(circuit_of(pack)), {x.jacket: x.text for x in pack.labels}
    for wire in index.own_wires():
        if wire.loom or index.link_of(wire) is None:
            continue
        met = {
            owner.id: owner
            for end in wire.ends
            for joint in index.joints_of[end]
            for other in joint.joins
            if isinstance(owner := index.owners.get(other), CircuitWire) and owner != wire
        }
        for owner in met.values():
            said = re.search(r"(radio|car) end", owner.id)
            if owner.loom and said:
                assert f"the {said[0]} of {owner.loom}" in texts[wire.piece], wire.id
            elif owner.stays and wire.carries == "amplified":
                assert "to the speakers' wires at the " in texts[wire.piece], wire.id


def test_the_bench_and_the_list_put_a_label_at_one_place() -> None:
    """Of a jacket 296 mm may be off at a loom: nothing lies 50 mm from the end of such a cable."""
    pack = shipped_pack("sorrel-five-channels")
    (sheet,) = pack.looms
    (line,) = [line for line in sheet.order if line.startswith("mark each cable")]
    at_loom = re.findall(r"the label from (\d+) to \d+ mm of the edge of the jacket", line)
    assert len(at_loom) == 1 and int(at_loom[0]) <= HOUSE.label_from_end_mm
    assert "At the far end, from the edge of the jacket there: the label from 10 to" in line
    texts = {row.cable: row.label for row in sheet.cables if row.bands}
    assert len(texts) == 3
    for piece, said in texts.items():
        mine = [x for x in pack.labels if x.jacket == piece]
        assert {x.text for x in mine} == {said} and mine[-1].end == "mid-way"
        assert all(x.end.startswith(CORES_APART) and "end of its jacket" in x.end for x in mine[:2])


@pytest.mark.parametrize("name", JOBS)
def test_a_cars_tag_is_said_to_be_the_shops(name: str) -> None:
    """A bare "car rush-4" reads as a model or as another job."""
    pack, parts = shipped_pack(name), shipped_parts(name)
    head = pack_text(pack, parts, [])
    assert f"shop's tag {parts.job.car.tag}" in head and f", car {parts.job.car.tag}" not in head


@pytest.mark.parametrize("name", JOBS)
def test_what_switches_on_is_called_by_the_name_that_its_wires_have(name: str) -> None:
    pack = shipped_pack(name)
    known = {terminal.id for unit in circuit_of(pack).units for terminal in unit.terminals}
    ours = {f"turn-on output of {unit.id}" for unit in circuit_of(pack).units}
    assert all(draw.output in known | ours for draw in pack.turn_on_draws)
    reasons = {each.decision: each.source for each in (*pack.because, *pack.plan.because)}
    for draw in pack.turn_on_draws:
        source = reasons[f"{draw.output} switches {', '.join(draw.feeds)}"]
        from_car = draw.output in known and " " not in draw.output
        assert ("the vehicle's record" in source) == from_car


@pytest.mark.parametrize("name", JOBS)
def test_a_line_that_reads_between_two_wires_says_so_in_its_name(name: str) -> None:
    for test in shipped_pack(name).tests:
        if "against the other wire" in test.what and test.reading is not None:
            assert "." in test.reading.against, test.id


def test_a_hold_up_is_counted_from_the_volts_that_its_sheet_names() -> None:
    pack = shipped_pack("teasel-subwoofer")
    assert pack.hold_up is not None
    (said,) = [x.because for x in pack.because if x.decision.startswith("hold the turn-on")]
    assert f"from {pack.hold_up.from_v:g} V, " in said


@pytest.mark.parametrize("name", JOBS)
def test_a_run_of_the_power_sheet_is_a_piece_of_the_cut_list(name: str) -> None:
    """Same name, same conductor; out and back together are as long as what is cut of it."""
    pack = shipped_pack(name)
    assert pack.power is not None and pack.power.runs
    cut = {row.name: row for row in pack.cut_list}
    for run in pack.power.runs:
        assert cut[run.name].cable == run.conductor


@pytest.mark.parametrize("name", JOBS)
def test_a_cable_is_picked_by_the_name_that_the_cut_list_has(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    shelf = {cable.id: f"{cable.name} ({cable.id})" for cable in parts.cables}
    picked = {line.item for line in pack.parts}
    printed = pack_text(pack, parts, [])
    for row in pack.cut_list:
        said = shelf.get(row.cable, row.cable)
        assert said in picked and re.search(rf"{re.escape(row.name)} +{re.escape(said)} ", printed)


@pytest.mark.parametrize("name", JOBS)
def test_a_fuse_has_one_name_on_every_sheet(name: str) -> None:
    """Holder, bay, customer and parts: who looks for a fuse looks for one name."""
    pack = shipped_pack(name)
    fuses = [part for part in circuit_of(pack).elements if part.kind == "fuse"]
    rows = (f"{row.from_joint} | {row.to_joint}" for row in pack.conductors)
    met = " | ".join((*(row.meets for row in pack.joints), *rows))
    told = " | ".join((*pack.customer, *(line for step in pack.steps for line in step.lines)))
    for fuse in fuses:
        assert f"holder of the {fuse.id} ({fuse.rating})" in met
        assert any(
            fuse.id in p.note for p in pack.parts if p.item.startswith(f"fuse {fuse.rating}")
        )
        assert told.lower().count(f"{fuse.id}: {fuse.rating}".lower()) >= 1


def test_a_fuse_position_is_a_place_that_somebody_finds() -> None:
    """F14 alone is a number; and there no wire is laid beside, nor an insulation closed."""
    pack = shipped_pack("teasel-subwoofer")
    assert any("place: F14 in the cabin fuse panel" in line for line in pack.customer)
    (joint,) = [row for row in pack.joints if row.meets.startswith("F14 and holder")]
    assert "fuse tap" in joint.how and "wire" not in joint.how
    (tap,) = [line for line in pack.parts if line.item.startswith("fuse tap")]
    assert tap.quantity == 1 and "F14" in tap.note
    (back,) = [line for line in pack.revert if "F14: take" in line]
    assert "insulation" not in back


LOOMED = [name for name in JOBS if shipped_parts(name).job.looms]


@pytest.mark.parametrize("name", LOOMED)
def test_a_loom_is_said_to_have_as_many_joints_as_its_bench_sheet_lists(name: str) -> None:
    pack = shipped_pack(name)
    (sheet,) = pack.looms
    (way,) = [each for each in pack.because if each.decision.startswith("radio plug")]
    joined = [row for row in sheet.joints if row.joint]
    said = [int(each) for each in re.findall(r"(\d+) joints", way.because)]
    assert set(said) == {len(joined)}
    assert "the job does so" in way.because or "the job has them " in way.because


@pytest.mark.parametrize("name", LOOMED)
def test_an_end_that_a_loom_keeps_is_called_as_the_conductors_are(name: str) -> None:
    pack = shipped_pack(name)
    conductors = {f"{row.piece} {row.place}" for row in pack.conductors}
    ends = [each.what for each in pack.insulate if "(loom " in each.what]
    assert all(re.search(r"\((loom .+)\)", end)[1] in conductors for end in ends)  # type: ignore[index]


@pytest.mark.parametrize("name", JOBS)
def test_what_is_off_stands_on_a_caution_in_no_order_of_its_own(name: str) -> None:
    """The steps have an order, found for the whole job; a list beside them had another."""
    parts = shipped_parts(name)
    cautions = cautions_of(parts.vehicle, parts.job, shipped_pack(name).steps)
    assert not any("order" in each.title for each in cautions)


@pytest.mark.parametrize("name", SHIPPED)
def test_what_the_steps_take_off_is_what_the_cover_says_and_nothing_else(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    if not pack.steps:
        return
    said = {each.title: each.text for each in cautions_of(parts.vehicle, parts.job, pack.steps)}
    moved = {(each.what, each.value) for step in pack.steps for each in step.moves}
    names = [part.name for part in parts.vehicle.access]
    off = {each for each in names if (each, "off") in moved}
    listed = said.get("Comes off for this job", "").split("; ")
    assert {each for each in names if any(x.startswith(each) for x in listed)} == off
    assert any(x.startswith("radio") for x in listed) == (("radio", "pulled") in moved)
    slid = {each for each in names if (each, "slid") in moved}
    assert set(filter(None, said.get("Slid on its rails and bolted all the time", "").split("; "))
               ) == slid  # fmt: skip


@pytest.mark.parametrize("name", JOBS)
def test_a_cone_is_looked_at_by_the_name_its_wires_end_at(name: str) -> None:
    pack = shipped_pack(name)
    units = {unit.id for unit in circuit_of(pack).units}
    looked = [test for test in pack.tests if test.id.endswith("-polarity")]
    assert looked and all(test.what.partition(":")[0] in units for test in looked)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_channel_has_its_name_in_words_on_every_sheet(name: str) -> None:
    """A record types front-left; one sheet had that and the next front left."""
    pack, parts = shipped_pack(name), shipped_parts(name)
    typed = [each.channel for each in parts.vehicle.channels if "-" in each.channel]
    printed = [line for line in pack_text(pack, parts, []).splitlines()
               if not re.match(r" *\[[ x]\] +\d+ [a-z]", line)]  # fmt: skip
    assert typed and not [x for x in printed for each in typed if re.search(rf"\b{each}\b", x)]


@pytest.mark.parametrize("name", JOBS)
def test_every_supply_of_the_circuit_has_a_run_of_its_own_on_the_power_sheet(name: str) -> None:
    """And what a small device's wires lose is theirs: amperes by ohms, there and back."""
    pack, parts = shipped_pack(name), shipped_parts(name)
    if pack.power is None:
        return
    index = CircuitIndex(circuit_of(pack))
    said = {view.name: view for view in supply_views(pack, parts.shelf.defaults)}
    for unit in index.circuit.units:
        if unit.kind in ("converter", "driver", "interface"):
            mine = [x for x in index.circuit.links if x.finishes == f"{unit.id} +12 V"]
            assert all(link.id in said and said[link.id].fuse != "–" for link in mine), unit.id
    for run in device_runs(index.circuit, HOUSE):
        if run.drop_v is not None and run.current_a is not None and run.length_m is not None:
            ohm_per_m = run.drop_v / run.current_a / run.length_m
            assert 0.001 < ohm_per_m < 0.06, run.name  # 10 to 22 AWG, hot


@pytest.mark.parametrize("name", JOBS)
def test_a_piece_is_cut_to_the_length_that_the_netlist_counts(name: str) -> None:
    pack = shipped_pack(name)
    lengths = {wire.piece: wire.length_m for wire in circuit_of(pack).wires}
    text = pack_text(pack, shipped_parts(name), ())
    for row in pack.cut_list:
        if row.route_m is None:
            said = f" {shown(lengths[row.name])} m "
            mine = [x for x in text.splitlines() if x.strip().startswith(f"{row.name} ")]
            assert any(said in line for line in mine), (row.name, mine)
