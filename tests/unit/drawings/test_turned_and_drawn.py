"""Whoever counts on a drawing of the other face is taken at his count: both are one pose."""

from __future__ import annotations

from drawing_samples import Box, cavity_boxes, drawings_in, path_points, plug, words_in
from each_case import each
from hypothesis import given
from hypothesis import strategies as st
from pack_samples import shelf
from sample_shells import EDGES, SAMPLES, Places, shell, shows_what_is_counted

from builder.model.housing import Housing
from builder.proof.faces.face_text import both_faces
from builder.rendering.drawings import plug_faces
from builder.rendering.drawings.plug_geometry import PITCHES

SHIPPED = shelf().housings
SHELLS = [*SHIPPED.values(), *SAMPLES]


def own_first(housing: Housing, faces: tuple[Places, Places]) -> tuple[Places, Places]:
    """Faces (wire side, open face) as (the one that the shell was typed from, the other)."""
    return faces if housing.seen_from == "wire_side" else (faces[1], faces[0])


def drawn(housing: Housing) -> tuple[Places, Places]:
    """Where the two drawings of a page have the cavities."""
    shift = [*housing.row_shift, *(0.0 for _ in housing.rows)]
    columns = max(s - min(housing.row_shift, default=0) + len(row)
                  for s, row in zip(shift, housing.rows, strict=False))  # fmt: skip
    pitch = next(pitch for most, pitch in PITCHES if columns <= most)

    def place(box: Box) -> tuple[float, float]:
        x, y, w, h = box
        return (x + w / 2) / pitch, round(y + h / 2)

    wires, mouth = (
        {name: place(box) for name, box in cavity_boxes(drawings_in(face)[0]).items()}
        for face in plug_faces(housing, plug(pins=(), empty=()))
    )
    return own_first(housing, (wires, mouth))


def written(housing: Housing) -> tuple[Places, Places]:
    """Where the text drawing has the cavities."""
    lines = both_faces(housing)
    middle = lines[0].index("looking into")
    width = max(map(len, housing.cavities)) + 3
    faces: tuple[dict[str, tuple[float, float]], ...] = ({}, {})
    for down, line in enumerate(lines[2:]):
        for half, face in zip((line[:middle], line[middle:]), faces, strict=True):
            at = 0
            for name in half.split():
                at = half.index(name, at)
                face[name] = ((at + len(name) / 2) / width, down)
                at += len(name)
    return own_first(housing, (faces[0], faces[1]))


def name_of(housing: Housing) -> str:
    return f"{housing.id} {housing.seen_from} {len(housing.cavities)}"


@each("housing", SHELLS, ids=name_of)
def test_the_drawing_of_the_other_face_shows_at_each_place_what_a_count_there_is_turned_to(
    housing: Housing,
) -> None:
    shows_what_is_counted(housing, *drawn(housing), within=0.08)  # printed to 0.1


@each("housing", SHELLS, ids=name_of)
def test_the_text_drawing_shows_it_too(housing: Housing) -> None:
    shows_what_is_counted(housing, *written(housing), within=0.3)  # whole characters


@given(
    st.lists(st.lists(st.booleans(), min_size=1, max_size=8), min_size=1, max_size=4),
    st.lists(st.sampled_from([0.0, 0.25, 0.5, 1.0]), min_size=4, max_size=4),
    st.sampled_from(EDGES),
    st.sampled_from(["wire_side", "mating_side"]),
)
def test_whatever_the_shell_the_drawing_shows_what_is_counted(
    grid: list[list[bool]], shifts: list[float], latch: str, seen_from: str
) -> None:
    names = iter(range(1, 100))
    rows = tuple(
        tuple(str(next(names)) if there or not any(row) else None for there in row) for row in grid
    )
    housing = shell(rows, tuple(shifts[: len(rows)]), latch, seen_from)  # type: ignore[arg-type]
    shows_what_is_counted(housing, *drawn(housing), within=0.08)
    shows_what_is_counted(housing, *written(housing), within=0.3)


@each("housing", SHELLS, ids=name_of)
def test_the_latch_is_drawn_at_the_edge_that_the_record_says(housing: Housing) -> None:
    for face in plug_faces(housing, plug(pins=(), empty=())):
        drawing = drawings_in(face)[0]
        tab, outline = path_points(drawing, "lb-latch"), path_points(drawing, "lb-shell")
        places = {
            "top": max(y for _, y in tab) <= min(y for _, y in outline),
            "bottom": min(y for _, y in tab) >= max(y for _, y in outline),
            "left": max(x for x, _ in tab) <= min(x for x, _ in outline),
            "right": min(x for x, _ in tab) >= max(x for x, _ in outline),
        }
        assert [edge for edge, holds in places.items() if holds] == [housing.latch]
        assert "latch" in words_in(drawing)
    assert both_faces(housing)[1].count(f"latch at the {housing.latch}") == 2
