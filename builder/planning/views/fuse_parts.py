"""Fuses on the parts list, each in the shape that it is made in, and what holds them."""

from __future__ import annotations

from collections import Counter

from builder.model.words import FuseShape
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Element
from builder.planning.power.fuse_sizes import fuse_family, shape_for
from builder.planning.sheet_rows import PartLine
from builder.planning.views.names import is_at_fuse, side_fuses
from builder.planning.words import BLOCK, MAIN_FUSE
from builder.planning.work_pack import JobParts

_TAP = "at {}: takes the car's own fuse, of the same shape, and ours"
_FUSES_APART = "one to fit and one spare"
_BESIDE: FuseShape = "blade"
"""The shape of a small fuse that nobody chose one for. Common practice, no source."""


def fuse_part_lines(parts: JobParts, index: CircuitIndex) -> list[PartLine]:
    """Return each fuse with its spare, then the holders by shape; a block has its own."""
    lines: list[PartLine] = []
    holders: Counter[str] = Counter()
    for fuse in (part for part in index.circuit.elements if part.kind == "fuse"):
        if fuse.loom and not _is_made_here(parts, index, fuse):
            note = f"{fuse.purpose}; a spare, one is in the loom"
            lines.append(PartLine(f"fuse {fuse.rating}", 1, "", note))
            continue
        shape = _shape(parts, fuse)
        note = f"{fuse.purpose}; {_FUSES_APART}"
        lines.append(PartLine(f"fuse {fuse.rating}, {shape}", 2, "", note))
        tap = next((x for x in index.joints_of[fuse.ends[0]] if is_at_fuse(index, x)), None)
        if tap is not None:
            lines.append(PartLine(f"fuse tap, {shape}", 1, "", _TAP.format(tap.place)))
        holders.update([] if fuse.place == BLOCK or tap is not None else [shape])
    return lines + [
        PartLine(f"fuse holder, {shape}", count, "", "one for each fuse, with a lid")
        for shape, count in holders.items()
    ]


def _shape(parts: JobParts, fuse: Element) -> str:
    """The family in a word: the job's for the main fuse and in the block."""
    chosen = fuse.id == MAIN_FUSE or fuse.place == BLOCK
    wanted = parts.job.supply.fuse_family if chosen else _BESIDE
    return fuse_family(shape_for(fuse.value, wanted)).name.removesuffix(" fuse")


def _is_made_here(parts: JobParts, index: CircuitIndex, fuse: Element) -> bool:
    """Whether the loom that a fuse is part of is made at the bench, its holder with it."""
    return parts.shelf.looms[index.units[fuse.loom].record].made == "bench"


def fuse_lines(index: CircuitIndex) -> tuple[str, ...]:
    """Return where every fuse but the main one is, for who has to find it later."""
    return tuple(
        f"{fuse.purpose[0].upper()}{fuse.purpose[1:]}: {fuse.rating}; place: {fuse.place}."
        for fuse in side_fuses(index)
    )
