"""A speaker of several voice coils is a box: its terminals, its coils, and the wires between."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, shipped_parts
from test_wiring_picture import check_generated
from wiring_drawn import wiring_picture, wiring_pieces
from wiring_samples import with_housings
from wiring_svg import Drawn, crossings

from builder.model.job import Coils
from builder.model.job.boxes import CoilWiring
from builder.planning.circuit.model import Circuit
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wiring.pictures import housings_of
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.whole import lay_out

CASES = [(number, wired) for number in (2, 3, 4) for wired in ("series", "parallel")]


def coiled(number: int, wired: CoilWiring) -> JobParts:
    """The shipped two-coil job with other coils that a channel sees as the same load."""
    parts = shipped_parts("tansy-two-coils")
    speaker = parts.job.speakers[0]
    ohm = 4 / number if wired == "series" else 4.0 * number
    coils = Coils(number=number, ohm=ohm, wired=wired)
    changed = replace(speaker, coils=coils, nominal_ohm=4)
    return replace(parts, job=replace(parts.job, speakers=(changed,)))


def circuit_of(parts: JobParts) -> Circuit:
    circuit = make_pack(parts, defaults=HOUSE).circuit
    assert circuit is not None
    return circuit


def places(scene: Scene, piece: str) -> set[tuple[float, float]]:
    return {mark.at for mark in scene.marks if piece in mark.ids}


@pytest.mark.parametrize(("number", "wired"), CASES)
def test_each_coil_lies_between_its_own_terminals_in_the_box(
    number: int, wired: CoilWiring
) -> None:
    parts = coiled(number, wired)
    circuit = circuit_of(parts)
    scene = lay_out(circuit, housings_of(with_housings(parts))).scene
    (box,) = [frame.box for frame in scene.frames if frame.ids == ("subwoofer",)]
    coils = [part for part in circuit.elements if part.kind == "coil"]
    assert len(coils) == number
    for coil in coils:
        met = [end for own in coil.ends for joint in circuit.joints if own in joint.joins
               for end in joint.joins]  # fmt: skip
        ends = [end for end in met if end.startswith("subwoofer ") and "@" not in end]
        (one,), (other,) = (places(scene, each) for each in ends)
        (drawn,) = [part for part in scene.parts if part.ids == (coil.id,)]
        assert drawn.words == coil.rating
        assert drawn.at == ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
        assert abs(one[1] - other[1]) < 50 and one[0] == other[0]
        for x, y in (one, other):
            assert box[0] < x < box[0] + box[2] and box[1] < y < box[1] + box[3]


@pytest.mark.parametrize(("number", "wired"), CASES)
def test_each_wire_between_coils_ends_at_its_two_terminals(number: int, wired: CoilWiring) -> None:
    parts = coiled(number, wired)
    circuit = circuit_of(parts)
    scene = lay_out(circuit, housings_of(with_housings(parts))).scene
    jumpers = [link for link in circuit.links if link.begins.startswith("subwoofer ")]
    assert len(jumpers) == (number - 1) * (1 if wired == "series" else 2)
    for link in jumpers:
        (run,) = [run for run in scene.runs if link.path[2] in run.ids]
        ends = {run.points[0], run.points[-1]}
        assert ends == places(scene, link.begins) | places(scene, link.finishes)


@pytest.mark.parametrize(("number", "wired"), CASES)
def test_no_wire_of_it_crosses_another(number: int, wired: CoilWiring) -> None:
    parts = coiled(number, wired)
    check_generated(parts)
    circuit = circuit_of(parts)
    drawn = Drawn(wiring_picture(circuit, with_housings(parts)))
    assert crossings(drawn.lines()) == []
    titles = [piece.title for piece in wiring_pieces(circuit, with_housings(parts))]
    assert "Further wires" not in titles
    for piece in wiring_pieces(circuit, with_housings(parts)):
        assert crossings(Drawn(piece.drawing).lines()) == []
