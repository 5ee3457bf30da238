"""What has no place of its own in the wiring picture is still drawn as what it is."""

from __future__ import annotations

from drawing_samples import outside
from wiring_samples import drawn_job
from wiring_svg import Drawn

from builder.rendering.drawings.wiring import wiring_picture, wiring_pieces
from builder.rendering.drawings.wiring.whole import lay_out


def test_a_coil_is_drawn_with_its_value_between_its_two_terminals() -> None:
    circuit, parts = drawn_job("tansy-two-coils")
    scene = lay_out(circuit, parts).scene
    drawn = {part.ids: part.words for part in scene.parts if part.kind == "coil"}
    coils = [part for part in circuit.elements if part.kind == "coil"]
    assert drawn == {(coil.id,): coil.rating for coil in coils}
    said = [words.text for words in scene.words]
    assert "coil 1 of subwoofer: + to coil 1 −" in said
    assert "coil 2 of subwoofer: coil 2 + to −" in said


def test_the_rows_of_a_coil_stay_within_picture_and_phone() -> None:
    circuit, parts = drawn_job("tansy-two-coils")
    last = wiring_pieces(circuit, parts, "x")[-1]
    assert last.title == "Further wires"
    for drawing in (wiring_picture(circuit, parts, "x"), last.drawing):
        drawn = Drawn(drawing)
        assert outside(drawn.svg, drawn.words()) == []
