"""The way back of a relay's coil that the turn-on lead switches, and the diode across it."""

from __future__ import annotations

from builder.model.job import TurnOnLoad
from builder.planning.circuit.board import SCREWED, Board
from builder.planning.circuit.hold_up import DIODE_A
from builder.planning.circuit.hook_up import THINNEST_AWG, side_by_side
from builder.planning.circuit.model import Element, EndId, Link, Terminal
from builder.planning.circuit.single_wires import lay_single
from builder.planning.circuit.terminal_names import across_coil, ground_of, turn_on_of
from builder.planning.circuit.units import amplifier_supply
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import awg


def lay_coil_returns(board: Board, work: CircuitWork) -> None:
    """Put a wire on from each coil to the ground of the device beside it.

    The current comes out of that device's supply and goes back to it, so that no body metal lies
    between. What is no coil has a ground of its own.
    """
    for load in work.parts.job.other_turn_on_loads:
        if load.coil:
            _lay(board, work, load.name)
            _lay_diode(board, load)


def _lay(board: Board, work: CircuitWork, unit: str) -> None:
    coil = board.terminal(
        Terminal(ground_of(unit), unit, "GND", "passes", "ground", needed=True)
    )  # fmt: skip
    ground = _beside(board, work)
    place, home = board.units[unit].place, board.unit_of(ground)
    wire = lay_single(board, f"ground of {unit}", "ground", awg(THINNEST_AWG),
                      side_by_side(work), unit, home)  # fmt: skip
    first = board.join("terminal", place, coil, wire.ends[0], closed_by=SCREWED,
                       undone="with_part")  # fmt: skip
    last = board.join("terminal", board.units[home].place, wire.ends[1], ground, closed_by=SCREWED,
                      undone="with_part")  # fmt: skip
    board.link(Link(wire.id, "ground", wire.id, (coil, first, wire.id, last, ground)))


def _beside(board: Board, work: CircuitWork) -> EndId:
    """The converter's ground, which is where the load is; a passive one has none."""
    own = ground_of(work.converter)
    if board.has(own):
        return own
    return amplifier_supply(board, work, next(iter(work.parts.amplifiers)))[1]


def _lay_diode(board: Board, load: TurnOnLoad) -> None:
    """Across a coil that has none yet, its band at the turn-on: it carries what the coil gives
    when it lets go."""
    if load.diode == "yes":
        return
    name = across_coil(load.name)
    part = board.element(
        Element(name, "diode", DIODE_A, f"{DIODE_A:g} A", board.units[load.name].place,
                f"across the coil of {load.name}, its band at the turn-on", "control")
    )  # fmt: skip
    for terminal, lead in zip(
        (ground_of(load.name), turn_on_of(load.name)), part.ends, strict=True
    ):
        board.add_to_joint(terminal, lead)
