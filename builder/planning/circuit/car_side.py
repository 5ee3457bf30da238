"""The car's part of a circuit: the radio's sockets, its plugs, its own wires, its speakers."""

from __future__ import annotations

from dataclasses import replace

from builder.model.job import JobSpeaker
from builder.model.plugs import Plug
from builder.model.words import PAIRED, Channel, Function
from builder.model.words import Leg as LegWord
from builder.planning.car.pairs import Leg, Pair, across_ohm
from builder.planning.car.selection import Tap
from builder.planning.car.treatments import driven_wires, is_crossed
from builder.planning.circuit.board import OWN_HOUSING, SCREWED, SLEEVE, Board
from builder.planning.circuit.model import CircuitWire, EndId, Link, Terminal, colours_of
from builder.planning.circuit.terminal_names import (
    RADIO_END,
    SPEAKER_END,
    factory_input,
    factory_speaker,
    plug_name,
    socket_terminal,
    source_name,
)
from builder.planning.circuit.work import CircuitWork
from builder.planning.harness.at_plug import loom_name
from builder.planning.power.conductors import conductor_of
from builder.planning.words import LinkClass, UnitKind

CUT_FROM_PLUG_M = 0.075
"""How much of a cut wire stays at the plug, so that it can be joined again. Common practice."""

SELF_LIMITING: frozenset[Function] = frozenset({"amplifier_on"})
"""Functions whose output limits itself far below any wire: no fuse of its own at the tap."""

_FROM_THE_RADIO: frozenset[Function] = SELF_LIMITING | PAIRED
FED_AS: dict[Function, LinkClass] = {
    "constant": "supply",
    "constant_sleeps": "supply",
    "ground": "ground",
}
"""What a wire of the car feeds a device as; every other that is joined at switches."""

CAR_WIRE = "the car's own wire"
LEG_SIGNS: dict[LegWord, str] = {"positive": "+", "negative": "−"}


def lay_car_pairs(board: Board, work: CircuitWork) -> None:
    """Put every touched pair on: socket, plug, wire or its two halves, speaker."""
    for tap in work.selection.touched:
        for leg in tap.pair.legs:
            plug_terminal(board, leg, tap.pair)
            _speaker_terminal(board, work, leg, tap.pair)
            if tap.treatment == "intercept" and leg.plug.id in work.looms:
                lay_behind_loom(board, work, leg, tap.pair)
            elif tap.treatment == "intercept":
                _cut_wire(board, work, leg, tap.pair)
            else:
                _whole_wire(board, work, leg, tap)


def plug_terminal(
    board: Board, leg: Leg, pair: Pair | None = None, *, is_used: bool = True
) -> EndId:
    """Put a cavity on with what it is plugged into; return the cavity.

    What plays and what switches an amplifier comes out of the radio; supply, ground and the
    switched lines come from the car, and the radio takes them too. A wire that only passes through
    a loom (`is_used` is false) is neither: what it carries is no affair of the job.
    """
    source = source_name(leg.plug.unit)
    socket = board.unit(f"{source} socket {leg.plug.id}", "radio", source)
    plug = board.unit(plug_name(leg.plug), "plug", source, leg.plug.id)
    other: LinkClass = "control" if is_used else "through"
    carries = "speaker_level" if pair is not None else FED_AS.get(leg.pin.function, other)
    floating = pair is not None and pair.topology != "common_ground"
    inside = Terminal(
        socket_terminal(leg.plug.unit, leg.name), socket, leg.pin.cavity, "drives", carries,
        floating=floating, max_ma=leg.pin.max_source_ma,
    )  # fmt: skip
    cavity = Terminal(
        leg.name, plug, leg.pin.cavity, "passes", carries, floating=floating,
        limits_itself=leg.pin.function in SELF_LIMITING, wire=leg.pin.wire,
        colour=colours_of(leg.pin.wire) if leg.pin.wire else "",
    )  # fmt: skip
    if carries == "through":
        inside = replace(inside, role="passes")
    elif leg.pin.function not in _FROM_THE_RADIO:
        inside = replace(inside, role="takes")
        cavity = replace(cavity, role="passes" if carries == "ground" else "drives")
    _plugged_home(board, leg.plug, board.terminal(inside), board.terminal(cavity))
    return cavity.id


def fuse_position_terminal(
    board: Board, position: str, carries: LinkClass, max_ma: float | None
) -> EndId:
    """Put a position of the fuse panel on; return its terminal."""
    unit = board.unit(f"fuse position {position}", "fuse_position", "fuse panel")
    return board.terminal(Terminal(position, unit, position, "drives", carries, max_ma=max_ma))


def _plugged_home(board: Board, plug: Plug, inside: EndId, cavity: EndId) -> None:
    between = loom_name(plug.id) in board.units
    if between or any({cavity, inside} <= {*joint.joins} for joint in board.joints):
        return
    board.join("plug_home", plug_name(plug), inside, cavity, closed_by=OWN_HOUSING, undone="unplug")


def speaker_terminal_id(work: CircuitWork, leg: Leg, pair: Pair) -> EndId:
    """Return the terminal that a leg leads to: of the car's own speaker, or one in its place."""
    return f"{_speaker(work, pair)} {LEG_SIGNS[leg.pin.leg or 'positive']}"


def new_speaker_on(work: CircuitWork, pair: Pair) -> JobSpeaker | None:
    """Return the new speaker that stands in the place of the car's own, on the car's own wire."""
    speaker = _driven(work).get(pair.channel)
    return speaker if speaker is not None and not speaker.existing else None


def _driven(work: CircuitWork) -> dict[Channel, JobSpeaker]:
    broken = {tap.pair.channel for tap in work.selection.broken}
    return driven_wires(work.parts.job, dict.fromkeys(broken))


def halves(leg: Leg) -> tuple[str, str]:
    """Return the ids of the two halves of a cut wire: at the plug, to the speaker."""
    return _half(leg, RADIO_END), _half(leg, SPEAKER_END)


def _half(leg: Leg, which: str) -> str:
    return f"{leg.name} {which}"


def _speaker(work: CircuitWork, pair: Pair) -> str:
    new = new_speaker_on(work, pair)
    if new is not None:
        return new.name
    return factory_input(pair.channel) if pair.is_line else factory_speaker(pair.channel)


def _speaker_terminal(board: Board, work: CircuitWork, leg: Leg, pair: Pair) -> None:
    new, name = new_speaker_on(work, pair), LEG_SIGNS[leg.pin.leg or "positive"]
    if new is not None:
        board.unit(new.name, "speaker", f"place of the {factory_speaker(pair.channel)}")
        board.terminal(Terminal(speaker_terminal_id(work, leg, pair), new.name, name, "takes",
                                "amplified", needed=True, in_ohm=new.nominal_ohm))  # fmt: skip
        return
    kind: UnitKind = "factory_input" if pair.is_line else "factory_speaker"
    unit = board.unit(
        _speaker(work, pair), kind, "factory amplifier" if pair.is_line else pair.channel
    )
    ohm = pair.carries.speaker_ohm if pair.carries else None
    ohm = across_ohm(pair) if pair.is_line else ohm
    board.terminal(
        Terminal(
            speaker_terminal_id(work, leg, pair), unit, name, "takes", "speaker_level", in_ohm=ohm
        )
    )


def _car_wire(
    leg: Leg, id: str, length_m: float | None, from_place: str, to_place: str, pair: Pair, mate: str
) -> CircuitWire:
    return CircuitWire(
        id, "speaker_level", leg_name(pair, leg), CAR_WIRE, leg.name, leg.pin.wire,
        conductor_of(leg.pin.wire), length_m, from_place, to_place, mate, stays=True,
    )  # fmt: skip


def leg_name(pair: Pair, leg: Leg) -> str:
    """Return a leg of a pair in words: "front left +"."""
    return f"{pair.named} {LEG_SIGNS[leg.pin.leg or 'positive']}"


def _other(leg: Leg, pair: Pair) -> Leg:
    return pair.negative if leg is pair.positive else pair.positive


def _whole_wire(board: Board, work: CircuitWork, leg: Leg, tap: Tap) -> None:
    """A wire that is only listened to plays its speaker as before."""
    pair = tap.pair
    whose = "the factory amplifier" if pair.is_line else "its speaker"
    mate = f"{_other(leg, pair).name} wire"
    wire = board.wire(
        _car_wire(
            leg, f"{leg.name} wire", None, plug_name(leg.plug), _speaker(work, pair), pair, mate
        )
    )
    first, last = _at_both_ends(board, work, leg, wire, pair)
    board.link(
        Link(f"{leg.name} to {whose}", "speaker_level", f"{wire.purpose} to {whose}",
             (leg.name, first, wire.id, last, speaker_terminal_id(work, leg, pair)),
             f"{_other(leg, pair).name} to {whose}", pair.channel)
    )  # fmt: skip


def _at_both_ends(
    board: Board, work: CircuitWork, leg: Leg, wire: CircuitWire, pair: Pair
) -> tuple[str, str]:
    """Join a wire of the car to its cavity and its speaker, as its maker did."""
    first = board.join(
        "terminal", plug_name(leg.plug), leg.name, wire.ends[0], closed_by=OWN_HOUSING,
        undone="with_part",
    )  # fmt: skip
    return first, _at_speaker(board, work, leg, wire.ends[1], pair)


def _at_speaker(board: Board, work: CircuitWork, leg: Leg, end: EndId, pair: Pair) -> str:
    """Join the car's wire to its own speaker, as its maker did, or to the one in its place."""
    terminal = speaker_terminal_id(work, leg, pair)
    if new_speaker_on(work, pair) is None:
        return board.join("terminal", _speaker(work, pair), end, terminal, closed_by=SCREWED,
                          undone="with_part")  # fmt: skip
    place = board.units[_speaker(work, pair)].place
    return board.join("terminal", place, end, terminal, closed_by=SLEEVE, undone="put_back")


def lay_behind_loom(board: Board, work: CircuitWork, leg: Leg, pair: Pair) -> None:
    """The whole wire from the car's plug, which goes into a loom that is cut in its place."""
    id, mate = f"{leg.name} wire", f"{_other(leg, pair).name} wire"
    whole = _car_wire(leg, id, None, plug_name(leg.plug), _speaker(work, pair), pair, mate)
    _at_both_ends(board, work, leg, board.wire(_as_measured(work, whole, pair.channel)), pair)


def way_to_speaker(board: Board, work: CircuitWork, leg: Leg, pair: Pair) -> tuple[str, ...]:
    """Return the whole wire behind a loom, from its cavity to the terminal of the speaker."""
    wire = board.wires[f"{leg.name} wire"]
    first, last = (board.joint_at(end) for end in wire.ends)
    return leg.name, first, wire.id, last, speaker_terminal_id(work, leg, pair)


def _as_measured(work: CircuitWork, wire: CircuitWire, channel: Channel) -> CircuitWire:
    """The half that leads to a speaker, of the size and length that the job gives it; behind a
    crossover that is the woofer's, and the tweeter's stays as the car's record has it."""
    driven = _driven(work)
    speaker = driven.get(channel)
    lead = speaker.existing_lead if speaker else None
    if speaker is None or lead is None:
        return wire
    wires = [name for name, each in driven.items() if each is speaker]
    is_tweeters = is_crossed(speaker, wires) and channel == wires[-1]
    own = wire.size if is_tweeters else None
    return replace(wire, size=own or conductor_of(lead), length_m=lead.length_m)


def _cut_wire(board: Board, work: CircuitWork, leg: Leg, pair: Pair) -> None:
    """The two halves: what stays at the plug, and what leads to the speaker."""
    plug = plug_name(leg.plug)
    near, far = halves(leg)
    mates = halves(_other(leg, pair))
    stub = board.wire(_car_wire(leg, near, CUT_FROM_PLUG_M, plug, plug, pair, mates[0]))
    onward = _car_wire(leg, far, None, plug, _speaker(work, pair), pair, mates[1])
    rest = board.wire(_as_measured(work, onward, pair.channel))
    board.join("terminal", plug, leg.name, stub.ends[0], closed_by=OWN_HOUSING, undone="with_part")
    _at_speaker(board, work, leg, rest.ends[1], pair)
