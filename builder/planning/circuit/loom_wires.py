"""The wires of a loom in a circuit: what they are called, and where a cut one ends."""

from __future__ import annotations

from builder.model.parts.loom import LoomEnd
from builder.planning.circuit.board import Board
from builder.planning.circuit.model import EndId, end_of
from builder.planning.circuit.terminal_names import loom_terminal
from builder.planning.harness.planned import LoomPlan
from builder.planning.looms.conductors import Conductor, Terminal
from builder.planning.words import EndName

Way = tuple[str, ...]
"""Ids of joints and parts, in order."""


def loom_cavity(plan: LoomPlan, end: LoomEnd, cavity: str) -> EndId:
    """Return the terminal in a cavity of an end."""
    return loom_terminal(plan.use.name, end.name, cavity)


def terminal_of(plan: LoomPlan, point: Terminal) -> EndId:
    """Return the terminal of a point that has a cavity."""
    return loom_terminal(plan.use.name, point.place, point.cavity)


def whole_wire(plan: LoomPlan, wire: Conductor) -> str:
    """Return the id of a wire that stays whole."""
    return f"{plan.use.name} {wire.start.shown} to {wire.to.shown}"


def half_wire(plan: LoomPlan, point: Terminal) -> str:
    """Return the id of the half of a cut wire on the side of a cavity.

    Its end "from" sits in the cavity, "to" is the cut.
    """
    return f"{plan.use.name} {point.shown} half"


def fused_at(plan: LoomPlan, wire: Conductor) -> Terminal | None:
    """Return the end of a wire at which its own fuse lies; None without one.

    The record does not say where in the wire it is: it is drawn where it protects most of it, at
    the splice that it comes from, else at the plug.
    """
    if wire.fuse_a is None:
        return None
    ends, spots = {end.name for end in plan.ends}, (wire.start, wire.to)
    return max(spots, key=lambda spot: (spot.is_splice, spot.place in ends, spot == wire.start))


def fuse_of(plan: LoomPlan, wire: Conductor) -> str:
    """Return the id of the fuse in a wire of a loom."""
    return f"fuse of {plan.use.name} {wire.start.shown} to {wire.to.shown}"


def lead_of(board: Board, plan: LoomPlan, wire: Conductor, spot: Terminal, end: EndId) -> Way:
    """Return what lies between a point of a wire and its end there: a joint; before it the joint
    of its fuse and the fuse, where that lies at the point."""
    if fused_at(plan, wire) != spot:
        return (board.joint_at(end),)
    fuse = fuse_of(plan, wire)
    return board.joint_at(end_of(fuse, "from")), fuse, board.joint_at(end)


def cut_wires(plan: LoomPlan) -> set[Conductor]:
    """Return the wires of a loom that are cut."""
    ends = {end.name: end for end in plan.ends}
    found = (plan.single(ends[cut.at.place], cut.at.cavity) for cut in plan.cuts)
    return {wire for wire in found if wire is not None}


def brought_out(plan: LoomPlan) -> set[Conductor]:
    """Return the wires that a branch brings out and that this job wants there."""
    cavities = [(end, c) for c, w in plan.wanted.items() if w.unit_half for end in plan.ends]
    found = {wire for end, cavity in cavities if (wire := plan.single(end, cavity)) is not None}
    return found - cut_wires(plan)


def free_end(plan: LoomPlan, end: LoomEnd, cavity: str) -> EndId:
    """Return the end that a wanted wire has outside: its cut, its branch's bare end or cavity."""
    point, wire = Terminal(end.name, cavity), plan.single(end, cavity)
    assert wire is not None, "a wanted cavity without a wire of its own is refused"
    if wire in cut_wires(plan):
        return end_of(half_wire(plan, point), "to")
    return far_end(plan, wire, point)


def far_end(plan: LoomPlan, wire: Conductor, point: Terminal) -> EndId:
    """Return the other end of a wire that leaves the loom by a branch."""
    other = wire.other(point)
    if other.cavity:
        return terminal_of(plan, other)
    return end_of(whole_wire(plan, wire), "to" if wire.start == point else "from")


def loom_wire(plan: LoomPlan, end: LoomEnd, cavity: str) -> str:
    """Return the id of the wire in a cavity of an end: of its half, where it is cut."""
    point, wire = Terminal(end.name, cavity), plan.single(end, cavity)
    assert wire is not None, "a wanted cavity without a wire of its own is refused"
    return half_wire(plan, point) if wire in cut_wires(plan) else whole_wire(plan, wire)


def way_to(board: Board, plan: LoomPlan, end: LoomEnd, cavity: str) -> tuple[str, ...]:
    """Return terminal, joint and wire from a cavity to its end outside."""
    point, wire = Terminal(end.name, cavity), plan.single(end, cavity)
    assert wire is not None
    cut = wire in cut_wires(plan)
    id = loom_wire(plan, end, cavity)
    inner, outer = (end_of(id, name) for name in _ends(wire, point, cut=cut))
    way = (loom_cavity(plan, end, cavity), *lead_of(board, plan, wire, point, inner), id)
    if cut or not wire.other(point).cavity:
        return way
    return (*way, board.joint_at(outer), terminal_of(plan, wire.other(point)))


def _ends(wire: Conductor, point: Terminal, *, cut: bool) -> tuple[EndName, EndName]:
    """The end of a wire at a point, then its other end."""
    return ("from", "to") if cut or wire.start == point else ("to", "from")
