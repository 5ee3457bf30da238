"""The pictures of a circuit one by one, as tests look at them."""

from __future__ import annotations

from markupsafe import Markup

from builder.planning.circuit.model import Circuit
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wiring import Wiring
from builder.rendering.drawings.wiring.pieces import Piece


def wiring_picture(circuit: Circuit, parts: JobParts, key: str) -> Markup:
    """The whole."""
    return Wiring(circuit, parts, key).picture


def wiring_pieces(circuit: Circuit, parts: JobParts, key: str) -> list[Piece]:
    """The pieces for a phone."""
    return Wiring(circuit, parts, key).pieces


def wiring_legend(circuit: Circuit, parts: JobParts) -> Markup:
    """What the signs mean."""
    return Wiring(circuit, parts, "x").legend
