"""The devices of a job as units of its circuit."""

from __future__ import annotations

from builder.planning.circuit.board import Board
from builder.planning.circuit.model import EndId, Terminal
from builder.planning.circuit.terminal_names import DRIVER, ground_of, supply_of
from builder.planning.circuit.work import CircuitWork
from builder.planning.levels.amplifier_loads import amplifier_current_a
from builder.planning.levels.hung_devices import hung_current_a


def amplifier_unit(board: Board, work: CircuitWork, name: str) -> str:
    """Put an amplifier of the job on; return its id, which is the job's name for it.

    One that nobody has chosen is of no record.
    """
    chosen = work.parts.amplifiers.get(name)
    record = chosen.id if chosen else ""
    return board.unit(name, "amplifier", work.amplifier_place(name), record)


def converter_unit(board: Board, work: CircuitWork) -> str:
    """Put the converter on; return its id, which is its name."""
    return board.unit(work.converter, "converter", work.converter_place, work.parts.converter.id)


def amplifier_supply(board: Board, work: CircuitWork, name: str) -> tuple[EndId, EndId]:
    """Put the supply terminals of an amplifier on; return positive and ground."""
    unit = amplifier_unit(board, work, name)
    if name in work.unchosen:
        return _supply_pair(board, unit, None, None)
    amplifier = work.parts.amplifiers[name]
    thickest = amplifier.power_max_awg
    draws = amplifier_current_a(name, amplifier, work.loads, work.defaults)
    return _supply_pair(board, unit, draws * 1000, thickest)


def converter_supply(board: Board, work: CircuitWork) -> tuple[EndId, EndId]:
    """Put the supply terminals of an active converter on; return positive and ground."""
    unit, draws = converter_unit(board, work), 1000 * hung_current_a(work.parts.converter) or None
    limits = work.parts.converter.terminals
    thickest = limits.wire_max_awg if limits else None
    return _supply_pair(board, unit, draws, thickest)


def driver_supply(board: Board) -> tuple[EndId, EndId]:
    """Put the supply terminals of a turn-on driver on; return positive and ground."""
    return _supply_pair(board, DRIVER, None, None)


def _supply_pair(
    board: Board, unit: str, draw_ma: float | None, thickest_awg: str | None
) -> tuple[EndId, EndId]:
    positive = Terminal(supply_of(unit), unit, "+12 V", "takes", "supply", needed=True,
                        draw_ma=draw_ma, thickest_awg=thickest_awg)  # fmt: skip
    ground = Terminal(ground_of(unit), unit, "GND", "takes", "ground", needed=True,
                      thickest_awg=thickest_awg)  # fmt: skip
    return board.terminal(positive), board.terminal(ground)
