"""A crossover is a box right of its amplifier, its terminals on the lanes, and nothing crosses."""

from __future__ import annotations

from dataclasses import replace

import pytest
from crossed_jobs import LEFT, RIGHT, crossed
from pack_jobs import HOUSE
from test_wiring_picture import check_generated
from wiring_drawn import wiring_picture, wiring_pieces
from wiring_samples import with_housings
from wiring_svg import Drawn, crossings

from builder.model.job import JobAmplifier
from builder.planning.circuit.model import Circuit
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wiring.pictures import housings_of
from builder.rendering.drawings.wiring.whole import lay_out


def circuit_of(parts: JobParts) -> Circuit:
    circuit = make_pack(parts, defaults=HOUSE).circuit
    assert circuit is not None
    return circuit


def beside_another_amplifier() -> JobParts:
    """The subwoofer on an amplifier of its own."""
    parts = crossed()
    more = JobAmplifier(name="sub amp", part="amn-600", place="left luggage side")
    speakers = tuple(
        replace(each, driven_by=replace(each.driven_by, amplifier="sub amp", channel=1))
        if each.channel == "sub"
        else each
        for each in parts.job.speakers
    )
    job = replace(parts.job, amplifiers=(*parts.job.amplifiers, more), speakers=speakers)
    amplifiers = {**parts.amplifiers, "sub amp": parts.shelf.amplifiers["amn-600"]}
    return replace(parts, job=job, amplifiers=amplifiers)


@pytest.mark.parametrize("make", [crossed, beside_another_amplifier])
def test_all_of_it_is_drawn_and_nothing_lies_on_anything(make: object) -> None:
    parts = make()  # type: ignore[operator]
    circuit_of(parts)
    check_generated(parts)


def test_no_wire_crosses_another() -> None:
    parts = crossed()
    drawn = Drawn(wiring_picture(circuit_of(parts), with_housings(parts)))
    assert crossings(drawn.lines()) == []


@pytest.mark.parametrize("unit", [LEFT, RIGHT])
def test_its_terminals_stand_at_its_edges(unit: str) -> None:
    parts = crossed()
    scene = lay_out(circuit_of(parts), housings_of(with_housings(parts))).scene
    (box,) = [frame.box for frame in scene.frames if frame.ids == (unit,)]
    left, right = box[0], box[0] + box[2]
    for sign in "+−":
        places = {
            name: next(mark.at for mark in scene.marks if f"{unit} {name} {sign}" in mark.ids)
            for name in ("in", "woofer", "tweeter")
        }
        assert places["in"][0] == left and places["in"][1] == places["woofer"][1]
        assert places["woofer"][0] == places["tweeter"][0] == right
        assert all(box[1] < y < box[1] + box[3] for _, y in places.values())


def test_a_phone_shows_the_lead_to_it_and_what_lies_behind() -> None:
    parts = crossed()
    titles = [piece.title for piece in wiring_pieces(circuit_of(parts), with_housings(parts))]
    for unit in (LEFT, RIGHT):
        assert f"From amp 1 to {unit}" in titles and f"From {unit} to its speakers" in titles


def test_its_lead_is_named_with_what_it_is_made_of() -> None:
    parts = crossed()
    drawn = Drawn(wiring_picture(circuit_of(parts), with_housings(parts)))
    said = [words for words, _ in drawn.words()]
    for unit in (LEFT, RIGHT):
        assert f"lead to {unit} + and −, 18 AWG copper" in said
