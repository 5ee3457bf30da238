"""Conductors of the job's jackets as wires of the circuit, and the spare ones as open ends."""

from __future__ import annotations

from typing import Final, NamedTuple, TypeAlias

from builder.model.words import Channel
from builder.planning.cables.cut_lengths import cut_length_m
from builder.planning.cables.laying import LaidJacket
from builder.planning.cables.piece_names import cable_name
from builder.planning.circuit.board import SLEEVE, Board
from builder.planning.circuit.model import CircuitWire, OpenEnd
from builder.planning.circuit.single_wires import SINGLE_WIRE
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import conductor_of
from builder.planning.words import DemandKind, LinkClass

SPARE: Final = "spare"
"""What a conductor is for that carries nothing."""
_CLASSES: dict[DemandKind, LinkClass] = {
    "signal": "speaker_level", "amplified": "amplified", "control": "control", "supply": "supply",
}  # fmt: skip


Demand: TypeAlias = tuple[DemandKind, Channel | None]
"""What a conductor is asked for: what it carries, and the channel of a pair."""


class Carrier(NamedTuple):
    """A conductor for one demand, and where it starts and ends: as a route says it, or ""."""

    wire: CircuitWire
    starts_at: str = ""
    ends_at: str = ""


def carrying(
    work: CircuitWork, demand: Demand, at: int, purpose: str,
    mate: str | None = None, *, bare: str = "",
) -> Carrier | None:  # fmt: skip
    """Return the conductor that carries a demand's leg: of a jacket; of a plan, for which nobody
    chose a cable, a wire of which only its purpose is known, `bare` in short; None where a job's
    cables have none.
    """
    carried = work.carried(*demand)
    if carried:
        laid, place = carried[at]
        way = laid.route
        return Carrier(jacket_wire(work, laid, place, purpose), way.from_place, way.to_place)
    if not work.unchosen:
        return None
    kind = _CLASSES[demand[0]]
    return Carrier(
        CircuitWire(
            purpose, kind, bare or purpose, SINGLE_WIRE, "single", None, None, None, "", "", mate
        )
    )


def jacket_wire(work: CircuitWork, laid: LaidJacket, place: str, purpose: str) -> CircuitWire:
    """Return the conductor at a place of a jacket, for a purpose."""
    use = next(each for each in laid.jacket.uses if each.place == place)
    kind: DemandKind = use.demand.kind if use.demand else "control"
    jacket = cable_name(laid.jacket.number)
    return CircuitWire(
        f"{jacket} {place}", _CLASSES[kind], purpose, jacket, place, use.wire,
        conductor_of(laid.cable, laid.cable.material),
        cut_length_m(laid.route.length_m, work.defaults),
        laid.jacket.from_end, laid.jacket.to_end, _mate(jacket, place), piece=jacket,
        cable=laid.cable.id, route_m=laid.route.length_m, way=", ".join(laid.route.zones),
    )  # fmt: skip


def _mate(jacket: str, place: str) -> str | None:
    """The other conductor of a pair; None of a single."""
    for one, other in (("positive", "negative"), ("negative", "positive")):
        if place.endswith(one):
            return f"{jacket} {place.removesuffix(one)}{other}"
    return None


def lay_spares(board: Board, work: CircuitWork) -> None:
    """Put the conductors on that carry nothing: each end is closed off by itself."""
    because = "carries nothing; insulate it alone, never twisted together with another"
    for laid in work.laying.jackets:
        for use in laid.jacket.spare:
            if f"{cable_name(laid.jacket.number)} {use.place}" in board.wires:
                continue
            wire = board.wire(jacket_wire(work, laid, use.place, SPARE))
            for end, at in zip(wire.ends, (wire.from_place, wire.to_place), strict=True):
                what = f"{use.colours} ({use.place}) of {wire.lies_in}, {at} end"
                board.leave_open(OpenEnd(end, what, at, because, SLEEVE))
