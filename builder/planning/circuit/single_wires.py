"""Wires that lie by themselves, and fuses in holders of their own: put on in one way by all."""

from __future__ import annotations

from builder.planning.circuit.board import Board
from builder.planning.circuit.model import CircuitWire, Element
from builder.planning.power.conductors import Conductor
from builder.planning.words import LinkClass
from builder.units import Amperes, Metres

SINGLE_WIRE = "single wire"


def lay_single(
    board: Board, id: str, carries: LinkClass, size: Conductor, length_m: Metres | None,
    from_place: str, to_place: str,
) -> CircuitWire:  # fmt: skip
    """Put a wire on that is cut from a piece of its own; its id says what it is for."""
    return board.wire(
        CircuitWire(id, carries, id, SINGLE_WIRE, "single", None, size, length_m, from_place,
                    to_place, piece=id)
    )  # fmt: skip


def lay_fuse(
    board: Board, id: str, amperes: Amperes | None, place: str, carries: LinkClass = "supply",
    purpose: str = "",
) -> Element:  # fmt: skip
    """Put a fuse on; one that no size fits is on the sheet with the flag that says so."""
    value = amperes or 0.0
    return board.element(Element(id, "fuse", value, f"{value:g} A", place, purpose or id, carries))
