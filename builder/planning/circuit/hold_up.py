"""The capacitor that carries a turn-on over a restart, as parts of the circuit."""

from __future__ import annotations

from builder.planning.circuit.board import SCREWED, SLEEVE, Board
from builder.planning.circuit.model import Element, EndId
from builder.planning.circuit.work import CircuitWork
from builder.planning.pack_details import HoldUpPart
from builder.planning.words import ElementKind

DIODE_A = 1.0
HOLDS_UP = "holds up"
HOLD_UP_PARTS = "parts of the hold-up"
"""What capacitor, resistor and diodes are called together, where something has to hold them."""
HOLD_UP_TIES = 2
"""Cable ties that hold them. Common practice, no source."""


def lay_hold_up(
    board: Board, work: CircuitWork, end: EndId, ground: EndId, place: str, node: str
) -> tuple[tuple[str, ...], tuple[EndId, ...]]:
    """Put the hold-up of a node between a conductor's end and what it switches.

    Returns what the link passes, and the ends that meet at what it switches. A diode keeps the
    charge from running back into the car; the capacitor fills through a resistor and empties
    through a diode.
    """
    held = work.hold_up
    if held is None or held.where != node:
        return (), (end,)
    before = _part(board, "diode", DIODE_A, "1 A", place, "before the hold-up")
    charge = _part(board, "resistor", held.charge_ohm, f"{held.charge_ohm:g} Ω 5 W", place,
                   "charges the hold-up")  # fmt: skip
    across = _part(board, "diode", DIODE_A, "1 A", place, "empties the hold-up")
    store = _part(board, "capacitor", held.capacitor_uf, f"{held.capacitor_uf:g} µF 25 V", place,
                  f"{HOLDS_UP} {held.where}")  # fmt: skip
    first = _join(board, place, end, before.ends[0])
    _join(board, place, charge.ends[1], across.ends[0], store.ends[0])
    board.join("terminal", place, store.ends[1], ground, closed_by=SCREWED, undone="with_part")
    return (first, before.id), (before.ends[1], charge.ends[0], across.ends[1])


def hold_up_store(held: HoldUpPart) -> str:
    """Return what the capacitor of a hold-up is called."""
    return f"capacitor that {HOLDS_UP} {held.where}"


def _part(
    board: Board, kind: ElementKind, value: float, rating: str, place: str, purpose: str
) -> Element:
    return board.element(
        Element(f"{kind} that {purpose}" if purpose[0] != "b" else f"{kind} {purpose}", kind,
                value, rating, place, purpose, "control")
    )  # fmt: skip


def _join(board: Board, place: str, *ends: EndId) -> str:
    return board.join("element_lead", place, *ends, closed_by=SLEEVE, undone="with_part")
