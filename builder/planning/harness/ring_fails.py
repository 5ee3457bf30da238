"""What to do when a line of a ring-out fails: an answer for each thing that a line is for."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.harness.bench_counts import tie_count
from builder.planning.harness.bench_marks import folded_floors
from builder.planning.harness.cables_of import roll_spare_m
from builder.planning.harness.joint_places import BARE_MM
from builder.planning.harness.marks import PUSHED_MM, plug_labels_mm
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.ring_rows import CORE_APART, CORE_WHOLE, WHYS
from builder.planning.harness.rows import LoomCableRow
from builder.planning.harness.sheet_work import SheetWork

_SHORTER_MM = 5
"""What comes off an end that is closed off anew. Common practice, no source."""


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
        yield _again(work)
    said = " ".join(mends.values())
    if _CABLE_BELOW in said:
        yield _another_cable(work)
    if _LOOM_BELOW in said:
        yield _another_loom(work)
    off = ", all contacts and far ends off the bar first" if work.bundle else ""
    yield f"after any of it begin at line 1 again{off}"


_CABLE_BELOW = "another cable, as told below"
_LOOM_BELOW = "another loom, as told below"
_NEW_WIRES = "make its crimps and its splice anew, with new wires of the same length"
_JOINT = "make the joints of this wire anew"
_CORE = "make one joint anew, that at which the joint list joins the core of this line to the wire"
_OPEN = (WHYS["broken"], WHYS["apart"], WHYS["closed off"], CORE_APART)
_MENDS: dict[str, str] = {
    WHYS["through"]: f"the loom itself is at fault, or a wrong wire was cut: {_LOOM_BELOW}",
    WHYS["to branch"]: _JOINT,
    WHYS["joined"]: _JOINT,
    CORE_WHOLE: f"a core of the cable is hurt: {_CABLE_BELOW}",
}


def _mend(work: SheetWork, what_for: str) -> str:
    """A wire that no joint lies in is mended only where the loom itself is made here."""
    own = (WHYS["through"], WHYS["to branch"], WHYS["joined"])
    if what_for in _OPEN:
        return _parted(work)
    if what_for == WHYS["to cable"]:
        return f"{_CORE}. {_rung(work)}"
    if what_for in own and work.plan.use.loom.made == "bench":
        return _NEW_WIRES
    return _MENDS[what_for]


def _rung(work: SheetWork) -> str:
    """What is found out before a joint is crimped anew: a break that no joint mends."""
    return (
        "Before its new crimp ring both with the continuity tester: the wire from its cavity, the "
        f"core from its far end. The wire silent: {_wire_anew(work)}; the core silent, or no "
        f"better after it: {_CABLE_BELOW}"
    )


def _wire_anew(work: SheetWork) -> str:
    """A wire of a loom that was bought is not exchanged: nothing is put into its plugs."""
    return "a new one of the same length" if work.plan.use.loom.made == "bench" else _LOOM_BELOW


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
        f"; at a core of a cable {_CABLE_BELOW}; none to be seen: first the cable"
        if work.cables
        else ""
    )
    return (
        "take the others off the bar one by one; when it reads open, the last was joined to it. "
        f"{mends}No better, or neither is of these: look along both for a nick; at a wire of the "
        f"loom {_wire_anew(work)}{core}"
    )


def _again(work: SheetWork) -> str:
    """How a joint is made anew: what a cut takes of each wire, and where that comes from."""
    said = [
        "a joint made anew: warm its sleeve, slit it lengthwise, into no wire, and peel it off; "
        "cut the barrel off; neither is used again"
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
            f"from opposite sides: {BARE_MM:.0f} mm of either wire are gone. Cut all ties of the "
            f"cables, push this cable {PUSHED_MM:.0f} mm towards the joint, and tie all again "
            "where the ties were; no more jacket comes off, and its other cores lie in a small "
            "bow, from which another joint of this cable takes what it needs; a second time at one "
            "place: another cable. A flag that comes under a sleeve moves towards its plug"
        )
    return ". ".join(each[0].upper() + each[1:] if at else each for at, each in enumerate(said))


def _another_cable(work: SheetWork) -> str:
    """What a cable takes that comes in another's place: each wire that it meets is shorter now."""
    spare = max(roll_spare_m([row], row.material, work.defaults) for row in work.cables)
    more = f" and {shown(spare, 1)} m for an end cut off" if spare else ""
    known = [said for row in work.cables if (said := _remade(work, row))]
    cores = (
        f". The wires that it meets are {BARE_MM:.0f} mm shorter then; so take, in the order of "
        f"the joint list: {'; '.join(known)}. Where a joint was made anew before, its core alone "
        f"takes the same {BARE_MM:.0f} mm once more, each time{_exchanged(work)}. Jacket off as "
        f"the longest core needs{folded_floors(work)}"
        if known
        else ""
    )
    return (
        f"another cable: get first what it takes beyond what is to spare: its length{more}, for "
        f"each of its lines in the joint list a barrel and a sleeve, {tie_count(work)} ties, "
        "its labels, bands and the sleeves of its other ends. Cut all ties and, as "
        "for a joint made anew, its joints; then make the new one, as long as listed, mark, lay "
        f"and join it by the steps{cores}"
    )


def _exchanged(work: SheetWork) -> str:
    """The lengths that are told are those of the list as printed, not as somebody changed it."""
    if not any(row.doing == "cut" for row in work.wires):
        return ""
    return (
        f"; after an exchange of flags take Core as it is now, {BARE_MM:.0f} mm more where the "
        f"sleeve goes on before, {BARE_MM:.0f} mm less where after"
    )


def _remade(work: SheetWork, row: LoomCableRow) -> str:
    """The jacket and the cores of one that takes a cable's place."""
    mine = [each for each in work.joints if each.number in row.joints]
    cores = [each.remade_core_mm for each in mine]
    if row.remade_off_mm is None or None in cores:
        return ""
    said = ", ".join(shown(each, 0) for each in cores if each is not None)
    return f"{row.cable} {shown(row.remade_off_mm, 0)} mm off, cores {said} mm"


def _another_loom(work: SheetWork) -> str:
    """What a loom takes that comes in another's place: each core that it meets is shorter now."""
    if not any(row.joint for row in work.joints):
        return "another loom: begin at step 1 with it"
    return (
        "another loom: get it first, with flags, labels for its plugs, ties, and a barrel and a "
        "sleeve for each line of the joint list. Cut all ties, take each joint apart as for one "
        f"made anew, and so {BARE_MM:.0f} mm off each core. Begin at step 1; test leads and cables "
        f"are made: cut no core again; lay each cable with the edge of its jacket "
        f"{_edge_again(work)}"
    )


def _edge_again(work: SheetWork) -> str:
    """Where a jacket lies on another loom: its shortest core, cut off or made anew, decides."""
    edge = work.bundle_edge_mm
    if edge is None:
        return (
            f"{BARE_MM:.0f} mm nearer to its joints, {BARE_MM:.0f} more for each time that one of "
            "them was made anew; a longer core lies in a bow"
        )
    (low, _), least = plug_labels_mm(edge, None)[1] or (0.0, 0.0), edge - PUSHED_MM
    return (
        f"at {edge - BARE_MM:.0f} mm, not {edge:.0f} mm; {BARE_MM:.0f} less for each time that a "
        "joint of it was made anew at one place; of a cable that came as another one, at the least "
        f"that Tip and core as it is now give together, {BARE_MM:.0f} less on the "
        f"{work.plan.ends[0].name}'s half. A longer core lies in a bow; ties by the step; the "
        f"plug's label from {low:.0f} mm to the edge. Under {least:.0f} mm: a new cable, as the "
        "cable list has it"
    )
