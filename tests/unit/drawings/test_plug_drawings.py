"""Both faces of a plug: every cavity once, exact mirror images, nothing colliding."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest
from drawing_samples import (
    Box,
    cavity_boxes,
    drawings_in,
    grid,
    housing,
    outside,
    overlapping,
    path_points,
    pin,
    plug,
    rect_box,
    text_boxes,
    words_in,
)
from svg_paths import corners

from builder.model.housing import Housing
from builder.rendering.drawings import legend, plug_faces
from builder.rendering.drawings.function_kinds import HATCH

SHELLS = [
    pytest.param(housing(), id="staggered"),
    pytest.param(housing(seen_from="mating_side"), id="drawn from the open face"),
    pytest.param(housing(latch="left", keyed_corner="top_left"), id="latch left"),
    pytest.param(housing(latch="right", keyed_corner=None), id="latch right"),
    pytest.param(housing(latch="bottom", row_shift=()), id="latch bottom, no shift"),
    pytest.param(housing(row_shift=(1.5, 0.0)), id="first row shifted"),
    pytest.param(grid(12, 2, sizes={"1": 6.3, "13": 6.3}), id="24 cavities, two big blades"),
    pytest.param(grid(20, 3, latch="left"), id="60 cavities"),
    pytest.param(grid(1, 1), id="one cavity"),
    pytest.param(grid(2, 1, latch="left"), id="one short row, latch left"),
]


def both(shell: Housing, emphasis: tuple[str, ...] = ()) -> tuple[dict[str, Box], dict[str, Box]]:
    wires, mouth = plug_faces(shell, plug(), emphasis)
    return cavity_boxes(drawings_in(wires)[0]), cavity_boxes(drawings_in(mouth)[0])


@pytest.mark.parametrize("shell", SHELLS)
def test_every_cavity_is_on_each_face_once(shell: Housing) -> None:
    for boxes in both(shell):  # cavity_boxes itself refuses a name drawn twice
        assert sorted(boxes) == sorted(shell.cavities)


@pytest.mark.parametrize("shell", SHELLS)
def test_the_other_face_is_turned_over_with_the_latch_at_the_same_edge(shell: Housing) -> None:
    wires, mouth = plug_faces(shell, plug())
    width = float(drawings_in(wires)[0].get("width", "nan"))
    edges = [y for _, y in path_points(drawings_in(wires)[0], "lb-shell")]
    down = min(edges) + max(edges)
    left, right = both(shell)
    beside = shell.latch in ("left", "right")
    for name, (x, y, w, h) in left.items():
        expected = (x, down - y - h, w, h) if beside else (width - x - w, y, w, h)
        assert right[name] == pytest.approx(expected, abs=0.21)  # each printed to 0.1
    for css in ("lb-shell", "lb-latch"):
        drawn = path_points(drawings_in(wires)[0], css)
        mirrored = [(x, down - y) if beside else (width - x, y) for x, y in drawn]
        seen = path_points(drawings_in(mouth)[0], css)
        assert sorted(seen) == [pytest.approx(point, abs=0.21) for point in sorted(mirrored)]


def test_face_is_as_the_record_gives_it_and_the_other_one_is_turned() -> None:
    rows = (("1", "2", "3"),)
    for seen_from, given, turned in (("wire_side", 0, 1), ("mating_side", 1, 0)):
        faces = both(housing(rows=rows, sizes={}, blocked=(), seen_from=seen_from))
        assert sorted(faces[given], key=lambda name: faces[given][name]) == ["1", "2", "3"]
        assert sorted(faces[turned], key=lambda name: faces[turned][name]) == ["3", "2", "1"]


@pytest.mark.parametrize(
    ("latch", "on_mouth"), [("top", (min, max)), ("left", (max, min)), ("right", (max, min))]
)
def test_keyed_corner_is_cut_deeper_and_turns_over_with_the_shell(
    latch: str, on_mouth: tuple[Callable[..., float], Callable[..., float]]
) -> None:
    faces = plug_faces(housing(latch=latch), plug())  # keyed at the bottom right
    for markup, (across, down) in zip(faces, ((max, max), on_mouth), strict=True):
        points = path_points(drawings_in(markup)[0], "lb-shell")
        edge, rim = across(x for x, _ in points), down(y for _, y in points)
        cut = {round(abs(x - edge)) for x, y in points if y == rim}
        assert min(cut) == 11  # the other corners are cut by 3


def test_the_words_of_a_turned_face_go_from_its_top() -> None:
    shell = grid(2, 2, latch="left")
    words = [drawings_in(face)[0].findtext("desc") or "" for face in plug_faces(shell, plug())]
    assert "Row 1 from the left: 1 " in words[0] and "Row 1 from the left: 3, " in words[1]
    assert words[1].index("Row 1") < words[1].index("Row 2 from the left: 1, ")


def test_second_row_is_staggered_by_half_a_cavity() -> None:
    left, right = both(grid(4, 2, row_shift=(0.0, 0.5)))
    pitch = left["2"][0] - left["1"][0]
    assert left["5"][0] - left["1"][0] == pytest.approx(pitch / 2, abs=0.11)
    assert right["5"][0] - right["1"][0] == pytest.approx(-pitch / 2, abs=0.11)


def test_gap_in_a_row_takes_the_room_of_a_cavity() -> None:
    left, _ = both(housing(sizes={}))
    assert left["4"][0] - left["3"][0] == pytest.approx(2 * (left["2"][0] - left["1"][0]), abs=0.2)


def test_bigger_blades_are_drawn_bigger() -> None:
    left, _ = both(housing(sizes={"1": 2.8, "7": 6.3}))
    assert left["2"][2:] < left["1"][2:] < left["7"][2:]


@pytest.mark.parametrize("shell", SHELLS)
def test_nothing_collides_and_nothing_leaves_the_view_box(shell: Housing) -> None:
    for markup in plug_faces(shell, plug("A main plug with a long id"), shell.cavities[:2]):
        drawing = drawings_in(markup)[0]
        cavities = list(cavity_boxes(drawing).items())
        rings = [("ring", rect_box(r)) for r in drawing.iter("rect") if r.get("class") == "lb-ring"]
        assert len(rings) == len(shell.cavities[:2])
        assert overlapping(text_boxes(drawing)) == []
        assert overlapping(cavities) == []
        assert outside(drawing, text_boxes(drawing) + cavities + rings) == []


def test_names_stay_inside_their_cavities_however_long() -> None:
    shell = housing(rows=(("A10", "B10", "C10"),), sizes={}, blocked=())
    drawing = drawings_in(plug_faces(shell, plug())[0])[0]
    boxes, names = cavity_boxes(drawing), dict(text_boxes(drawing))
    for name, (x, _, w, _) in boxes.items():
        assert x <= names[name][0] and names[name][0] + names[name][2] <= x + w


def test_each_kind_and_state_has_a_look_of_its_own() -> None:
    drawing = drawings_in(plug_faces(housing(), plug())[0])[0]
    seen = {}
    for group in drawing.iter("g"):
        kind = group.get("class", "").removeprefix("lb-cavity lb-")
        if group.get("class", "").startswith("lb-cavity"):
            marks = [e for e in group.iter() if e.tag in ("rect", "path")]
            moves = [pattern(e.get("d", "")) for e in marks]
            seen[kind] = (len(marks), moves[-1], marks[0].get("stroke-dasharray"))
    assert set(seen) == {*HATCH, "empty", "blocked", "blank"}
    assert len(set(seen.values())) == len(seen)


def pattern(d: str) -> frozenset[tuple[int, int, bool]]:
    """Return which ways the lines of a path run, and whether they are dots: what it looks like
    wherever it is."""
    return frozenset(
        (sign(x2 - x1), sign(y2 - y1), abs(x2 - x1) + abs(y2 - y1) < 0.5)
        for line in corners(d)
        for (x1, y1), (x2, y2) in pairwise(line)
    )


def sign(value: float) -> int:
    return (value > 0.01) - (value < -0.01)


def test_caption_names_the_face_and_numbers_are_upright_text() -> None:
    wires, mouth = (drawings_in(m)[0] for m in plug_faces(housing(), plug()))
    assert "looking at the wires entering" in words_in(wires)
    assert "looking into the open face" in words_in(mouth)
    for drawing in (wires, mouth):
        assert set(housing().cavities) <= set(words_in(drawing))
        assert not any("scale" in e.get("transform", "") for e in drawing.iter())


def test_title_and_description_are_tied_to_the_drawing_by_unique_ids() -> None:
    shown = [plug_faces(housing(), p) for p in (plug("A"), plug("B"))]
    ids = []
    for drawing in (d for faces in shown for markup in faces for d in drawings_in(markup)):
        own = {e.get("id"): e.tag for e in drawing.iter() if e.get("id")}
        assert drawing.get("role") == "img"
        assert drawing.get("aria-labelledby", "").split() == list(own)[1:]
        assert list(own.values()) == [drawing.tag, "title", "desc"]
        ids += own
    assert len(set(ids)) == len(ids) == 12


@pytest.mark.parametrize(("one", "other"), [("A b", "A_b"), ("A.4", "A_2e_4"), ("é", "e9")])
def test_ids_of_odd_plug_names_stay_apart_and_have_no_spaces(one: str, other: str) -> None:
    keys = [drawings_in(plug_faces(housing(), plug(i))[0])[0].find("title") for i in (one, other)]
    first, second = (key.get("id", "") for key in keys if key is not None)
    assert first != second
    assert not set(first) & set(" \"'<>&")


def test_description_says_each_row_as_this_face_shows_it() -> None:
    faces = plug_faces(grid(3, 1), plug())
    wires, mouth = (drawings_in(m)[0].findtext("desc") or "" for m in faces)
    assert "1 constant, wire yellow/red; 2 accessory, wire red; 3 illumination" in wires
    assert "Row 1 from the left: 3, 2, 1." in mouth


def test_output_is_the_same_each_time() -> None:
    first = plug_faces(housing(), plug(), {"4", "5", "1"})
    assert plug_faces(housing(), plug(), ["1", "5", "4"]) == first


def test_a_pin_in_a_cavity_the_shell_lacks_is_left_out() -> None:
    faces = plug_faces(grid(2, 1), plug(pins=[pin("99", "ground", "black")]), ["99"])
    assert "99:" not in faces[0]
    assert "lb-ring" not in faces[0]


def test_legend_shows_every_kind_in_words() -> None:
    for words in ("supply", "ground", "speaker", "data", "control", "other", "empty", "moulded"):
        assert words in legend()
    assert " id=" not in legend()
