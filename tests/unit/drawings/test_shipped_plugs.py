"""Every plug of the shipped book, drawn from both sides."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from drawing_samples import drawings_in, outside, overlapping, text_boxes
from pack_samples import PINOUTS, record, shelf

from builder.model.housing import Housing
from builder.model.plugs import Plug
from builder.rendering.drawings import plug_faces
from builder.rendering.drawings.plug_geometry import face_of

HOUSINGS = shelf().housings


def shipped_plugs() -> Iterator[tuple[str, Housing, Plug]]:
    for file in sorted((PINOUTS / "vehicles").rglob("*.yaml")):
        if file.stem == "TEMPLATE":
            continue
        vehicle = record(file.relative_to(PINOUTS).as_posix())
        for plug in vehicle.plugs:
            if plug.housing in HOUSINGS:
                yield f"{vehicle.id} {plug.id}", HOUSINGS[plug.housing], plug


PLUGS = list(shipped_plugs())


def test_the_book_has_plugs_to_draw() -> None:
    assert len(PLUGS) > 30


@pytest.mark.parametrize(("housing", "plug"), [p[1:] for p in PLUGS], ids=[p[0] for p in PLUGS])
def test_every_cavity_stands_once_on_each_face(housing: Housing, plug: Plug) -> None:
    for face in plug_faces(housing, plug, plug.pins and (plug.pins[0].cavity,)):
        drawn = re.findall(r'<g class="lb-cavity [^"]*"><title>([^:]+):', face)
        assert sorted(drawn) == sorted(housing.cavities)
        assert face.count('class="lb-ring"') == len(plug.pins[:1])
        (drawing,) = drawings_in(face)
        assert outside(drawing, text_boxes(drawing)) == []
        assert overlapping(text_boxes(drawing)) == []


@pytest.mark.parametrize("housing", HOUSINGS.values(), ids=HOUSINGS)
def test_both_faces_are_as_big_and_list_the_same_cavities(housing: Housing) -> None:
    wires, open_face = face_of(housing, "wire_side"), face_of(housing, "mating_side")
    assert (wires.width, wires.height) == (open_face.width, open_face.height)
    assert (open_face.latch, open_face.latch_box) == (wires.latch, wires.latch_box)
    seen = {cell.name: cell for cell in open_face.cells}
    assert list(seen) == [cell.name for cell in wires.cells]
    for cell in wires.cells:
        other = seen[cell.name]
        assert (other.w, other.h) == (cell.w, cell.h)
