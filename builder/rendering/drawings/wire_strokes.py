"""A wire along a path: a case in ink, its colour, its stripe. Grey paper tells them by the case.

All of them follow one path. It stands once, in the lowest, where the others would be longer than a
reference to it.
"""

from __future__ import annotations

from typing import NamedTuple

from builder.model.wire import Wire
from builder.rendering.drawings.canvas import number
from builder.rendering.drawings.wire_colours import colour_hex

BASE = 4.6  # width of the colour in its case, in units of the drawing, as `.lb-run` is drawn


class Stroke(NamedTuple):
    """One line along a path: its class, and what it says beside that, already safe."""

    css: str
    more: str = ""


def wide(css: str, width: float, more: str = "") -> Stroke:
    """Return a line of a width that is not the one of its class."""
    return Stroke(css, f' stroke-width="{number(width)}"{more}')


def wire_strokes(wire: Wire | None, hollow: float = BASE) -> list[Stroke]:
    """Return a wire, the lowest line first; one whose colour nobody knows is pale, `hollow` wide
    inside."""
    base = wire and colour_hex(wire.base)
    if not base:
        pale = Stroke("lb-pale") if hollow == BASE else wide("lb-paper", hollow)
        return [Stroke("lb-case"), pale]
    stripe = wire and wire.stripe and colour_hex(wire.stripe)
    found = [Stroke("lb-case"), Stroke("lb-run", f' stroke="{base}"')]
    return [*found, Stroke("lb-run-stripe", f' stroke="{stripe}"')] if stripe else found


def along(d: str, strokes: list[Stroke], name: str = "") -> str:
    """Return lines along the path `d`, the first lowest. `name` is an id that nothing else on the
    page has, or "" where the path is to be written out."""
    each = [f'<path class="{css}" d="{d}"{more}/>' for css, more in strokes]
    (css, more), *others = strokes
    shared = f'<g class="{css}"{more}><path id="{name}" d="{d}"/></g>' + "".join(
        f'<use class="{css}" href="#{name}"{more}/>' for css, more in others
    )
    plain = "".join(each)
    return shared if name and len(shared) < len(plain) else plain
