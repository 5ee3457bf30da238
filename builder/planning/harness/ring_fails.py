"""What to do when a line of a ring-out fails: one mend at a place, and no better after it the loom
is made anew.

Only what leaves every length as it is listed, but for what a new crimp takes, is mended. More would
ask for other lists, and costs a shop more than a loom. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.harness.bench_counts import alike_cables, used_words
from builder.planning.harness.cables_of import far_spare_m
from builder.planning.harness.contacts import by_plug, one_ended
from builder.planning.harness.joint_list import WRAPPED
from builder.planning.harness.joint_places import BARE_MM
from builder.planning.harness.made_here import own_joints
from builder.planning.harness.marks import PUSHED_MM
from builder.planning.harness.ring_rows import CORE_APART, CORE_WHOLE, WHYS
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.ring_out import TEST_CURRENT_A

LOOM = "the loom anew"
_SHORTER_MM = 5
"""What every way ends in; what comes off an end that is closed off anew. Common practice, no
source."""


def failing_lines(work: SheetWork) -> Iterator[str]:
    """Yield first what is looked at for every line, then what each kind of line is mended by."""
    mends = {row.what_for: _mend(work, row.what_for) for row in work.ringing}
    yield (
        f"first look whether the test contacts sit, the clips bite{_far_hurt(work)} and nothing "
        f'bare touches, and read again. Then by "What for"; {LOOM}: see below:'
    )
    for mend in dict.fromkeys(mends.values()):
        kinds = ", or ".join(f'"{each}"' for each in mends if mends[each] == mend)
        yield f"{kinds}: {mend}"
    if any(row.joint for row in work.joints):
        yield _joint_anew(work)
    yield _loom_anew(work)
    yield f"after any mend ring out again from line 1{_taken_out(work)}"


def _taken_out(work: SheetWork) -> str:
    """What is off and out before the first line; an end that is closed off sounds no more, so its
    contact stays as it was rung."""
    if not work.bundle:
        return ""
    alone = "; ".join(by_plug(work, one_ended(work)))
    but = f" but {alone}, which the pull proves" if alone else ""
    return f": all off the bar, all contacts out{but}"


def _far_hurt(work: SheetWork) -> str:
    """One that is nicked is cut off as the step says at which its jacket comes off."""
    if not any(row.bands for row in work.cables) or not far_spare_m(work.defaults):
        return ""
    return ", no far end is nicked or broken"


_OPEN = (WHYS["broken"], WHYS["apart"], WHYS["closed off"], CORE_APART)
_MENDS: dict[str, str] = {
    WHYS["through"]: f"the loom itself is at fault, or a wrong wire was cut: {LOOM}",
    WHYS["to branch"]: f"the loom itself is at fault: {LOOM}",
    WHYS["joined"]: f"the loom itself is at fault: {LOOM}",
    CORE_WHOLE: f"a core of the cable is hurt: {LOOM}",
}


def _mend(work: SheetWork, what_for: str) -> str:
    """A wire that no joint lies in is mended only where the loom itself is made here."""
    if what_for in _OPEN:
        return _parted(work)
    if what_for == WHYS["to cable"]:
        return _reached(work)
    if what_for != CORE_WHOLE and work.plan.use.loom.made == "bench":
        return _new_wire(work)
    return _MENDS[what_for]


def _new_wire(work: SheetWork) -> str:
    """A wire that is crimped at its plugs alone leaves no other one shorter."""
    joined = ["in a splice"] if work.plan.use.loom.splices else []
    joined += ["in the joint list"] if work.joints else []
    but = f"One {' or '.join(joined)}, or no" if joined else "No"
    return (
        "push each of its contacts in until it clicks, and read again. Then once a new wire of "
        "its length, colour and size with new contacts, got first; the old ones out with "
        "the tool for it. "
        f"{but} better: {LOOM}"
    )


def _reached(work: SheetWork) -> str:
    """Whose far end it is, if not that of the line: then no joint is opened for nothing."""
    fused = any(row.side.startswith("far lead") for row in work.joints)
    holder = " (with a fuse's holder on its way, each of its joints)" if fused else ""
    ohms = any(row.what_for == WHYS["to cable"] and row.unit == "Ω" for row in work.ringing)
    over = ", or the ohms are over range" if ohms else ""
    few = ", or too few mV" if any(row.least for row in work.ringing) else ""
    return (
        f"less than {shown(TEST_CURRENT_A)} A flows{over}: supply unclipped, ring its cavity with "
        f"the continuity tester against every bare far end. {_labels(work)} sounds: {LOOM}. None "
        "sounds, or its own alone, or the line reads too much: make anew the joint at which the "
        f"joint list joins the core of this line to the wire{holder}. No better{few}: {LOOM}"
    )


def _labels(work: SheetWork) -> str:
    """Labels of two cables are put right where nothing else tells the two from each other."""
    if not alike_cables(work):
        return "A wrong one"
    return (
        "The same core of some other cable of its length sounds: ring every line of these cables; "
        "at each the same core of one other sounds: only labels and bands are exchanged; put them "
        "right, mid-way too, as the joint list joins. Not at each, or any other wrong core"
    )


def _parted(work: SheetWork) -> str:
    """What parts two points that are joined and must not be: each of them by what it is."""
    kinds = []
    if any(row.joint for row in work.joints):
        kinds.append("at a wire with a joint make the joint anew")
    if work.closed:
        kinds.append(
            f"of an end that is closed off take the sleeve off, cut {_SHORTER_MM} mm off it, ring "
            "it and close it off again, once as well"
        )
    mends = f"Mend both, each as what it is: {'; '.join(kinds)}. " if kinds else ""
    no = "No better, or neither is of these" if len(kinds) > 1 else "No better, or neither is such"
    return (
        "take the others off the bar one by one; when it reads open, the last was joined to it. "
        f"{mends}{no if kinds else 'Nothing bare touches'}: {LOOM}"
    )


def _joint_anew(work: SheetWork) -> str:
    """How a joint is made anew: what a cut takes of each wire, and where that comes from."""
    said = [
        'a joint made anew, once at a place: write "anew" beside its line of the joint list; where '
        f"it stands already: {LOOM}. Warm its sleeve, slit it lengthwise, into no wire, and peel "
        "it off; one that was not heated is used again. Cut the barrel off"
    ]
    if any(row.sleeve_on == "after" and row.joint for row in work.joints):
        said.append(
            f"two wires from the same side: cut both off behind the barrel, {BARE_MM:.0f} mm; the "
            "new joint lies so much nearer to where they come from"
        )
    fused = [row for row in work.joints if row.side.startswith("far lead")]
    if fused:
        said.append("at the lead of a fuse's holder the holder moves towards the core")
    if any(row.sleeve_on == "before" and row not in fused for row in work.joints):
        said.append(
            f"from opposite sides: {BARE_MM:.0f} mm of either wire are gone; for such a joint "
            f"alone cut all ties of the cables, push this cable {PUSHED_MM:.0f} mm towards it, and "
            'tie all again where the ties were; its other cores, "Core" as listed, lie in a small '
            "bow, from which another joint of this cable takes what it needs: no cable is pushed "
            "twice. A flag "
            "that comes under a sleeve moves towards its plug"
        )
    if any(row.sleeve == WRAPPED for row in work.joints):
        said.append("at a clip unwind the tape, bend the clip open, and close a new one there")
    return ". ".join(each[0].upper() + each[1:] if at else each for at, each in enumerate(said))


def _loom_anew(work: SheetWork) -> str:
    """What is bought for another loom: nothing of the one that failed is used again, so that every
    length is as listed."""
    made = work.plan.use.loom.made == "bench"
    own = ", what its own joints take" if any(own_joints(work)) else ""
    what = [f"plugs, contacts, wire{own}" if made else "the loom"]
    what += ["the cables"] if work.cables else []
    used = [used_words(work)] if work.joints else []
    bought = ", ".join([*what, *used, "ties, tape, labels, flags and spares"])
    return (
        f"{LOOM}: begin at step 1. Buy once more what is used up of: {bought}. Nothing of it "
        "crimped, cut or closed off is used again"
    )
