"""Wires written as SVG, each kind by its own lines: also grey paper tells them apart."""

from __future__ import annotations

from builder.planning.circuit.supply_links import THE_BODY
from builder.rendering.drawings.wire_colours import colour_hex
from builder.rendering.drawings.wire_strokes import BASE, stroke, wire_strokes
from builder.rendering.drawings.wiring.paths import pieces_of, rounded
from builder.rendering.drawings.wiring.scene import Run


def drawn_run(run: Run) -> str:
    """Return a wire, interrupted by its names."""
    d = "".join(rounded(piece) for piece in pieces_of(run))
    drawn = {
        "wire": _wire, "bare": _bare, "supply": _supply, "ground": _ground, "lead": _lead,
        "body": _body,
    }[run.kind](d, run)  # fmt: skip
    return (_uncut(run) if run.cuts else "") + drawn


def _uncut(run: Run) -> str:
    """What is seen in place of names where they are too small to be read."""
    hidden = ' visibility="hidden"'
    return stroke(rounded(run.points), "lb-uncut", 3, hidden)


def _wire(d: str, run: Run) -> str:
    """Case in ink, base colour, stripe; a wire whose colour nobody knows stays pale."""
    if run.carries != "control" or (run.wire and colour_hex(run.wire.base)):
        return wire_strokes(d, run.wire)
    dash = ' stroke-dasharray="1.5 4"'
    return wire_strokes(d, None, BASE - 1.6) + stroke(d, "lb-core-line", 1, dash)


def _bare(d: str, run: Run) -> str:
    thick = run.carries in ("supply", "ground")
    return stroke(d, "lb-bare", 6 if thick else 1.6)


def _supply(d: str, _: Run) -> str:
    return stroke(d, "lb-casing", 6)


def _ground(d: str, _: Run) -> str:
    inner = stroke(d, "lb-paper", 3.2)
    return stroke(d, "lb-casing", 6.4) + inner


def _body(d: str, run: Run) -> str:
    """The car's own: the strap as a braid; the body is its own frame."""
    if run.ids == (THE_BODY,):
        return stroke(d, "lb-core-line", 1.4, ' stroke-dasharray="2 3"')
    dash = ' stroke-dasharray="2 2"'
    inner = stroke(d, "lb-core-line", 4.4, dash)
    return stroke(d, "lb-casing", 8) + stroke(d, "lb-paper", 6) + inner


def _lead(d: str, _: Run) -> str:
    """A coaxial lead: shield as two lines, centre between them."""
    shield = stroke(d, "lb-casing", 7) + stroke(d, "lb-paper", 5.2)
    return shield + stroke(d, "lb-core-line", 1.6)
