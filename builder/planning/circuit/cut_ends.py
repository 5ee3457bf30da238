"""Where a pair of the car is joined: at the cut ends of its own wires, or of a loom's."""

from __future__ import annotations

from typing import Literal

from builder.planning.car.pairs import Leg, Pair
from builder.planning.car.selection import Tap
from builder.planning.circuit.board import Board
from builder.planning.circuit.car_side import halves, speaker_terminal_id, way_to_speaker
from builder.planning.circuit.loom_wires import free_end, loom_cavity, loom_wire, way_to
from builder.planning.circuit.model import EndId, end_of
from builder.planning.circuit.terminal_names import plug_name
from builder.planning.circuit.work import CircuitWork
from builder.planning.harness.planned import LoomPlan
from builder.planning.words import UndoneHow


def loom_at(work: CircuitWork, leg: Leg) -> LoomPlan | None:
    """Return the loom that a leg's plug goes into, or None."""
    return work.looms.get(leg.plug.id)


def place_of(work: CircuitWork, leg: Leg) -> str:
    """Return where a leg is joined: in its loom, or at its plug."""
    plan = loom_at(work, leg)
    return plug_name(leg.plug) if plan is None else plan.use.name


def wire_at(work: CircuitWork, leg: Leg, at: Literal["unit", "car"]) -> str:
    """Return the wire whose end stays open, as a person finds it: the car's, or that of a loom on
    the side of the unit or of the car."""
    plan = loom_at(work, leg)
    if plan is None:
        return leg.wire
    return loom_wire(plan, plan.ends[0 if at == "unit" else 1], leg.pin.cavity)


def undone_of(work: CircuitWork, leg: Leg, how: UndoneHow) -> UndoneHow:
    """Return the way back of a joint at a leg: one in a loom leaves with the loom."""
    return how if loom_at(work, leg) is None else "with_part"


def beside(work: CircuitWork, leg: Leg) -> EndId:
    """Return where a wire is joined beside a leg that stays whole."""
    plan = loom_at(work, leg)
    return leg.name if plan is None else loom_cavity(plan, plan.ends[1], leg.pin.cavity)


def radio_end(work: CircuitWork, tap: Tap, leg: Leg) -> EndId:
    """Return where a leg is joined: the cut end on the radio's side, or beside its cavity."""
    if tap.treatment != "intercept":
        return beside(work, leg)
    plan = loom_at(work, leg)
    if plan is None:
        return end_of(halves(leg)[0], "to")
    return free_end(plan, plan.ends[0], leg.pin.cavity)


def speaker_end(work: CircuitWork, leg: Leg) -> EndId:
    """Return the cut end of a leg that leads to the car's own speaker."""
    plan = loom_at(work, leg)
    if plan is None:
        return end_of(halves(leg)[1], "from")
    return free_end(plan, plan.ends[1], leg.pin.cavity)


def way_from_radio(board: Board, work: CircuitWork, leg: Leg) -> tuple[str, ...]:
    """Return what lies between the radio and a cut end: a cavity, its joint, half a wire."""
    plan = loom_at(work, leg)
    if plan is None:
        near = halves(leg)[0]
        return leg.name, board.joint_at(end_of(near, "from")), near
    return way_to(board, plan, plan.ends[0], leg.pin.cavity)


def way_to_car(board: Board, work: CircuitWork, leg: Leg, pair: Pair) -> tuple[str, ...]:
    """Return what lies between a cut end and the car's own speaker."""
    plan = loom_at(work, leg)
    if plan is None:
        far = halves(leg)[1]
        return far, board.joint_at(end_of(far, "to")), speaker_terminal_id(work, leg, pair)
    back = way_to(board, plan, plan.ends[1], leg.pin.cavity)[::-1]
    home = board.joint_of(back[-1], leg.name)
    return *back, home, *way_to_speaker(board, work, leg, pair)
