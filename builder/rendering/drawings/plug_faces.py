"""Both faces of a plug: looking at the wires entering, and looking into the open face."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import lru_cache

from markupsafe import Markup, escape

from builder.model.housing import Housing
from builder.model.plugs import Plug
from builder.model.words import View
from builder.rendering.drawings.canvas import Box, Canvas, identifier, number
from builder.rendering.drawings.cavities_drawn import CavityKind, Use, cavities, socket
from builder.rendering.drawings.function_kinds import MEANING, kind_of, pin_words
from builder.rendering.drawings.lettering import fit
from builder.rendering.drawings.path_data import PathData
from builder.rendering.drawings.plug_geometry import Cell, Face, box_of, face_id, face_of
from builder.rendering.drawings.plug_wires import leaving_wires

CAPTIONS: dict[View, str] = {
    "wire_side": "looking at the wires entering",
    "mating_side": "looking into the open face",
}
NOT_DESCRIBED = "not described"


def plug_faces(
    housing: Housing, plug: Plug, emphasis: Collection[str] = ()
) -> tuple[Markup, Markup]:
    """Return the two drawings of a plug: wire side first, then the open face.

    `emphasis` names cavities to be ringed. Ids hold the plug's id and the face: so drawn, a plug
    stands on a page once.
    """
    key = identifier(plug.id)
    spots = [f":{name}" for name in housing.cavities if name in emphasis]
    return (
        draw_face(housing, plug, "wire_side", key, spots),
        draw_face(housing, plug, "mating_side", key, spots),
    )


def cavity_uses(housing: Housing, plug: Plug) -> dict[str, Use]:
    """Return for each cavity its kind (or empty, blocked, blank) and the words for it.

    Blank is a cavity the record says nothing of, which is not the same as an empty one.
    """
    uses: dict[str, Use] = dict.fromkeys(housing.cavities, ("blank", NOT_DESCRIBED))
    uses.update(dict.fromkeys(plug.empty, ("empty", "empty")))
    uses.update(dict.fromkeys(housing.blocked, ("blocked", "moulded shut")))
    uses.update((pin.cavity, (kind_of(pin.function), pin_words(pin))) for pin in plug.pins)
    return uses


def draw_face(
    housing: Housing, plug: Plug, view: View, key: str, spots: Collection[str] = ()
) -> Markup:
    """Return one face, its ids starting with `key`.

    `spots` are the places to ring, named as for `plug_geometry.box_of`.
    """
    face, uses = face_of(housing, view), cavity_uses(housing, plug)
    canvas, name = Canvas(), face_id(key, view)
    _caption(canvas, face, view, f"plug {plug.id}")
    canvas.add(_shell(face, view))
    canvas.add(cavities(face, uses, view, name))
    if view == "wire_side":
        canvas.add(_wires(face, plug))
    canvas.add(_latch(face))
    for spot in spots:
        _ring(canvas, box_of(face, spot))
    title = f"plug {plug.id}, {plug.name}, {CAPTIONS[view]}"
    size = (face.width, face.height)
    said = _described(face, uses if view == "wire_side" else None)
    return canvas.svg(size, name, title, said, f"lb-plug lb-plug-{view[0]}")


def _caption(canvas: Canvas, face: Face, view: View, name: str) -> None:
    words, size = fit(name, face.width - 74, 13)
    canvas.text(6, 15, words, size, bold=True)
    canvas.text(6, 31, CAPTIONS[view], 12)
    canvas.add(
        f'<g class="lb-eye" transform="translate({number(face.width - 62)} 3)">{_EYES[view]}</g>'
    )


# The plug from the side, wires to the left and open face to the right, and who looks at it.
_SIDE = '<path d="M16 6h8M16 10h8M16 14h8"/><path d="M40 3H24v14h16M34 3v14"/>'
_EYES: dict[View, str] = {
    "wire_side": _SIDE + '<path d="M1 10h10M7 6l4 4-4 4"/>',
    "mating_side": _SIDE + '<path d="M57 10H47M51 6l-4 4 4 4"/>',
}


@lru_cache(maxsize=2048)
def _shell(face: Face, view: View) -> str:
    """Return the outline: one line from the wire side, a dark rim from the open face."""
    parts = [_outline(face, 0, "lb-shell")]
    if view == "mating_side":
        parts.append(_outline(face, 4, "lb-rim lb-cave"))
    return "".join(parts)


@lru_cache(maxsize=2048)
def _latch(face: Face) -> str:
    """Return the latch with its word, over the wires that pass behind it."""
    x, y, w, h = face.latch_box
    turn = f' transform="rotate(-90 {number(x + w / 2)} {number(y + h / 2)})"' if h > w else ""
    return (
        f'<path class="lb-latch" d="{_tab(face)}"/>'
        f'<text x="{number(x + w / 2)}" y="{number(y + h / 2 + 3.5)}" font-size="10"'
        f' text-anchor="middle"{turn}>latch</text>'
    )


def _outline(face: Face, inset: float, css: str) -> str:
    x, y, w, h = face.shell
    x, y, w, h = x + inset, y + inset, w - 2 * inset, h - 2 * inset
    cuts = [11 if corner == face.keyed_corner else 3 for corner in _CORNERS]
    tl, tr, br, bl = cuts
    points = (
        (x + tl, y), (x + w - tr, y), (x + w, y + tr), (x + w, y + h - br),
        (x + w - br, y + h), (x + bl, y + h), (x, y + h - bl), (x, y + tl),
    )  # fmt: skip
    d = PathData().move(points[0])
    for point in points[1:]:
        d.line(point)
    return f'<path class="{css}" d="{d}z"/>'


_CORNERS = ("top_left", "top_right", "bottom_right", "bottom_left")


def _tab(face: Face) -> str:
    """Return the latch as a tab whose root is on the shell and whose free edge is narrower."""
    x, y, w, h = face.latch_box
    points = {
        "top": ((x, y + h), (x + 3, y), (x + w - 3, y), (x + w, y + h)),
        "bottom": ((x, y), (x + 3, y + h), (x + w - 3, y + h), (x + w, y)),
        "left": ((x + w, y), (x, y + 3), (x, y + h - 3), (x + w, y + h)),
        "right": ((x, y), (x + w, y + 3), (x + w, y + h - 3), (x, y + h)),
    }[face.latch]
    return "M" + "L".join(f"{number(px)} {number(py)}" for px, py in points)


def _wires(face: Face, plug: Plug) -> str:
    wires = {pin.cavity: pin.wire for pin in plug.pins}
    return leaving_wires(face, [(c, wires[c.name]) for c in face.cells if c.name in wires])


def _ring(canvas: Canvas, box: Box | None) -> None:
    if box is not None:
        x, y, w, h = box
        canvas.rect((x - 2, y - 2, w + 4, h + 4), "lb-ring", 5)


def _described(face: Face, uses: Mapping[str, Use] | None) -> str:
    """Return the face in words, row by row from the top and left as this face shows it.

    Without `uses` it is the order alone: what is in each cavity is said of the wires side.
    """
    rows: dict[int, list[Cell]] = {}
    for cell in face.cells:
        rows.setdefault(cell.row, []).append(cell)
    between = "; " if uses else ", "
    lines = [
        f"Row {row + 1} from the left: "
        + between.join(_named(c, uses) for c in sorted(cells, key=lambda c: c.x))
        for row, cells in sorted(rows.items())
    ]
    count = len(face.cells)
    return f"{count} cavities in {len(rows)} rows, latch {face.latch}. " + ". ".join(lines) + "."


def _named(cell: Cell, uses: Mapping[str, Use] | None) -> str:
    return f"{cell.name} {uses[cell.name][1]}" if uses else cell.name


@lru_cache(maxsize=1)
def legend() -> Markup:
    """Return the key to the cavity patterns, once for a page that shows plugs."""
    items = [_legend_item(kind, words) for kind, words in MEANING.items()]
    items += [_legend_item(kind, words) for kind, words in _STATES.items()]
    return Markup('<ul class="lb-legend">' + "".join(items) + "</ul>")  # our own words only


_STATES: dict[CavityKind, str] = {
    "empty": "empty",
    "blank": NOT_DESCRIBED,
    "blocked": "moulded shut",
}


def _legend_item(kind: CavityKind, words: str) -> str:
    return (
        f'<li><svg class="lb-drawing lb-sample" width="24" height="28" viewBox="-1 -1 24 28"'
        f' aria-hidden="true">{socket(kind, (22, 26))}</svg>'
        f" {escape(words)}</li>"
    )
