"""How many small things a loom takes on the table: counted once, for its sheet and for buying."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import ceil

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.cut_lengths import with_spare
from builder.planning.harness.cables_of import joined_wires, other_cores
from builder.planning.harness.joint_list import BESIDE, MEASURE, WRAPPED, sleeve_words
from builder.planning.harness.joint_parts import area_mm2
from builder.planning.harness.joint_places import TIES_MM
from builder.planning.harness.made_here import own_joints
from builder.planning.harness.marks import by_place, tied_together
from builder.planning.harness.rows import LoomCableRow, LoomNeed
from builder.planning.harness.sheet_work import SheetWork

TIE = "cable tie"
FLAG = "flag for a wire"
SPARE_JOINTS = 2
"""Of each size of sleeve and barrel at least so many are there to spare: a short between two wires
opens a joint of each, and none is closed again with what it had. Common practice, no source."""
MARKED_AT = 3
"""A cable is marked at both ends and mid-way."""
BAND_M = 0.05
_CLOTH_PER_M = 6
"""Tape: of a band, twice round a cable; of cloth tape for a metre of loom, half over itself. Common
practice, no source."""


def cloth_m(work: SheetWork) -> int:
    """Return how much cloth tape a loom takes [m], rounded up: its length and its branches."""
    loom = work.plan.use.loom
    lengths = [loom.length_m, *(each.length_m for each in loom.branches)]
    return ceil(_CLOTH_PER_M * sum(each or 0.5 for each in lengths))


def sleeve_sizes(work: SheetWork) -> Counter[str]:
    """Return how many sleeves of each size: joints, ends closed off, and both ends of each core
    that is not of this loom; the far end of one that is, after the ring-out."""
    if not work.joints:
        return Counter()
    mine, others = joined_wires(work.plan, work.index), other_cores(work.plan, work.index)
    sizes = Counter(row.sleeve for row in work.joints if row.sleeve != WRAPPED)
    sizes.update(sleeve for _, sleeve in own_joints(work))
    sizes.update(
        sleeve_words([[area_mm2(each.size)]], work.defaults, crimped=False)
        for each in (*others, *others, *mine)
    )
    return sizes


def barrel_sizes(work: SheetWork) -> Counter[str]:
    """Return how many barrels of each size, clips and soldered joints among them."""
    own = Counter(barrel for barrel, _ in own_joints(work)) if work.joints else Counter[str]()
    return Counter(row.barrel for row in work.joints if row.joint) + own


def used_words(work: SheetWork) -> str:
    """Return what the lines of the joint list use up: "12 barrels, 16 sleeves"."""
    joined = [row.barrel for row in work.joints if row.joint]
    clips, wraps = joined.count(BESIDE), sum(row.sleeve == WRAPPED for row in work.joints)
    barrels = sum(bool(barrel_item(each)) for each in joined) - clips
    counts = (
        (barrels, "barrel"),
        (clips, "clip"),
        (len(joined) - barrels - clips, "soldered joint"),
        (len(work.joints) - wraps, "sleeve"),
        (wraps, "wrap"),
    )
    return ", ".join(
        f"{count} {what}{'' if count == 1 else 's'}" for count, what in counts if count
    )


def tie_count(work: SheetWork) -> int:
    """Return how many ties hold the cables to the bundle."""
    if not work.joints:
        return 0
    return len(TIES_MM) * sum(len(tied_together(at)) for at in by_place(work.cables).values())


def spare_ties(work: SheetWork) -> int:
    """Return how many ties are to spare: whatever is pushed along a bundle, all of
    its ties are cut, since those of one cable go round the others too."""
    return SPARE_JOINTS * tie_count(work)


def alike_cables(work: SheetWork) -> list[LoomCableRow]:
    """Return the cables that nothing but their marks tells from another."""
    kinds = [(row.material, row.length_m) for row in work.cables]
    marked = [row for row in work.cables if row.bands]
    return [row for row in marked if kinds.count((row.material, row.length_m)) > 1]


def flag_count(work: SheetWork) -> int:
    """Return how many flags mark wires: two on one that is cut, one where another is beside."""
    doings = [row.doing for row in work.wires]
    return 2 * doings.count("cut") + doings.count("beside")


def loom_needs(work: SheetWork) -> Iterator[LoomNeed]:
    """Yield what is bought for the table, one line a size."""
    for size, count in sleeve_sizes(work).items():
        of = "its size to be measured" if size == MEASURE else f"of {size}"
        yield LoomNeed(f"adhesive sleeve, {of}", count)
    for size, count in barrel_sizes(work).items():
        if item := barrel_item(size):
            yield LoomNeed(item, count)
    for item, count in ((TIE, tie_count(work)), (FLAG, flag_count(work))):
        if count:
            yield LoomNeed(item, count)


def to_buy(need: LoomNeed, defaults: HouseDefaults) -> int:
    """Return how many are bought: the house's spare, of what joints take at least two; of ties all
    once more for each joint that is made anew.

    >>> to_buy(LoomNeed("adhesive sleeve, of 6 / 2 mm", 4), HouseDefaults())
    6
    """
    if need.item == TIE:
        return need.quantity * (1 + SPARE_JOINTS)
    share = with_spare(need.quantity, defaults)
    at_least = need.quantity + SPARE_JOINTS
    return share if need.item == FLAG else max(share, at_least)


def barrel_item(size: str) -> str:
    """Return what a joint is crimped with, as it is bought; empty where it is soldered."""
    if size == BESIDE:
        return "open crimp clip"
    if size == MEASURE:
        return "crimp barrel, its size to be measured"
    return f"crimp barrel for {size} of copper" if "solder" not in size else ""
