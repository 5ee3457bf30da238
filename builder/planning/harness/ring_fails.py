"""What to do when a line of a ring-out fails: an answer for each thing that a line is for.

Each answer ends: in a line that passes, in another cable, or in another loom.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.harness.ring_mends import (
    CABLE,
    LOOM,
    another_cable,
    another_loom,
    joint_anew,
)
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.ring_rows import CORE_APART, CORE_WHOLE, WHYS, share_words
from builder.planning.harness.sheet_work import SheetWork

_SHORTER_MM = 5
"""What comes off an end that is closed off anew. Common practice, no source."""


def failing_lines(work: SheetWork) -> Iterator[str]:
    """Yield first what is looked at for every line, then what each kind of line is mended by."""
    mends = {row.what_for: _mend(work, row.what_for) for row in work.ringing}
    said = " ".join(mends.values())
    told = [each for each in (CABLE, LOOM) if each in said]
    below = f"; {', '.join(told)}: see below" if told else ""
    yield (
        "first look whether the test contacts sit and nothing bare touches, and read again. "
        f'Then by "What for"{below}:'
    )
    for mend in dict.fromkeys(mends.values()):
        kinds = ", or ".join(f'"{each}"' for each in mends if mends[each] == mend)
        yield f"{kinds}: {mend}"
    if any(row.joint for row in work.joints):
        yield joint_anew(work)
    if CABLE in said:
        yield another_cable(work)
    if LOOM in said:
        yield another_loom(work)
    yield _after(work)


def _after(work: SheetWork) -> str:
    """Where to go on; a joint that comes out at the pull is mended before there is a ring-out."""
    off = ", all contacts and far ends off the bar first" if work.bundle else ""
    pulled = "; with the joint list not done yet, go on with that" if work.joints else ""
    return f"after any of it ring out again from line 1{off}{pulled}"


_NEW_WIRES = (
    "make its crimps and its splice anew, with new wires of the same length; no better after it: "
    "another test contact, then another housing"
)
_JOINT = f"make the joints of this wire anew; no better after it: {LOOM}"
_OPEN = (WHYS["broken"], WHYS["apart"], WHYS["closed off"], CORE_APART)
_MENDS: dict[str, str] = {
    WHYS["through"]: f"the loom itself is at fault, or a wrong wire was cut: {LOOM}",
    WHYS["to branch"]: _JOINT,
    WHYS["joined"]: _JOINT,
    CORE_WHOLE: f"a core of the cable is hurt: {CABLE}",
}


def _mend(work: SheetWork, what_for: str) -> str:
    """A wire that no joint lies in is mended only where the loom itself is made here."""
    own = (WHYS["through"], WHYS["to branch"], WHYS["joined"])
    if what_for in _OPEN:
        return _parted(work)
    if what_for == WHYS["to cable"]:
        return f"{_silent(work)}{_high(work)}"
    if what_for in own and work.plan.use.loom.made == "bench":
        return _NEW_WIRES
    return _MENDS[what_for]


def _silent(work: SheetWork) -> str:
    """Whose far end it is, if not that of the line: then no joint is opened for nothing."""
    cables = (
        "One of another cable sounds: the labels and bands of the two are exchanged at an end: put "
        "them right by the joint list; o"
        if len(work.cables) > 1
        else "O"
    )
    return (
        f"silent, no current flows: the supply off, ring its cavity against every bare far end. "
        f"{cables}ne of the same cable: two of its cores are exchanged: {CABLE}. None sounds, or "
        "the line reads too much: "
    )


def _high(work: SheetWork) -> str:
    """One joint anew; what still is too much lies in the core or in the wire, and is told apart
    while the new barrel can be touched."""
    fused = any(row.side.startswith("far lead") for row in work.joints)
    holder = " (with a fuse's holder on its way, each of its joints)" if fused else ""
    return (
        "make one joint anew, that at which the joint list joins the core of this line to the "
        f"wire{holder}. Before its new crimp ring the wire from its cavity; silent: "
        f"{_wire_anew(work)}; and the core from its far end; silent: {CABLE}. After the pull, "
        "before its sleeve, read the line again. Still too much: the meter's one lead on the "
        f"barrel, all else as before: over {share_words(work.ringing)}: {CABLE}; else, or no "
        f"better with it: {_wire_anew(work)}"
    )


def _wire_anew(work: SheetWork) -> str:
    """A wire of a loom that was bought is not exchanged: nothing is put into its plugs."""
    return "a new wire of the same length" if work.plan.use.loom.made == "bench" else LOOM


def _parted(work: SheetWork) -> str:
    """What parts two points that are joined and must not be: each of them by what it is."""
    kinds = []
    if any(row.joint for row in work.joints):
        kinds.append("at a wire with a joint make the joint anew")
    if work.closed:
        kinds.append(
            f"of an end that is closed off take the sleeve off, cut {_SHORTER_MM} mm off it, and "
            "close it off again"
        )
    if any(row.others for row in work.cables):
        kinds.append(
            f"of a core that is joined to nothing here cut {_SHORTER_MM} mm off both ends: "
            f"{FAR_BARE_MM - _SHORTER_MM} mm stay bare, bare no more"
        )
    mends = f"Mend both, each as what it is: {'; '.join(kinds)}. " if kinds else ""
    core = (
        f"; at a core of a cable {CABLE}; none to be seen: {CABLE} for that of the earlier line, "
        f"then for that of the other; no cable, or no better: {_wire_anew(work)}"
        if work.cables
        else ""
    )
    return (
        "take the others off the bar one by one; when it reads open, the last was joined to it. "
        f"{mends}No better, or neither is of these: look along both for a nick; at a wire of the "
        f"loom {_wire_anew(work)}{core}"
    )
