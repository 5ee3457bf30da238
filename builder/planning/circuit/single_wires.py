"""Wires that lie by themselves, and fuses in holders of their own: put on in one way by all."""

from __future__ import annotations

from typing import NamedTuple

from builder.planning.circuit.board import Board
from builder.planning.circuit.model import CircuitWire, Element
from builder.planning.power.conductors import Conductor
from builder.planning.words import LinkClass
from builder.units import Amperes, Metres

SINGLE_WIRE = "single wire"


class Length(NamedTuple):
    """How long a wire is: as somebody measured it, along a measured way with slack, or taken."""

    m: Metres | None
    route_m: Metres | None = None
    taken: str = ""
    way: str = ""  # what it lies along


def lay_single(
    board: Board, id: str, carries: LinkClass, size: Conductor | None, length: Length,
    from_place: str,
    to_place: str,
) -> CircuitWire:  # fmt: skip
    """Put a wire on that is cut from a piece of its own; its id says what it is for."""
    return board.wire(
        CircuitWire(id, carries, id, SINGLE_WIRE, "single", None, size, length.m, from_place,
                    to_place, piece=id, route_m=length.route_m, length_taken=length.taken,
                    way=length.way)
    )  # fmt: skip


def lay_fuse(
    board: Board, id: str, amperes: Amperes | None, place: str, carries: LinkClass = "supply"
) -> Element:
    """Put a fuse on; one that no size fits is on the sheet with the flag that says so."""
    value = amperes or 0.0
    return board.element(Element(id, "fuse", value, f"{value:g} A", place, id, carries))
