"""From the converter's line outputs to what each amplifier channel hears."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.words import Channel
from builder.planning.car.line_feeds import ChannelFeed, LineFeed
from builder.planning.circuit.board import OWN_HOUSING, Board
from builder.planning.circuit.hook_up import line_length_m
from builder.planning.circuit.model import CircuitWire, EndId, Link, Terminal
from builder.planning.circuit.terminal_names import heard_by, line_input, line_output, shield_of
from builder.planning.circuit.units import amplifier_unit, converter_unit
from builder.planning.circuit.work import CircuitWork
from builder.planning.circuit.y_leads import LeadStart, lay_forks
from builder.planning.levels.line_load import input_ohm

CENTRE, SHIELD = "centre", "shield"


@dataclass(frozen=True, slots=True)
class _Lead:
    """A line lead to one input, and where it is plugged in at its near end."""

    feed: LineFeed
    start: LeadStart
    channel: Channel | None  # that a speaker has which hears it

    @property
    def name(self) -> str:
        """Of the input."""
        return self.feed.socket.words

    @property
    def piece(self) -> str:
        return f"line lead to {self.feed.amplifier} {self.name}"


def lay_lines(board: Board, work: CircuitWork) -> None:
    """Put a line lead on for every line input in use, and what amplifiers join inside."""
    starts = _starts(board, work)
    for feed in work.selection.used_leads:
        lead = _Lead(feed, starts[feed], _channel_hearing(work, feed))
        _lay_conductor(board, work, lead, CENTRE)
        _lay_conductor(board, work, lead, SHIELD)
    for channel in work.selection.channels:
        _lay_inside(board, work, channel)


def _starts(board: Board, work: CircuitWork) -> dict[LineFeed, LeadStart]:
    """Where each lead is plugged in: in its output, or in a Y-lead that several share."""
    sharing: dict[int, list[LineFeed]] = {}
    for feed in work.selection.used_leads:
        sharing.setdefault(feed.output, []).append(feed)
    found: dict[LineFeed, LeadStart] = {}
    for number, feeds in sharing.items():
        centre, shield = output_terminals(board, work, number)
        output = LeadStart(work.converter, (centre,), (shield,))
        starts = lay_forks(board, work.converter_place, output, len(feeds))
        found |= dict(zip(feeds, starts, strict=True))
    return found


def _channel_hearing(work: CircuitWork, feed: LineFeed) -> Channel | None:
    """The factory channel of the first speaker that hears a lead."""
    for load in work.loads.values():
        heard = work.selection.heard_by(load.amplifier, load.number)
        if load.amplifier == feed.amplifier and feed.socket in heard.sockets:
            return load.speakers[0].channel
    return None


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


def _input_terminal(board: Board, work: CircuitWork, lead: _Lead, part: str) -> EndId:
    unit = amplifier_unit(board, work, lead.feed.amplifier)
    centre = line_input(unit, lead.feed.socket)
    if part == SHIELD:
        name = f"{lead.name} {SHIELD}"
        return board.terminal(Terminal(shield_of(centre), unit, name, "passes", "line"))
    chosen = work.parts.amplifiers.get(unit)
    ohm = input_ohm(chosen, lead.feed.socket, work.defaults) if chosen else None
    return board.terminal(
        Terminal(centre, unit, lead.name, "takes", "line", needed=True, in_ohm=ohm)
    )


def _lay_conductor(board: Board, work: CircuitWork, lead: _Lead, part: str) -> None:
    amplifier, other = lead.feed.amplifier, SHIELD if part == CENTRE else CENTRE
    way = lead.start.centre if part == CENTRE else lead.start.shield
    end = _input_terminal(board, work, lead, part)
    purpose, mate = f"{lead.piece} {part}", f"{lead.piece} {other}"
    length = lead.feed.length_m or line_length_m(work, amplifier)
    wire = board.wire(
        CircuitWire(
            purpose, "line", purpose, lead.piece, part, None, None, length,
            lead.start.unit, amplifier, mate, piece=lead.piece,
            made_here=lead.feed.made == "at_the_bench",
        )
    )  # fmt: skip
    first = _plugged(board, work.converter_place, way[-1], wire.ends[0])
    last = _plugged(board, work.amplifier_place(amplifier), wire.ends[1], end)
    path = (*way, first, wire.id, last, end)
    board.link(Link(purpose, "line", purpose, path, mate, lead.channel))


def _plugged(board: Board, place: str, one: EndId, other: EndId) -> str:
    return board.join("line_plug", place, one, other, closed_by=OWN_HOUSING, undone="with_part")


def _lay_inside(board: Board, work: CircuitWork, heard: ChannelFeed) -> None:
    """What an amplifier brings a channel from the inputs of others, by a switch or always."""
    unit, number = heard.amplifier, heard.channel
    for socket in heard.sockets:
        start = line_input(unit, socket)
        if heard.takes == "own" or unit not in board.units or not board.has(start):
            continue
        end = board.terminal(
            Terminal(heard_by(unit, number), unit, f"channel {number}", "takes", "line",
                     needed=True)
        )  # fmt: skip
        purpose = f"{unit} {socket.words} to its channel {number}"
        channel = _speaker_channel(work, heard)
        board.link(Link(purpose, "line", purpose, (start, end), None, channel, heard.setting))


def _speaker_channel(work: CircuitWork, heard: ChannelFeed) -> Channel | None:
    load = work.loads.get((heard.amplifier, heard.channel))
    return load.speakers[0].channel if load else None
