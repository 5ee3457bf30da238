"""A joint made anew, another cable, another loom: what a line that fails ends in."""

from __future__ import annotations

from builder.figures import shown
from builder.planning.harness.bench_counts import tie_count, used_words
from builder.planning.harness.bench_marks import folded_floors
from builder.planning.harness.cables_of import roll_spare_m
from builder.planning.harness.joint_list import remade_mm
from builder.planning.harness.joint_places import BARE_MM
from builder.planning.harness.marks import PUSHED_MM, edge_least_mm
from builder.planning.harness.rows import LoomCableRow, LoomJointRow
from builder.planning.harness.sheet_work import SheetWork

CABLE = "another cable"
LOOM = "another loom"


def joint_anew(work: SheetWork) -> str:
    """Return how a joint is made anew: what a cut takes of each wire, and where that comes from."""
    said = [
        "a joint made anew: warm its sleeve, slit it lengthwise, into no wire, and peel it off; "
        "one that was not heated is used again. Cut the barrel off"
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
        said.append(_pushed(work))
    return ". ".join(each[0].upper() + each[1:] if at else each for at, each in enumerate(said))


def _pushed(work: SheetWork) -> str:
    """Of a joint from opposite sides both lose copper: the cable follows, so far as marks bear."""
    edge = work.bundle_edge_mm
    least = "" if edge is None else f", or its edge would come under {edge_least_mm(edge):.0f} mm"
    return (
        f"from opposite sides: {BARE_MM:.0f} mm of either wire are gone; for such a joint alone "
        f"cut all ties of the cables, push this cable {PUSHED_MM:.0f} mm towards it, and tie all "
        "again where the ties were; no more jacket comes off, and its other cores lie in a small "
        "bow, from which another joint of this cable takes what it needs. A second time at one "
        f"place{least}: {CABLE}. A flag that comes under a sleeve moves towards its plug"
    )


def another_cable(work: SheetWork) -> str:
    """Return what a cable takes that comes in another's place: wires that it meets are shorter."""
    spare = max(roll_spare_m([row], row.material, work.defaults) for row in work.cables)
    more = f" and {shown(spare, 1)} m for an end cut off" if spare else ""
    return (
        f"{CABLE}: get first what it takes beyond what is to spare: its length{more}, for "
        f"each of its lines in the joint list a barrel and a sleeve, {tie_count(work)} ties, "
        "its labels, bands and the sleeves of its other ends. Cut all ties and, as "
        "for a joint made anew, its joints; then make the new one, as long as listed, mark, lay "
        f"and join it by the steps{_cores_anew(work)}"
    )


def _cores_anew(work: SheetWork) -> str:
    """How long its cores are: the first time, after joints made anew, a second time."""
    first = [said for row in work.cables if (said := _remade(work, row, 1))]
    if not first:
        return ""
    again = [said for row in work.cables if (said := _remade(work, row, 2))]
    return (
        f". The wires that it meets are {BARE_MM:.0f} mm shorter then; so take, in the order of "
        f"the joint list: {'; '.join(first)}. Where a joint was made anew before on this loom, its "
        f"core alone takes the same {BARE_MM:.0f} mm once more, each time; if the cable was "
        f"exchanged before, all its cores: {'; '.join(again)}{_exchanged(work)}. Jacket off as "
        f"the longest core needs{folded_floors(work)}"
    )


def _exchanged(work: SheetWork) -> str:
    """The lengths that are told are those of the list as printed, not as somebody changed it."""
    if not any(row.doing == "cut" for row in work.wires):
        return ""
    return (
        f"; after an exchange of flags take Core as it is now, {BARE_MM:.0f} mm more where the "
        f"sleeve goes on before, {BARE_MM:.0f} mm less where after"
    )


def _remade(work: SheetWork, row: LoomCableRow, times: int) -> str:
    """The cores of one that takes a cable's place, for the so manieth time; first its jacket."""
    mine = [each for each in work.joints if each.number in row.joints]
    cores = [_core_anew_mm(each, times) for each in mine]
    if row.remade_off_mm is None or None in cores:
        return ""
    said = ", ".join(shown(each, 0) for each in cores if each is not None)
    off = f" {shown(row.remade_off_mm, 0)} mm off, cores" if times == 1 else ""
    return f"{row.cable}{off} {said} mm"


def _core_anew_mm(row: LoomJointRow, times: int) -> float | None:
    """A core of the cable that is exchanged for the so manieth time on one loom [mm]."""
    core = row.core_mm
    for _ in range(times):
        core = remade_mm(core, row.sleeve_on)
    return core


def another_loom(work: SheetWork) -> str:
    """Return what a loom takes that comes in another's place: the cores that it meets are
    shorter."""
    if not any(row.joint for row in work.joints):
        return f"{LOOM}: begin at step 1 with it"
    return (
        f"{LOOM}: get it first, with flags, labels for its plugs, ties, {used_words(work)}. Cut "
        f"all ties, take each joint apart as for one made anew: {BARE_MM:.0f} mm off each core. "
        "Begin at step 1; test leads and cables are made: cut no core again; lay each cable "
        f"with the edge of its jacket {_edge_again(work)}"
    )


def _edge_again(work: SheetWork) -> str:
    """Where a jacket lies on another loom: of its cores, as they are by then, the one that reaches
    least decides."""
    edge = work.bundle_edge_mm
    first, second = (edge_on_another_mm(work, times) for times in (1, 2))
    if edge is None or first is None or second is None:
        return (
            f"{BARE_MM:.0f} mm nearer to its joints, {BARE_MM:.0f} more for each time that one of "
            "them was made anew; a longer core lies in a bow"
        )
    bare = f"{BARE_MM:.0f}"
    most, one, two, least = (f"{each:.0f}" for each in (edge, first, second, edge_least_mm(edge)))
    return (
        f"at the least that Tip and the core, as it is then, give together, {bare} mm less "
        f"on the {work.plan.ends[0].name}'s half, at most {most} mm: {one} mm where "
        f"nothing was made anew before, a second time {two}. Under "
        f"{least} mm: a new cable, as the cable list has it. A longer core lies "
        "in a bow; ties by the step"
    )


def edge_on_another_mm(work: SheetWork, times: int) -> float | None:
    """Return where the jackets lie on the so manieth other loom, from the unit's end [mm], where
    nothing else was made anew: each time takes what is bared off every core; None: to be measured.
    """
    reaches = [
        row.tip_mm + row.core_mm - BARE_MM * (times + (row.sleeve_on != "after"))
        for row in work.joints
        if row.cable and not row.branch and row.tip_mm is not None and row.core_mm is not None
    ]
    return min(reaches, default=None)
