"""A converter that the car feeds has its supply and its ground among the lanes at the left."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, shipped_parts
from test_wiring_picture import check_generated
from wiring_drawn import wiring_pieces
from wiring_samples import DRAWN_JOBS, drawn_job, with_housings
from wiring_svg import Drawn

from builder.model.job import Distribution, JobBranch
from builder.model.plugs import FusePosition
from builder.planning.circuit.model import Circuit
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wiring.pictures import housings_of
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.whole import lay_out

OF_THE_CAR = ("radio", "fuse_position")


def fed(name: str, at: str) -> JobParts:
    """A shipped job whose converter hangs on the car, which has a position that is always live."""
    parts = shipped_parts(name)
    pins = [pin for plug in parts.vehicle.plugs for pin in plug.pins]
    live = max((p for p in pins if p.function == "constant"), key=lambda p: len(p.readings))
    position = FusePosition(
        position="F9", panel="cabin", label="always live", function="constant", rating_a=10,
        readings=live.readings,
    )  # fmt: skip
    positions = (*parts.vehicle.fuse_positions, position)
    vehicle = replace(parts.vehicle, fuse_positions=positions)
    return replace(parts, vehicle=vehicle, job=replace(parts.job, converter_supply=at))


def circuit_of(parts: JobParts) -> Circuit | None:
    return make_pack(parts, defaults=HOUSE).circuit


def is_fed(parts: JobParts) -> bool:
    """Whether it comes to a circuit whose converter has a supply: a passive one has none."""
    circuit, own = circuit_of(parts), f"supply of {parts.converter.name}"
    return circuit is not None and any(link.id == own for link in circuit.links)


ASKED = [(name, at) for name in DRAWN_JOBS for at in OF_THE_CAR]
BUILT = [(name, at) for name, at in ASKED if is_fed(fed(name, at))]


def marked(scene: Scene, *pieces: str) -> list[tuple[float, float]]:
    """Where all of some pieces meet: another wire at the same terminal is marked elsewhere."""
    return [mark.at for mark in scene.marks if {*pieces} <= {*mark.ids}]


def level_ends(scene: Scene, wire: str) -> set[float]:
    """The heights of a wire's points: one where it is level from end to end."""
    return {y for run in scene.runs if wire in run.ids for _, y in run.points}


def test_both_ways_are_built_somewhere() -> None:
    assert {at for _, at in BUILT} == set(OF_THE_CAR)


@pytest.mark.parametrize(("name", "at"), BUILT)
def test_the_picture_of_a_job_fed_by_the_car_is_whole_and_clear(name: str, at: str) -> None:
    check_generated(fed(name, at))


@pytest.mark.parametrize(("name", "at"), BUILT)
def test_what_the_car_feeds_is_a_level_lane_to_the_converters_left_edge(
    name: str, at: str
) -> None:  # fmt: skip
    parts = fed(name, at)
    circuit = circuit_of(parts)
    assert circuit is not None
    strands = Reading(circuit).fed_by_car
    assert [s.carries for s in strands] == ["supply", "ground"][: 2 if at == "radio" else 1]
    scene = lay_out(circuit, housings_of(with_housings(parts))).scene
    converter = next(unit.id for unit in circuit.units if unit.kind == "converter")
    box = next(frame.box for frame in scene.frames if converter in frame.ids)
    for strand in strands:
        (x, y), *more = marked(scene, *strand.way[-2:])
        assert (x, more) == (box[0], [])
        assert box[1] < y < box[1] + box[3]
        assert level_ends(scene, strand.name) == {y}
        assert {part.at[1] for part in scene.parts if set(part.ids) & set(strand.way)} <= {y}


def test_a_phone_shows_them_where_they_leave_their_plug() -> None:
    circuit, parts = drawn_job("dash-converter")
    found = wiring_pieces(circuit, parts)
    shown = [piece.title for piece in found if "supply of CVN-2A" in Drawn(piece.drawing).shown()]
    assert shown == ["From radio plug A, 1 of 3"]
    assert "Further wires" not in [piece.title for piece in found]


def test_one_that_shares_its_cavity_with_the_turn_on_keeps_its_row_below() -> None:
    circuit, _ = drawn_job("dash-converter")
    turn_on = next(link for link in circuit.links if link.id == "turn-on of CVN-2A")
    supply = next(link for link in circuit.links if link.id == "supply of CVN-2A")
    shared = replace(supply, path=(turn_on.begins, *supply.path[1:]))
    links = tuple(shared if link is supply else link for link in circuit.links)
    names = [strand.name for strand in Reading(replace(circuit, links=links)).fed_by_car]
    assert names == ["ground of CVN-2A"]


def on_the_block(name: str) -> JobParts:
    parts = shipped_parts(name)
    supply = parts.job.supply
    if supply.distribution is None:
        branches = tuple(JobBranch(amplifier=each.name, out_m=0.4, return_m=0.4)
                         for each in parts.job.amplifiers)  # fmt: skip
        supply = replace(supply, distribution=Distribution(branches=branches), ground_lead_m=0.0)
    return replace(parts, job=replace(parts.job, supply=supply, converter_supply="block"))


BLOCKED = [name for name in DRAWN_JOBS if is_fed(on_the_block(name))]


def test_most_shipped_jobs_come_to_a_plan_with_the_converter_on_a_block() -> None:
    assert len(BLOCKED) >= 5 and "rook-two-amplifiers" in BLOCKED


@pytest.mark.parametrize("name", BLOCKED)
def test_a_converter_on_the_block_is_fused_there_and_led_to_its_top(name: str) -> None:
    parts = on_the_block(name)
    circuit = circuit_of(parts)
    assert circuit is not None
    check_generated(parts)
    scene = lay_out(circuit, housings_of(with_housings(parts))).scene
    own = f"supply of {parts.converter.name}"
    link = next(each for each in circuit.links if each.id == own)
    assert Reading(circuit).kind_of(link.begins) == "distribution"
    fuse = next(part for part in scene.parts if part.ids == (link.path[2],))
    (block,) = [frame.box for frame in scene.frames if "distribution block" in frame.ids]
    (box,) = [frame.box for frame in scene.frames if parts.converter.name in frame.ids]
    (start,) = marked(scene, link.path[1])
    assert start[1] == block[1] + block[3] and block[0] < start[0] < block[0] + block[2]
    (end,) = marked(scene, link.finishes)
    assert end[1] == box[1] and box[0] < end[0] < box[0] + box[2]
    (run,) = [run for run in scene.runs if own in run.ids]
    assert run.points[-1] == end
    assert block[1] < fuse.at[1] < box[1]
    phone = wiring_pieces(circuit, with_housings(parts))
    rest = [each for each in phone if each.title == "Further wires"]
    assert not any(own in Drawn(each.drawing).shown() for each in rest)
    (piece,) = [each for each in phone if each.title == "Supply and ground"]
    assert own in Drawn(piece.drawing).shown()
