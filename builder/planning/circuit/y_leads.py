"""Y-leads in the circuit: one plug to two sockets, one behind the other where three leads hang."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.circuit.board import OWN_HOUSING, Board
from builder.planning.circuit.model import EndId, Terminal
from builder.planning.circuit.terminal_names import shield_of

AS_MOULDED = "as its maker moulded it"
SOCKETS = 2
Way = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LeadStart:
    """Where a line lead is plugged in: of a unit, with the ways there of centre and shield.

    Each way runs from the converter's output to the terminal that takes the lead's plug.
    """

    unit: str
    centre: Way
    shield: Way


def lay_forks(board: Board, place: str, start: LeadStart, leads: int) -> list[LeadStart]:
    """Put as many Y-leads on as an output needs for its leads; return where each is plugged in.

    The first Y-lead takes the last lead: what stands lowest in the picture leaves it first.
    """
    found: list[LeadStart] = []
    onward = start
    for number in range(1, leads):
        onward, aside = _lay(board, place, onward, _name(start.centre[0], number))
        found.insert(0, aside)
    return [onward, *found]


def _name(output: EndId, number: int) -> str:
    """What a Y-lead is called: by its output, from the second on by its number too."""
    return f"Y-lead at {output}" if number == 1 else f"Y-lead {number} at {output}"


def _lay(board: Board, place: str, into: LeadStart, name: str) -> tuple[LeadStart, LeadStart]:
    """One Y-lead, its plug where `into` ends; return its two sockets."""
    unit = board.unit(name, "y_lead", place)
    ways: list[list[Way]] = [[], []]
    for way, is_shield in ((into.centre, False), (into.shield, True)):
        plug, *sockets = (
            _terminal(board, unit, each, is_shield=is_shield)
            for each in ("plug", *(f"socket {at}" for at in range(1, SOCKETS + 1)))
        )
        home = board.join(
            "line_plug", place, way[-1], plug, closed_by=OWN_HOUSING, undone="with_part"
        )
        inside = board.join("y_lead", place, plug, *sockets, closed_by=AS_MOULDED,
                            undone="with_part")  # fmt: skip
        for at, socket in enumerate(sockets):
            ways[at].append((*way, home, plug, inside, socket))
    one, other = ways
    return LeadStart(unit, *one), LeadStart(unit, *other)


def _terminal(board: Board, unit: str, name: str, *, is_shield: bool) -> EndId:
    centre = f"{unit} {name}"
    if is_shield:
        own = f"{name} shield"
        return board.terminal(Terminal(shield_of(centre), unit, own, "passes", "line"))
    return board.terminal(Terminal(centre, unit, name, "passes", "line", needed=True))
