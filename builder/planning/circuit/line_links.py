"""From the converter's line outputs to the amplifiers' line inputs, Y-leads included."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.car.selection import LineOutput
from builder.planning.car.treatments import sources_of
from builder.planning.circuit.board import OWN_SHELL, Board
from builder.planning.circuit.hook_up import line_length_m
from builder.planning.circuit.model import CircuitWire, EndId, Link, Terminal
from builder.planning.circuit.units import amplifier_unit, converter_unit
from builder.planning.circuit.work import CircuitWork
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.words import JointKind

CENTRE, SHELL = "centre", "shell"


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
        for number, input_name in _inputs(work, load):
            _lay_input(board, work, load, number, input_name, taken)


def _inputs(work: CircuitWork, load: ChannelLoad) -> list[tuple[int, str]]:
    """Each line input of a channel in use: the converter's output that feeds it, and its name."""
    outputs = work.selection.outputs or ()
    pairs = {tap.pair.channel: tap.pair for tap in work.selection.taps}
    wanted = set(sources_of(load.speakers[0], pairs))
    whole = [number for number, out in _numbered(outputs) if set(out.channels) == wanted]
    if whole:
        return [(whole[0], f"in {load.number}")]
    parts = [number for number, out in _numbered(outputs) if set(out.channels) <= wanted]
    return [(number, f"in {load.number}{side}") for number, side in zip(parts, _sides(parts),
                                                                          strict=True)]  # fmt: skip


def _numbered(outputs: tuple[LineOutput, ...]) -> list[tuple[int, LineOutput]]:
    return list(enumerate(outputs, 1))


def _sides(numbers: list[int]) -> list[str]:
    """A channel that adds up its own inputs calls them left and right."""
    return [""] if len(numbers) == 1 else [" left", " right"][: len(numbers)]


def output_terminals(board: Board, work: CircuitWork, number: int) -> tuple[EndId, EndId]:
    """Put a line output of the converter on; return centre and shell."""
    unit, ohm = converter_unit(board, work), work.parts.converter.output.impedance_ohm
    return (
        board.terminal(Terminal(f"{unit} out {number}", unit, f"out {number}", "drives", "line",
                                needed=True, out_ohm=ohm)),
        board.terminal(Terminal(f"{unit} out {number} shell", unit, f"out {number} shell",
                                "passes", "line")),
    )  # fmt: skip


def _lay_input(
    board: Board, work: CircuitWork, load: ChannelLoad, number: int, name: str, taken: set[int]
) -> None:
    """Centre and shell of the lead to one input; a second one on an output needs a Y-lead."""
    kind: JointKind = "y_lead" if number in taken else "line_plug"
    lead = _Lead(load, name, f"line lead to {load.amplifier} {name}", kind)
    centre, shell = output_terminals(board, work, number)
    _lay_conductor(board, work, lead, CENTRE, centre)
    _lay_conductor(board, work, lead, SHELL, shell)
    taken.add(number)


def _input_terminal(board: Board, work: CircuitWork, lead: _Lead, part: str) -> EndId:
    unit = amplifier_unit(board, work, lead.load.amplifier)
    if part == SHELL:
        name = f"{lead.name} {SHELL}"
        return board.terminal(Terminal(f"{unit} {name}", unit, name, "passes", "line"))
    ohm = work.defaults.amplifier_input_ohm
    return board.terminal(
        Terminal(f"{unit} {lead.name}", unit, lead.name, "takes", "line", needed=True, in_ohm=ohm)
    )


def _lay_conductor(board: Board, work: CircuitWork, lead: _Lead, part: str, start: EndId) -> None:
    amplifier, other = lead.load.amplifier, SHELL if part == CENTRE else CENTRE
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
        closed_by=OWN_SHELL,
        undone="with_part",
    )
    last = board.join(
        "line_plug",
        far,
        wire.ends[1],
        end,
        closed_by=OWN_SHELL,
        undone="with_part",
    )
    channel = lead.load.speakers[0].channel
    path = (start, first, wire.id, last, end)
    board.link(Link(purpose, "line", purpose, path, mate, channel))
