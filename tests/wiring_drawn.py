"""The pictures of a circuit one by one, as tests look at them."""

from __future__ import annotations

from markupsafe import Markup

from builder.planning.circuit.model import Circuit
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wiring import wiring_of
from builder.rendering.drawings.wiring.pictures import Wiring, housings_of
from builder.rendering.drawings.wiring.pieces import Piece


def wiring_picture(circuit: Circuit, parts: JobParts) -> Markup:
    """The whole, behind the signs that it refers to."""
    wiring = Wiring(circuit, housings_of(parts), traced=True)
    return wiring.signs + wiring.picture(parts.job.title)


def wiring_pieces(circuit: Circuit, parts: JobParts) -> list[Piece]:
    """The pieces for a phone, each behind the signs that it refers to."""
    wiring = Wiring(circuit, housings_of(parts), traced=True)
    signs = wiring.signs
    return [piece._replace(drawing=signs + piece.drawing) for piece in wiring.pieces]


def wiring_legend(circuit: Circuit, parts: JobParts) -> Markup:
    """What the signs mean."""
    return wiring_of(circuit, parts).legend
