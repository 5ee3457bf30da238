"""What else the turn-on lead switches: drawn with the way back of its coil and its diode."""

from __future__ import annotations

from dataclasses import replace

import pytest
from circuit_checks import check_circuit
from pack_jobs import HOUSE, shipped_parts
from spice_checks import check_deck
from test_wiring_picture import check_generated
from wiring_drawn import wiring_pieces
from wiring_samples import DRAWN_JOBS, with_housings
from wiring_svg import Drawn

from builder.model.job import TurnOnLoad
from builder.model.words import Tri
from builder.planning.circuit.model import Circuit
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.drawings.wiring.pictures import housings_of
from builder.rendering.drawings.wiring.scene import Mark
from builder.rendering.drawings.wiring.whole import lay_out

COUNTS = (1, 3)


def with_relays(name: str, count: int, diode: Tri = "no") -> JobParts:
    """A shipped job whose turn-on lead also switches some relays of 5 mA."""
    parts = shipped_parts(name)
    loads = tuple(TurnOnLoad(name=f"relay {at}", draw_ma=5, coil=True, diode=diode)
                  for at in range(1, count + 1))  # fmt: skip
    return replace(parts, job=replace(parts.job, other_turn_on_loads=loads))


def planned(name: str, count: int, diode: Tri = "no") -> tuple[JobParts, WorkPack, Circuit]:
    parts = with_relays(name, count, diode)
    pack = make_pack(parts, defaults=HOUSE)
    assert pack.circuit is not None
    return parts, pack, pack.circuit


@pytest.mark.parametrize("name", DRAWN_JOBS)
@pytest.mark.parametrize("count", COUNTS)
def test_relays_beside_any_shipped_job_are_drawn_in_the_picture_and_not_below_it(
    name: str, count: int
) -> None:
    parts, pack, circuit = planned(name, count)
    check_circuit(parts, pack)
    check_deck(parts, pack)
    check_generated(parts)
    scene = lay_out(circuit, housings_of(with_housings(parts))).scene
    for at in range(1, count + 1):
        unit, diode = f"relay {at}", f"diode across the coil of relay {at}"
        (box,) = [frame.box for frame in scene.frames if frame.ids == (unit,)]
        gnd, live = (places(scene.marks, f"{unit} {each}") for each in ("GND", "turn-on"))
        for x, y in gnd | live:
            assert x in (box[0], box[0] + box[2]) and box[1] < y < box[1] + box[3]
        (part,) = [each for each in scene.parts if each.ids == (diode,)]
        assert box[0] < part.at[0] < box[0] + box[2]
        (run,) = [each for each in scene.runs if f"ground of {unit}" in each.ids]
        assert run.points[0] in gnd
    for piece in wiring_pieces(circuit, with_housings(parts)):
        if piece.title == "Further wires":
            shown = " ".join(Drawn(piece.drawing).shown())
            assert not any(f"relay {at}" in shown for at in range(1, count + 1))


def places(marks: list[Mark], piece: str) -> set[tuple[float, float]]:
    return {mark.at for mark in marks if piece in mark.ids}


def test_a_diode_lets_current_from_ground_to_the_turn_on_only() -> None:
    """In the picture its arrow leads from left to right, from GND to the turn-on."""
    parts, _, circuit = planned("tansy-subwoofer", 1)
    (diode,) = [part for part in circuit.elements if part.id.startswith("diode across")]
    met = [{end for joint in circuit.joints if own in joint.joins for end in joint.joins}
           for own in diode.ends]  # fmt: skip
    assert "relay 1 GND" in met[0] and "relay 1 turn-on" in met[1]
    scene = lay_out(circuit, housings_of(with_housings(parts))).scene
    (gnd,), live = places(scene.marks, "relay 1 GND"), places(scene.marks, "relay 1 turn-on")
    assert all(gnd[0] < x for x, _ in live)
    (part,) = [each for each in scene.parts if each.ids == (diode.id,)]
    assert not part.upright and not part.turned


def test_a_step_says_which_end_of_the_diode_goes_where() -> None:
    _, pack, _ = planned("tansy-subwoofer", 1)
    lines = [line for step in pack.steps for line in step.lines if "diode across" in line]
    assert len(lines) == 2
    (live,) = [line for line in lines if "relay 1 turn-on" in line]
    (dead,) = [line for line in lines if "relay 1 GND" in line]
    assert "by its banded end" in live and "by its plain end" in dead
    (bought,) = [part for part in pack.parts if part.item == "diode 1 A"]
    assert (bought.quantity, bought.note) == (
        1, "across the coil of relay 1, its band at the turn-on"
    )  # fmt: skip


def test_a_relay_that_has_its_diode_gets_no_second_one() -> None:
    _, pack, circuit = planned("tansy-subwoofer", 1, "yes")
    assert not any(part.kind == "diode" for part in circuit.elements)
    assert not any("diode" in part.item for part in pack.parts)
