"""Parts and signs on wires written as SVG."""

from __future__ import annotations

from markupsafe import escape

from builder.rendering.drawings.canvas import number
from builder.rendering.drawings.wiring.canvas_marks import part_width
from builder.rendering.drawings.wiring.scene import Part


def drawn_part(part: Part) -> str:
    """Return a fuse, resistor, diode or capacitor."""
    x, y = part.at
    if part.words:
        return _blade(part)
    angle = 90 * part.upright + 180 * part.turned
    turn = f' transform="rotate({angle} {number(x)} {number(y)})"' if angle else ""
    drawn = {
        "resistor": _resistor, "diode": _diode, "capacitor": _capacitor, "relay": _contacts,
        "charger": _charger,
    }[part.kind](x, y)  # fmt: skip
    return f"<g{turn}>{drawn}</g>"


def _blade(part: Part) -> str:
    """A fuse or a resistor with its value in it."""
    (x, y), wide, lines = part.at, part_width(part.words), part.words.split("\n")
    high, css = (15.0, "lb-part-fuse") if part.kind == "fuse" else (13.0, "lb-part-resistor")
    high += 12.0 * (len(lines) - 1)
    round_by = ' rx="3"' if part.kind == "fuse" else ""
    box = (
        f'<rect class="{css}" x="{number(x - wide / 2)}" y="{number(y - high / 2)}"'
        f' width="{number(wide)}" height="{number(high)}"{round_by}/>'
    )
    first = y + 4 - 6.0 * (len(lines) - 1)
    return box + "".join(
        f'<text x="{number(x)}" y="{number(first + 12 * at)}" font-size="10.5"'
        f' text-anchor="middle" font-weight="700">{escape(line)}</text>'
        for at, line in enumerate(lines)
    )


def _resistor(x: float, y: float) -> str:
    return (
        f'<rect class="lb-part-resistor" x="{number(x - 10)}" y="{number(y - 4)}" width="20"'
        ' height="8"/>'
    )


def _diode(x: float, y: float) -> str:
    return (
        f'<path class="lb-part-diode" d="M{number(x - 6)} {number(y - 6)}v12l11 -6Z"/>'
        f'<path d="M{number(x + 6)} {number(y - 6.5)}v13" stroke="currentColor"'
        ' stroke-width="2"/>'
    )


def _capacitor(x: float, y: float) -> str:
    """Its + is on the side where the wire comes from: one joined the other way round bursts."""
    return (
        f'<rect class="lb-part-gap" x="{number(x - 2)}" y="{number(y - 3)}" width="4" height="6"'
        ' fill="white"/>'
        f'<path class="lb-part-capacitor" d="M{number(x - 3)} {number(y - 8)}v16M{number(x + 3)}'
        f' {number(y - 8)}v16" stroke-width="2"/>'
        f'<path class="lb-part-plus" d="M{number(x - 11)} {number(y - 6)}h6M{number(x - 8)}'
        f' {number(y - 9)}v6" stroke-width="1.3"/>'
    )


def _contacts(x: float, y: float) -> str:
    """Two contacts and the lever between them, open."""
    return (
        f'<rect class="lb-part-gap" x="{number(x - 11)}" y="{number(y - 4)}" width="22" height="8"'
        ' fill="white"/>'
        f'<path class="lb-part-contacts" d="M{number(x - 10)} {number(y)}l19 -8"'
        ' stroke="currentColor" stroke-width="2.4" fill="none"/>'
        f'<circle cx="{number(x - 10)}" cy="{number(y)}" r="2.6"/>'
        f'<circle cx="{number(x + 10)}" cy="{number(y)}" r="2.6"/>'
    )


def _charger(x: float, y: float) -> str:
    """A converter: direct volts in, direct volts out."""
    return (
        f'<path class="lb-part-resistor" d="M{number(x - 10)} {number(y - 10)}h20v20h-20Z'
        f'M{number(x - 10)} {number(y + 10)}l20 -20"/>'
    )
