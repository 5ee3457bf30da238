"""Wires written as SVG, each kind by its own lines: also grey paper tells them apart."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from builder.planning.circuit.supply_links import THE_BODY
from builder.rendering.drawings.path_data import PathData
from builder.rendering.drawings.wire_colours import colour_hex
from builder.rendering.drawings.wire_strokes import BASE, Stroke, along, wide, wire_strokes
from builder.rendering.drawings.wiring.paths import gaps_of, pieces_of, rounded
from builder.rendering.drawings.wiring.scene import Run, RunKind


def drawn_run(run: Run, name: str = "") -> str:
    """Return a wire, interrupted by its names; `name` is an id of its own for its path, or ""."""
    return along(rounded(pieces_of(run)), _STROKES[run.kind](run), name)


def gaps_drawn(runs: Iterable[Run]) -> str:
    """Return the stretches that names take, thin: what is seen in place of names where they are
    too small to be read."""
    drawn = PathData()
    found = [gap for run in runs for gap in gaps_of(run)]
    for start, end in found:
        drawn.move(start).line(end)
    return f'<path class="lb-uncut" d="{drawn}"/>' if found else ""


def _wire(run: Run) -> list[Stroke]:
    """Case in ink, base colour, stripe; a wire whose colour nobody knows stays pale."""
    if run.carries != "control" or (run.wire and colour_hex(run.wire.base)):
        return wire_strokes(run.wire)
    return [*wire_strokes(None, BASE - 1.6), Stroke("lb-bought")]


def _bare(run: Run) -> list[Stroke]:
    return [wide("lb-bare", 6 if run.carries in ("supply", "ground") else 1.6)]


def _supply(_: Run) -> list[Stroke]:
    return [wide("lb-casing", 6)]


def _ground(_: Run) -> list[Stroke]:
    return [wide("lb-casing", 6.4), wide("lb-paper", 3.2)]


def _body(run: Run) -> list[Stroke]:
    """The car's own: the strap as a braid; the body is its own frame."""
    if run.ids == (THE_BODY,):
        return [wide("lb-core-line", 1.4, ' stroke-dasharray="2 3"')]
    braid = wide("lb-core-line", 4.4, ' stroke-dasharray="2 2"')
    return [wide("lb-casing", 8), wide("lb-paper", 6), braid]


def _lead(_: Run) -> list[Stroke]:
    """A coaxial lead: shield as two lines, centre between them."""
    return [wide("lb-casing", 7), wide("lb-paper", 5.2), wide("lb-core-line", 1.6)]


_STROKES: dict[RunKind, Callable[[Run], list[Stroke]]] = {
    "wire": _wire, "bare": _bare, "supply": _supply, "ground": _ground, "lead": _lead,
    "body": _body,
}  # fmt: skip
