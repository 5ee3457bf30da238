"""What work is done with and held by: ties by what they hold, and what stays in the shop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.circuit.index import CircuitIndex
from builder.planning.harness.rows import LoomSheet
from builder.planning.sheet_rows import PartLine
from builder.planning.words import MAIN_FUSE


def ties_words(along: int, at_table: int, held: int, share: str) -> str:
    """Return what ties are for; those along the cables have their spare, `share`, in them."""
    counted = ((at_table, "for the looms' sheets"), (held, "at what hangs in a wire"))
    more = "".join(f", {count} {where}" for count, where in counted if count)
    return f"{along} along the cables, {share}{more}"


def tool_lines(index: CircuitIndex, looms: Sequence[LoomSheet]) -> Iterator[PartLine]:
    """Yield what steps ask for besides a meter: it is not left in the car."""
    if MAIN_FUSE in index.elements:
        yield PartLine("lamp of 21 W", 1, "", "to test with: across the holder of the main fuse")
    for sheet in looms:
        said = f"to ring {sheet.loom} out: its sheet counts them"
        yield PartLine("set of test contacts, wire and bar", 1, "", said)
