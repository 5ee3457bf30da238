"""A wire along a path: a case in ink, its colour, its stripe. Grey paper tells them by the case."""

from __future__ import annotations

from builder.model.wire import Wire
from builder.rendering.drawings.canvas import number
from builder.rendering.drawings.wire_colours import colour_hex

CASE, BASE, STRIPE = 6.4, 4.6, 1.6  # widths, in units of the drawing


def stroke(d: str, css: str, colour: str, width: float, more: str = "") -> str:
    """Return the path `d` as a line of a width."""
    return (
        f'<path class="{css}" d="{d}" fill="none" stroke="{colour}"'
        f' stroke-width="{number(width)}"{more}/>'
    )


def wire_strokes(d: str, wire: Wire | None, hollow: float = BASE) -> str:
    """Return a wire along `d`; one whose colour nobody knows is pale, `hollow` wide inside."""
    case = stroke(d, "lb-case", "currentColor", CASE)
    base = wire and colour_hex(wire.base)
    if not base:
        return case + stroke(d, "lb-paper", "white", hollow)
    stripe = wire and wire.stripe and colour_hex(wire.stripe)
    dash = ' stroke-dasharray="6 5"'
    along = stroke(d, "lb-run-stripe", stripe, STRIPE, dash) if stripe else ""
    return case + stroke(d, "lb-run", base, BASE) + along
