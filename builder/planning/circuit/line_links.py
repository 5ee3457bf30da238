"""From the converter's line outputs to the amplifiers' line inputs, Y-leads included."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.model.words import Channel
from builder.planning.car.selection import LineOutput
from builder.planning.car.treatments import sources_of
from builder.planning.circuit.board import OWN_HOUSING, Board
from builder.planning.circuit.hook_up import line_length_m
from builder.planning.circuit.model import CircuitWire, EndId, Link, Terminal
from builder.planning.circuit.terminal_names import line_output, shield_of
from builder.planning.circuit.units import amplifier_unit, converter_unit
from builder.planning.circuit.work import CircuitWork
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.words import JointKind

CENTRE, SHIELD = "centre", "shield"


@dataclass(frozen=True, slots=True)
class _Lead:
    """A line lead to one input, and how it is joined at the converter."""

    load: ChannelLoad
    name: str  # of the input
    piece: str
    kind: JointKind


def lay_lines(board: Board, work: CircuitWork) -> None:
    """Put a line lead on for every line input in use."""
    taken: set[int] = set()
    for load in work.loads.values():
        pairs = {tap.pair.channel: tap.pair for tap in work.selection.taps}
        wanted = sources_of(load.speakers[0], pairs)
        for number, side in feeding_outputs(work.selection.outputs or (), wanted):
            name = f"in {load.number}{f' {side}' if side else ''}"
            _lay_input(board, work, load, number, name, taken)


def feeding_outputs(
    outputs: Sequence[LineOutput], channels: Iterable[Channel]
) -> tuple[tuple[int, str], ...]:
    """Return the line outputs that together play some channels, each with the side it goes to.

    One output that plays them all has no side; a channel that adds up its own inputs calls them
    left and right.
    """
    wanted = set(channels)
    numbered = list(enumerate(outputs, 1))
    whole = [number for number, out in numbered if set(out.channels) == wanted]
    if whole:
        return ((whole[0], ""),)
    parts = [number for number, out in numbered if set(out.channels) <= wanted]
    return tuple(zip(parts, ("left", "right") if len(parts) > 1 else ("",), strict=False))


def output_terminals(board: Board, work: CircuitWork, number: int) -> tuple[EndId, EndId]:
    """Put a line output of the converter on; return centre and shield."""
    unit, ohm = converter_unit(board, work), work.parts.converter.output.impedance_ohm
    plays = (work.selection.outputs or ())[number - 1].channels
    return (
        board.terminal(Terminal(line_output(unit, number), unit, f"out {number}", "drives", "line",
                                needed=True, out_ohm=ohm, plays=plays)),
        board.terminal(Terminal(shield_of(line_output(unit, number)), unit, f"out {number} shield",
                                "passes", "line")),
    )  # fmt: skip


def _lay_input(
    board: Board, work: CircuitWork, load: ChannelLoad, number: int, name: str, taken: set[int]
) -> None:
    """Centre and shield of the lead to one input; a second one on an output needs a Y-lead."""
    kind: JointKind = "y_lead" if number in taken else "line_plug"
    lead = _Lead(load, name, f"line lead to {load.amplifier} {name}", kind)
    centre, shield = output_terminals(board, work, number)
    _lay_conductor(board, work, lead, CENTRE, centre)
    _lay_conductor(board, work, lead, SHIELD, shield)
    taken.add(number)


def _input_terminal(board: Board, work: CircuitWork, lead: _Lead, part: str) -> EndId:
    unit = amplifier_unit(board, work, lead.load.amplifier)
    if part == SHIELD:
        name = f"{lead.name} {SHIELD}"
        return board.terminal(Terminal(f"{unit} {name}", unit, name, "passes", "line"))
    ohm = work.defaults.amplifier_input_ohm
    return board.terminal(
        Terminal(f"{unit} {lead.name}", unit, lead.name, "takes", "line", needed=True, in_ohm=ohm)
    )


def _lay_conductor(board: Board, work: CircuitWork, lead: _Lead, part: str, start: EndId) -> None:
    amplifier, other = lead.load.amplifier, SHIELD if part == CENTRE else CENTRE
    end = _input_terminal(board, work, lead, part)
    purpose, mate = f"{lead.piece} {part}", f"{lead.piece} {other}"
    wire = board.wire(
        CircuitWire(
            purpose, "line", purpose, lead.piece, part, None, None, line_length_m(work, amplifier),
            work.converter, amplifier, mate, piece=lead.piece,
        )
    )  # fmt: skip
    near, far = work.converter_place, work.amplifier_place(amplifier)
    first = board.join(
        lead.kind,
        near,
        start,
        wire.ends[0],
        closed_by=OWN_HOUSING,
        undone="with_part",
    )
    last = board.join(
        "line_plug",
        far,
        wire.ends[1],
        end,
        closed_by=OWN_HOUSING,
        undone="with_part",
    )
    channel = lead.load.speakers[0].channel
    path = (start, first, wire.id, last, end)
    board.link(Link(purpose, "line", purpose, path, mate, channel))
