"""The circuit of a job, put together in the order in which the work goes on."""

from __future__ import annotations

from builder.planning.circuit.amplified_links import lay_amplified
from builder.planning.circuit.board import Board
from builder.planning.circuit.car_side import lay_car_pairs
from builder.planning.circuit.coil_returns import lay_coil_returns
from builder.planning.circuit.control_links import lay_control
from builder.planning.circuit.extras import lay_open_inputs, lay_stand_ins
from builder.planning.circuit.jackets import lay_spares
from builder.planning.circuit.line_links import lay_lines
from builder.planning.circuit.loom_unit import finish_looms, lay_looms
from builder.planning.circuit.model import Circuit
from builder.planning.circuit.signal_links import lay_signals
from builder.planning.circuit.supply_links import lay_supply
from builder.planning.circuit.work import CircuitWork


def make_circuit(work: CircuitWork) -> Circuit:
    """Return every terminal, conductor, joint and element of the finished job."""
    board = Board()
    lay_looms(board, work)
    lay_car_pairs(board, work)
    lay_signals(board, work)
    lay_stand_ins(board, work)
    lay_lines(board, work)
    lay_amplified(board, work)
    lay_control(board, work)
    lay_supply(board, work)
    lay_coil_returns(board, work)
    lay_open_inputs(board, work)
    lay_spares(board, work)
    finish_looms(board, work)
    return board.circuit()
