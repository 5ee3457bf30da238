"""Every wire of a job is drawn with its name, what it is made of, and every fuse lies on its wire.

Read in the written SVG: a name stands in words, a size near its wire, or at the head of the jacket,
the loom or the plug that it is a wire of; below a piece for a phone it stands with the names.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from drawing_samples import Box
from pack_jobs import HOUSE, shipped_parts
from test_data_interface import interface_job
from test_loom_jobs import on_straight_looms
from wiring_drawn import wiring_picture, wiring_pieces
from wiring_samples import DRAWN_JOBS, drawn_job, with_housings
from wiring_svg import Drawn, Line, shows

from builder.planning.circuit.model import Circuit, CircuitWire
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts

NEAR = 24.0
"""How far from a wire what it is made of is read as its own."""


@cache
def drawn(name: str) -> tuple[Circuit, Drawn, tuple[Drawn, ...]]:
    circuit, parts = drawn_job(name)
    return circuit, Drawn(wiring_picture(circuit, parts)), pieces(circuit, parts)


def pieces(circuit: Circuit, parts: JobParts) -> tuple[Drawn, ...]:
    return tuple(Drawn(piece.drawing) for piece in wiring_pieces(circuit, parts))


def names_of(wire: CircuitWire) -> set[str]:
    """Each of what may stand on a wire."""
    if wire.stays and wire.wire:
        return {f"{wire.place} {wire.colours}"}
    if wire.loom:
        return {wire.colours}
    return {wire.colours} if wire.cable else {wire.id, wire.purpose}


def line_of(picture: Drawn, wire: CircuitWire) -> Line:
    return next(line for line in picture.lines() if wire.id in line.shows.split("|"))


def near(line: Line, box: Box) -> bool:
    x, y, wide, high = box
    return any(
        min(x1, x2) < x + wide + NEAR and x - NEAR < max(x1, x2) + 0.01
        and min(y1, y2) < y + high + NEAR and y - NEAR < max(y1, y2) + 0.01
        for (x1, y1), (x2, y2) in line.stretches
    )  # fmt: skip


def has_size(picture: Drawn, wire: CircuitWire, mates: set[str]) -> bool:
    """Whether what a wire is made of is said where it is looked for."""
    assert wire.size is not None
    figure, _, kind = wire.size.words.partition(" ")
    said = [words for words, _ in picture.words()
            if figure in words.replace(",", "").split() and kind in words]  # fmt: skip
    if wire.stays or wire.loom or " coil " in wire.id:
        return any("wires" in words for words in said)
    if wire.cable:
        return any(words.startswith(f"{wire.lies_in},") for words in said)
    lines = [line for line in picture.lines() if mates & set(line.shows.split("|"))]
    return any(near(line, box) for words, box in picture.words() if words in said for line in lines)


def check_sizes(circuit: Circuit, picture: Drawn) -> int:
    """Look for each wire's size; return how many have one."""
    found = [wire for wire in circuit.wires if wire.size is not None]
    missing = [wire.id for wire in found
               if not has_size(picture, wire, {wire.id, wire.mate or wire.id})]  # fmt: skip
    assert missing == []
    return len(found)


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_every_wire_says_what_it_is_made_of(name: str) -> None:
    circuit, picture, _ = drawn(name)
    assert check_sizes(circuit, picture) >= 8


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_every_wire_has_its_name(name: str) -> None:
    """In words; a line lead and a wire between coils have theirs as a title."""
    circuit, picture, found = drawn(name)
    for each in ((picture,), found):
        said = " ".join(words for one in each for words, _ in one.words())
        titles = " ".join(e.text or "" for one in each for e in one.svg.iter("title"))
        for wire in circuit.wires:
            if wire.carries == "line":
                assert wire.id.rpartition(" ")[0] in titles
            elif " coil " in wire.id:  # in the box of its speaker its ends are named
                assert wire.id in titles
            else:
                assert any(_stands(name, said) for name in names_of(wire)), wire.id


def _stands(name: str, said: str) -> bool:
    """Whether a name is read, also where it is parted behind a stroke or at a blank."""
    return name.replace(" ", "") in said.replace(" ", "")


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_a_phone_says_of_every_wire_what_it_is_made_of(name: str) -> None:
    circuit, _, found = drawn(name)
    for wire in circuit.wires:
        if wire.size is not None:
            shown = [piece for piece in found if wire.id in piece.shown()]
            figure = wire.size.words.partition(" ")[0]
            assert shown
            for piece in shown:
                said = " ".join(words for words, _ in piece.words()).replace(",", "").split()
                assert figure in said, wire.id


def fuse_boxes(picture: Drawn, part: str) -> list[tuple[Box, str]]:
    """Where a fuse is drawn, and what stands in it."""
    found = []
    for group in picture.svg.iter("g"):
        if part in shows(group):
            for rect in group.iter("rect"):
                x, y, wide, high = (float(rect.get(k, "0")) for k in ("x", "y", "width", "height"))
                said = "".join(text.text or "" for text in group.iter("text"))
                found.append(((x, y, wide, high), said))
    return found


def on_a_wire(picture: Drawn, box: Box) -> bool:
    x, y = box[0] + box[2] / 2, box[1] + box[3] / 2
    return any(
        min(x1, x2) - 0.1 <= x <= max(x1, x2) + 0.1 and min(y1, y2) - 0.1 <= y <= max(y1, y2) + 0.1
        for line in picture.lines() for (x1, y1), (x2, y2) in line.stretches
    )  # fmt: skip


def check_fuses(circuit: Circuit, found: tuple[Drawn, ...]) -> int:
    """Every fuse lies on a wire with its amperes in it, in some picture."""
    fuses = [part for part in circuit.elements if part.kind == "fuse"]
    for part in fuses:
        boxes = [(each, box, said) for each in found for box, said in fuse_boxes(each, part.id)]
        assert boxes, part.id
        for picture, box, said in boxes:
            assert said == part.rating and on_a_wire(picture, box), part.id
    return len(fuses)


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_every_fuse_lies_on_its_wire(name: str) -> None:
    circuit, picture, found = drawn(name)
    assert check_fuses(circuit, (picture,)) >= 2
    assert check_fuses(circuit, found) >= 2


@pytest.mark.parametrize("parts", [
    interface_job(), on_straight_looms(shipped_parts("cutter-fronts")),
    on_straight_looms(shipped_parts("teasel-four-doors")),
])  # fmt: skip
def test_so_it_is_of_jobs_that_the_book_has_not(parts: JobParts) -> None:
    circuit = make_pack(parts, defaults=HOUSE).circuit
    assert circuit is not None
    picture = Drawn(wiring_picture(circuit, with_housings(parts)))
    assert check_sizes(circuit, picture) >= 8
    assert check_fuses(circuit, (picture,)) >= 2
    assert check_fuses(circuit, pieces(circuit, with_housings(parts))) >= 2


def test_the_look_for_sizes_notices_one_that_is_not_said() -> None:
    """A jacket, a single wire and a wire of the car, each of another size than the picture says."""
    circuit, picture, _ = drawn("rook-second-battery")
    thick = next(each.size for each in circuit.wires if each.id == "supply of sub amp")
    for name in ("cable 1 pair 1 positive", "turn-on of sub amp", "X1.1 wire"):
        wire = next(each for each in circuit.wires if each.id == name)
        assert has_size(picture, wire, {name})
        assert not has_size(picture, replace(wire, size=thick), {name})
