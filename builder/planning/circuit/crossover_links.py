"""A passive crossover: one pair in from the amplifier, one out to the woofer, one to the tweeter.

What it is made of inside is a part between two of its terminals in the plus leg of each way; the
three minus terminals are one inside it. Its maker joined both.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from builder.model.job import Crossover, JobSpeaker
from builder.model.names import crossover_name
from builder.model.words import Channel
from builder.planning.circuit.board import SCREWED, Board
from builder.planning.circuit.hook_up import side_by_side
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Element, EndId, Link, Terminal, Unit
from builder.planning.circuit.terminal_names import SIGNS, legs_of
from builder.planning.circuit.work import CircuitWork
from builder.planning.words import ElementKind

CrossoverBand = Literal["woofer", "tweeter"]
"""Which of its two speakers an output of a crossover is for."""

AS_BUILT = "as its maker built it"
_PARTS: dict[CrossoverBand, tuple[ElementKind, str]] = {
    "woofer": ("low-pass", "lets through what lies below it"),
    "tweeter": ("high-pass", "lets through what lies above it"),
}


class Way(NamedTuple):
    """The way to where a leg begins: the amplifier's terminal, or through a crossover."""

    path: tuple[str, ...]

    @property
    def out(self) -> EndId:
        """The terminal that takes the leg's wire."""
        return self.path[-1]

    @property
    def crossed(self) -> bool:
        """Whether it leads through a crossover, and not only from the amplifier's own terminal."""
        return len(self.path) > 1


def band_of(channel: Channel) -> CrossoverBand:
    """Return which output of a crossover a pair of the car belongs to."""
    return "tweeter" if channel.endswith("-tweeter") else "woofer"


def output_of(crossover: str, band: CrossoverBand) -> str:
    """Return one output of a crossover, as `legs_of` makes its two terminals of."""
    return f"{crossover} {band}"


def lead_to(crossover: str) -> str:
    """Return the short pair from the amplifier to a crossover; with a sign, one wire of it."""
    return f"lead to {crossover}"


def lay_crossover(board: Board, work: CircuitWork, speaker: JobSpeaker, drives: list[EndId]) -> str:
    """Put the crossover of a speaker on, with the lead to it from the amplifier's two terminals;
    return its name."""
    made, place = speaker.crossover, work.amplifier_place(speaker.amplifier)
    assert made is not None, "of a speaker that has one"
    unit = board.unit(crossover_name(speaker.channel), "crossover", place)
    for sign, start in zip(SIGNS, drives, strict=True):
        _lead(board, work, speaker, sign, start)
        _inside(board, unit, made, sign, place)
    return unit


def way_through(board: Board, unit: str, band: CrossoverBand, sign: str) -> Way:
    """Return the way from the input of a crossover to the output of a band."""
    end, out = f"{unit} in {sign}", f"{output_of(unit, band)} {sign}"
    if sign == SIGNS[1]:
        return Way((end, board.joint_of(end, out), out))
    part = board.elements[part_name(unit, band)]
    return Way((end, board.joint_of(end, part.ends[0]), part.id,
                board.joint_of(part.ends[1], out), out))  # fmt: skip


def is_crossover(index: CircuitIndex, unit: str) -> bool:
    """Return whether a name is that of a crossover of the circuit."""
    return unit in index.units and index.units[unit].kind == "crossover"


def feeds(index: CircuitIndex, unit: Unit) -> set[str]:
    """Return the amplifier that a crossover stands beside and is fed by."""
    own = {each.id for each in unit.terminals}
    return {index.unit_of(x.begins).id for x in index.circuit.links if x.finishes in own}


def behind(index: CircuitIndex, link: Link) -> tuple[str, ...]:
    """Return what of a link lies behind the crossover that it begins at; all of any other."""
    unit = index.unit_of(link.begins)
    if unit.kind != "crossover":
        return link.path
    own = {each.id for each in unit.terminals}
    return link.path[max(at for at, each in enumerate(link.path) if each in own) :]


def part_name(unit: str, band: CrossoverBand) -> str:
    """Return what is inside a crossover in the way to a band."""
    return f"{_PARTS[band][0]} of {unit}"


def _lead(board: Board, work: CircuitWork, speaker: JobSpeaker, sign: str, start: EndId) -> None:
    """The short pair from the amplifier to the crossover's input."""
    unit, place = crossover_name(speaker.channel), work.amplifier_place(speaker.amplifier)
    into = board.terminal(
        Terminal(f"{unit} in {sign}", unit, f"in {sign}", "takes", "amplified", needed=True,
                 in_ohm=speaker.nominal_ohm)
    )  # fmt: skip
    piece, length = lead_to(unit), side_by_side(work)
    name, mate = (f"{piece} {each}" for each in (sign, SIGNS[1 - SIGNS.index(sign)]))
    wire = board.wire(
        CircuitWire(name, "amplified", name, piece, "pair", None, work.lead_size(speaker.name),
                    length.m, speaker.amplifier, unit, mate, piece=piece,
                    length_taken=length.taken)
    )  # fmt: skip
    first, last = (
        board.join("terminal", place, *ends, closed_by=SCREWED, undone="with_part")
        for ends in ((start, wire.ends[0]), (wire.ends[1], into))
    )
    board.link(Link(name, "amplified", name, (start, first, wire.id, last, into), mate,
                    speaker.channel))  # fmt: skip


def _inside(board: Board, unit: str, made: Crossover, sign: str, place: str) -> None:
    """One leg of it: a part to each output in the plus, nothing but metal in the minus."""
    end = f"{unit} in {sign}"
    outs = [_output(board, unit, band, sign) for band in _PARTS]
    if sign == SIGNS[1]:
        _join(board, place, end, *outs)
        return
    parts = [_part(board, unit, band, made, place) for band in _PARTS]
    _join(board, place, end, *(part.ends[0] for part in parts))
    for part, out in zip(parts, outs, strict=True):
        _join(board, place, part.ends[1], out)


def _output(board: Board, unit: str, band: CrossoverBand, sign: str) -> EndId:
    plus, minus = legs_of(output_of(unit, band))
    id = plus if sign == SIGNS[0] else minus
    return board.terminal(Terminal(id, unit, f"{band} {sign}", "passes", "amplified", needed=True))


def _part(board: Board, unit: str, band: CrossoverBand, made: Crossover, place: str) -> Element:
    kind, does = _PARTS[band]
    rating = f"{made.corner_hz:g} Hz, {made.slope_db_per_octave} dB/octave"
    purpose = f"{does}, to {output_of(unit, band)}"
    name = part_name(unit, band)
    return board.element(Element(name, kind, made.corner_hz, rating, place, purpose, "amplified"))


def _join(board: Board, place: str, *ends: EndId) -> None:
    board.join("inside", place, *ends, closed_by=AS_BUILT, undone="with_part")
