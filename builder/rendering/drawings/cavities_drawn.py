"""The cavities of a plug's face: each shape once, and put wherever a cavity is of that shape."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Literal

from markupsafe import escape

from builder.model.words import View
from builder.rendering.drawings.canvas import Point, number
from builder.rendering.drawings.function_kinds import HATCH, FunctionKind
from builder.rendering.drawings.plug_geometry import Cell, Face
from builder.rendering.drawings.shapes import hatch

CavityKind = FunctionKind | Literal["blank", "empty", "blocked"]
"""What a cavity holds: a wire of some kind, nothing that anybody described, no terminal, or no
room for one."""
Use = tuple[CavityKind, str]  # and the words for it

_NO_TERMINAL: frozenset[CavityKind] = frozenset({"empty", "blocked"})
PATTERN = 0.4  # of the height of a cavity: the lower part, which leaves the name clear


def cavities(face: Face, uses: Mapping[str, Use], view: View, name: str) -> str:
    """Return the cavities of a face with their names. `name` is the id of the drawing: those of
    its shapes begin with it.

    A shape is drawn once, its top left at nought. What refers to it is styled by the shape's own
    classes: no rule for what stands round a shape reaches into it.
    """
    shapes: dict[str, str] = {}
    drawn = []
    for cell in face.cells:
        kind, words = uses[cell.name]
        shape = _shape(kind, (cell.w, cell.h), view)
        at = shapes.setdefault(shape, f"{name}.{len(shapes)}")
        drawn.append(_cavity(cell, face.lettering, (kind, words), at))
    kept = "".join(f'<g id="{at}">{shape}</g>' for shape, at in shapes.items())
    lettering = f'text-anchor="middle" font-size="{number(face.lettering)}" font-weight="700"'
    return f"<defs>{kept}</defs><g {lettering}>{''.join(drawn)}</g>"


@lru_cache(maxsize=8192)
def _cavity(cell: Cell, lettering: float, use: Use, shape: str) -> str:
    kind, words = use
    return (
        f'<g class="lb-cavity lb-{kind}"><title>{escape(cell.name)}: {escape(words)}</title>'
        f'<use href="#{shape}" x="{number(cell.x)}" y="{number(cell.y)}"/>'
        f'<text x="{number(cell.x + cell.w / 2)}" y="{number(_baseline(cell, lettering))}">'
        f"{escape(cell.name)}</text></g>"
    )


def _baseline(cell: Cell, lettering: float) -> float:
    """Return where the name stands: in the clear upper part, above the pattern."""
    return cell.y + cell.h * (1 - PATTERN) / 2 + lettering * 0.36


@lru_cache(maxsize=2048)
def _shape(kind: CavityKind, size: Point, view: View) -> str:
    if view == "wire_side":
        return socket(kind, size, 5, "lb-lift")
    bare = kind in _NO_TERMINAL
    drawn = socket(kind, size, 0, "lb-filled" if bare else "lb-slot")
    return drawn if bare else drawn + _terminal(*size)


def _terminal(w: float, _: float) -> str:
    """Return the metal that is seen in a slot of the open face."""
    return f'<path class="lb-terminal" d="M{number(w * 0.25)} 3h{number(w * 0.5)}"/>'


def socket(kind: CavityKind, size: Point, round_by: int = 2, ground: str = "") -> str:
    """Return a cavity's outline with the pattern of its kind in the lower part, its top left at
    nought; `ground` is the class of what it is filled with."""
    w, h = size
    dash = ' stroke-dasharray="2 3"' if kind == "blank" else ""
    classes = " ".join(each for each in ("lb-socket", ground, _FAINT.get(kind, "")) if each)
    outline = (
        f'<rect class="{classes}" width="{number(w)}" height="{number(h)}" rx="{round_by}"{dash}/>'
    )
    if kind in HATCH:
        return outline + hatch(HATCH[kind], 0, h * (1 - PATTERN), w, h * PATTERN)
    return outline + (_cross(w, h) if kind == "blocked" else "")


_FAINT: Mapping[CavityKind, str] = {"blank": "lb-faint"}


def _cross(w: float, h: float) -> str:
    """Return a cross in the lower part."""
    low = h * PATTERN
    return (
        f'<path class="lb-shut" d="M0 {number(h - low)}l{number(w)} {number(low)}'
        f'M{number(w)} {number(h - low)}l{number(-w)} {number(low)}"/>'
    )
