"""How many small things a loom takes on the table: counted once, for its sheet and for buying."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.planning.harness.cables_of import joined_wires, other_cores
from builder.planning.harness.joint_list import BESIDE, MEASURE, WRAPPED, sleeve_words
from builder.planning.harness.joint_parts import area_mm2
from builder.planning.harness.joint_places import TIES_MM
from builder.planning.harness.rows import LoomNeed
from builder.planning.harness.sheet_work import SheetWork

TIE = "cable tie"


def sleeve_sizes(work: SheetWork) -> Counter[str]:
    """Return how many sleeves of each size: joints, ends closed off, and both ends of each core
    that is not of this loom; the far end of one that is, after the ring-out."""
    if not work.joints:
        return Counter()
    mine, others = joined_wires(work.plan, work.index), other_cores(work.plan, work.index)
    sizes = Counter(row.sleeve for row in work.joints if row.sleeve != WRAPPED)
    sizes.update(
        sleeve_words([[area_mm2(each.size)]], work.defaults, crimped=False)
        for each in (*others, *others, *mine)
    )
    return sizes


def barrel_sizes(work: SheetWork) -> Counter[str]:
    """Return how many barrels of each size, clips and soldered joints among them."""
    return Counter(row.barrel for row in work.joints if row.joint)


def tie_count(work: SheetWork) -> int:
    """Return how many ties hold the cables to the bundle."""
    return len(TIES_MM) * len(work.cables) if work.joints else 0


def flag_count(work: SheetWork) -> int:
    """Return how many flags tell the two sides of each cut wire apart."""
    return 2 * sum(row.doing == "cut" for row in work.wires)


def loom_needs(work: SheetWork) -> Iterator[LoomNeed]:
    """Yield what is bought for the table, one line a size."""
    for size, count in sleeve_sizes(work).items():
        of = "its size to be measured" if size == MEASURE else f"of {size}"
        yield LoomNeed(f"adhesive sleeve, {of}", count)
    for size, count in barrel_sizes(work).items():
        if item := _barrel(size):
            yield LoomNeed(item, count)
    for item, count in ((TIE, tie_count(work)), ("flag for a cut wire", flag_count(work))):
        if count:
            yield LoomNeed(item, count)


def _barrel(size: str) -> str:
    """What a joint is crimped with; empty where it is soldered."""
    if size == BESIDE:
        return "open crimp clip"
    if size == MEASURE:
        return "crimp barrel, its size to be measured"
    return f"crimp barrel for {size} of copper" if "solder" not in size else ""
