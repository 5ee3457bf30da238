"""How cables are cut from the roll, marked and folded back, in words."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.harness.bench_marks import marking_lines, single_lines
from builder.planning.harness.cables_of import FAR_OFF_MM, far_spare_m, other_cores, roll_spare_m
from builder.planning.harness.sheet_work import SheetWork


def cable_lines(work: SheetWork) -> Iterator[str]:
    """Yield how the cables of the list are cut, marked, and folded back; where there are any."""
    if any(row.bands for row in work.cables):
        yield from _cut_lines(work)
        yield from marking_lines(work)
    yield from single_lines(work)
    if other_cores(work.plan, work.index):
        yield "fold each core back that the cable list names as joined to nothing here"


def _cut_lines(work: SheetWork) -> Iterator[str]:
    """A nick costs the roll, not the piece: its jacket comes off before the piece is cut."""
    metres = far_spare_m(work.defaults)
    again = (
        ", later too: cut it off and begin again, marks too, once "
        f"({shown(metres)} m are to spare there); a second: the cable anew, once "
        "joined the loom"
        if metres
        else ": cut the cable anew"
    )
    yield (
        "each cable of the cable list, from the end of the roll: take its jacket off by "
        '"Off"; a nicked core: cut that end off and begin again. '
        f"{_more_nicks(work)}"
        "Measure its length from the tips of the cores, and cut it. "
        f"At the far end {FAR_OFF_MM:.0f} mm of jacket come off; a nick there{again}"
    )


def _more_nicks(work: SheetWork) -> str:
    """What the roll holds more is one such end; a second one takes the last piece's length."""
    if not any(roll_spare_m(work.cables, row.material, work.defaults) for row in work.cables):
        return ""
    return "The roll has what one such end takes; for a second get more cable first. "
