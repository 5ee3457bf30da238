"""A wire along a path: a case in ink, its colour, its stripe. Grey paper tells them by the case."""

from __future__ import annotations

from builder.model.wire import Wire
from builder.rendering.drawings.canvas import number
from builder.rendering.drawings.wire_colours import colour_hex

BASE = 4.6  # width of the colour in its case, in units of the drawing, as `.lb-run` is drawn


def stroke(d: str, css: str, width: float, more: str = "") -> str:
    """Return the path `d` as a line of a width, in the colour of its class."""
    return f'<path class="{css}" d="{d}" stroke-width="{number(width)}"{more}/>'


def wire_strokes(d: str, wire: Wire | None, hollow: float = BASE) -> str:
    """Return a wire along `d`; one whose colour nobody knows is pale, `hollow` wide inside."""
    case = f'<path class="lb-case" d="{d}"/>'
    base = wire and colour_hex(wire.base)
    if not base:
        return case + stroke(d, "lb-paper", hollow)
    stripe = wire and wire.stripe and colour_hex(wire.stripe)
    along = f'<path class="lb-run-stripe" d="{d}" stroke="{stripe}"/>' if stripe else ""
    return f'{case}<path class="lb-run" d="{d}" stroke="{base}"/>{along}'
