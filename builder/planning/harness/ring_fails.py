"""What to do when a line of a ring-out fails: an answer for each thing that a line is for."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.harness.bench_counts import SPARE_JOINTS
from builder.planning.harness.joint_places import BARE_MM
from builder.planning.harness.ring_rows import CORE_APART, CORE_WHOLE, WHYS
from builder.planning.harness.sheet_work import SheetWork


def failing_lines(work: SheetWork) -> Iterator[str]:
    """Yield first what is looked at for every line, then what each kind of line is mended by."""
    yield (
        "first look whether the test contacts sit and nothing bare touches, and read it again. "
        'Then by what stands under "What for":'
    )
    mends = {row.what_for: _mend(work, row.what_for) for row in work.ringing}
    for mend in dict.fromkeys(mends.values()):
        kinds = ", or ".join(f'"{each}"' for each in mends if mends[each] == mend)
        yield f"{kinds}: {mend}"
    if any(row.joint for row in work.joints):
        yield from _again(work)
    if any(each.endswith(_CORE) for each in mends.values()):
        yield _ANOTHER
    yield "after any of it begin at line 1 again"


_JOINT = "make the joints of this wire anew"
_CABLE = "make one joint anew, that at which the joint list joins the core of this line to the wire"
_APART = (
    "take the others off the bar one by one; when it reads open, the last was joined to it. Make "
    "the joints of those two anew, and look along both wires for a nick; where neither has a "
    "joint, take another loom"
)
_CORE = "a core of the cable is hurt: another cable, as told below"
_ANOTHER = (
    "another cable: get first what it takes beyond what is to spare: its length, for each of its "
    "lines in the joint list a barrel and a sleeve, its labels, bands and the sleeves of its other "
    "ends. Then make all its joints anew"
)
_MENDS: dict[str, str] = {
    WHYS["through"]: "the loom itself is at fault, or a wrong wire was cut: take another loom",
    WHYS["to cable"]: _CABLE,
    WHYS["to branch"]: _JOINT,
    WHYS["joined"]: _JOINT,
    WHYS["broken"]: _APART,
    WHYS["apart"]: _APART,
    WHYS["closed off"]: "take its sleeve off, cut 5 mm off its end, and close it off again",
    CORE_WHOLE: _CORE,
    CORE_APART: f"look at both of its ends, and shorten them by 5 mm. No better: {_CORE}",
}


def _mend(work: SheetWork, what_for: str) -> str:
    """A wire that no joint lies in is mended only where the loom itself is made here."""
    own = (WHYS["through"], WHYS["to branch"], WHYS["joined"])
    if what_for in own and work.plan.use.loom.made == "bench":
        return "make its crimps and its splice anew, with new wires of the same length"
    return _MENDS[what_for]


def _again(work: SheetWork) -> Iterator[str]:
    """How a joint is made anew: what a cut takes of each wire, and where that comes from."""
    said = [
        "a joint made anew: its sleeve and its barrel are cut off and never used again; of each "
        f"size {SPARE_JOINTS} are to spare"
    ]
    if any(row.sleeve_on == "after" and row.joint for row in work.joints):
        said.append(
            "two wires from the same side: cut both off behind the barrel; the new joint lies so "
            "much nearer to where they come from"
        )
    if any(row.sleeve_on == "before" for row in work.joints):
        said.append(
            f"from opposite sides: {BARE_MM:.0f} mm of either wire are gone. Cut all ties of the "
            f"cables, push this cable {2 * BARE_MM:.0f} mm towards the joint, and tie all again; "
            "no more jacket comes off, and its other cores lie in a small bow"
        )
    yield ". ".join(each[0].upper() + each[1:] if at else each for at, each in enumerate(said))
