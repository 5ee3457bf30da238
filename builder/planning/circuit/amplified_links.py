"""From an amplifier to its speakers: back into the car's own wire, or by a new lead."""

from __future__ import annotations

from dataclasses import replace

from builder.model.job import Job, JobSpeaker
from builder.model.names import channel_name
from builder.model.words import Channel
from builder.planning.car.output_sums import corner_of
from builder.planning.car.pairs import Pair
from builder.planning.car.treatments import is_crossed, wires_of
from builder.planning.circuit.board import SCREWED, SLEEVE, Board
from builder.planning.circuit.car_side import LEG_SIGNS, leg_name
from builder.planning.circuit.coil_links import lay_coils
from builder.planning.circuit.crossover_links import Way, band_of, lay_crossover, way_through
from builder.planning.circuit.cut_ends import (
    loom_at,
    place_of,
    speaker_end,
    undone_of,
    way_to_car,
    wire_at,
)
from builder.planning.circuit.jackets import Demand, carrying
from builder.planning.circuit.model import CircuitWire, EndId, Link, OpenEnd, Terminal
from builder.planning.circuit.terminal_names import SIGNS
from builder.planning.circuit.units import amplifier_unit
from builder.planning.circuit.work import CircuitWork


def lay_amplified(board: Board, work: CircuitWork) -> None:
    """Put every speaker on that an amplifier of the job drives, and each end that none drives."""
    broken = {tap.pair.channel: tap.pair for tap in work.selection.broken}
    driven = set()
    for speaker in work.parts.job.speakers:
        starts = _starts(board, work, speaker, wires_of(speaker, broken))
        for channel in wires_of(speaker, broken):
            driven.add(channel)
            for at, leg in enumerate(broken[channel].legs):
                start = starts[channel, LEG_SIGNS[leg.pin.leg or "positive"]]
                _lay_return(board, work, speaker.amplifier, broken[channel], at, start)
        if speaker.lead is not None:
            for sign in SIGNS:
                _lay_new(board, work, speaker, sign)
        if not speaker.existing:
            lay_coils(board, work, speaker)
    for pair in (pair for channel, pair in broken.items() if channel not in driven):
        if work.unchosen:
            _lay_unchosen(board, work, work.unchosen[0], pair)
        else:
            _leave_speaker_ends(board, work, pair)


def output_terminal(board: Board, work: CircuitWork, speaker: JobSpeaker, sign: str) -> EndId:
    """Put the amplifier's terminal of a speaker on and return it."""
    unit = amplifier_unit(board, work, speaker.amplifier)
    amplifier = work.parts.amplifiers[speaker.amplifier]
    name = f"out {speaker.channel_name} {sign}"
    return board.terminal(
        Terminal(
            f"{unit} {name}", unit, name, "drives", "amplified", needed=True,
            floating=amplifier.output_floating != "no", thickest_awg=amplifier.speaker_max_awg,
        )
    )  # fmt: skip


def _starts(
    board: Board, work: CircuitWork, speaker: JobSpeaker, wires: tuple[Channel, ...]
) -> dict[tuple[Channel, str], Way]:
    """The way to where each leg of a speaker's pairs begins: the amplifier's own terminal, or an
    output of the crossover before them."""
    if not wires:
        return {}
    drives = {sign: output_terminal(board, work, speaker, sign) for sign in SIGNS}
    if not is_crossed(speaker, wires):
        return {(name, sign): Way((drives[sign],)) for name in wires for sign in SIGNS}
    unit = lay_crossover(board, work, speaker, [drives[sign] for sign in SIGNS])
    return {(name, sign): way_through(board, unit, band_of(name), sign)
            for name in wires for sign in SIGNS}  # fmt: skip


def _lay_unchosen(board: Board, work: CircuitWork, amplifier: str, pair: Pair) -> None:
    """A pair from the amplifier that nobody has chosen: woofer and tweeter from one output."""
    unit = amplifier_unit(board, work, amplifier)
    for at, leg in enumerate(pair.legs):
        name = f"out {channel_name(corner_of(pair.channel))} {LEG_SIGNS[leg.pin.leg or 'positive']}"
        start = board.terminal(
            Terminal(f"{unit} {name}", unit, name, "drives", "amplified", needed=True)
        )
        _lay_return(board, work, amplifier, pair, at, Way((start,)))


def _lay_return(
    board: Board, work: CircuitWork, amplifier: str, pair: Pair, at: int, start: Way
) -> None:
    """A pair back to where the car's wire was cut, and on to the car's own speaker."""
    leg, other = pair.legs[at], pair.legs[1 - at]
    purpose = f"{pair.named} to its speaker"
    name, mate = (f"{purpose} {LEG_SIGNS[one.pin.leg or 'positive']}" for one in (leg, other))
    demand: Demand = ("amplified", pair.channel)
    carrier = carrying(work, demand, at, name, mate, bare=leg_name(pair, leg))
    assert carrier is not None, "a job that lacks a conductor for a pair is no tap plan"
    own = carrier.wire
    wire = board.wire(replace(own, from_place=board.unit_of(start.out)) if start.crossed else own)
    first = board.join(
        "terminal", work.amplifier_place(amplifier), start.out, wire.ends[0],
        closed_by=SCREWED, undone="with_part",
    )  # fmt: skip
    joint = board.join(
        "splice", carrier.ends_at if loom_at(work, leg) is None else place_of(work, leg),
        wire.ends[1], speaker_end(work, leg), closed_by=SLEEVE,
        undone=undone_of(work, leg, "rejoin"),
    )  # fmt: skip
    path = (*start.path, first, wire.id, joint, *way_to_car(board, work, leg, pair))
    board.link(Link(name, "amplified", name, path, mate, pair.channel))


def _lay_new(board: Board, work: CircuitWork, speaker: JobSpeaker, sign: str) -> None:
    lead = next((each for each in work.leads if each.speaker == speaker.name), None)
    unit = board.unit(speaker.name, "speaker", speaker.where)
    takes = board.terminal(
        Terminal(f"{unit} {sign}", unit, sign, "takes", "amplified", needed=True,
                 in_ohm=speaker.nominal_ohm)
    )  # fmt: skip
    start = output_terminal(board, work, speaker, sign)
    piece = f"lead to {speaker.name}"
    purpose, mate = (f"{piece} {each}" for each in (sign, SIGNS[1 - SIGNS.index(sign)]))
    wire = board.wire(
        CircuitWire(
            purpose, "amplified", purpose, piece, "pair", None,
            work.lead_size(speaker.name), lead.length_m if lead else None,
            speaker.amplifier, speaker.name, mate, piece=piece,
            way=_way_to(work.parts.job, speaker),
        )
    )  # fmt: skip
    place = work.amplifier_place(speaker.amplifier)
    first = board.join("terminal", place, start, wire.ends[0], closed_by=SCREWED,
                       undone="with_part")  # fmt: skip
    last = board.join("terminal", speaker.where, wire.ends[1], takes, closed_by=SCREWED,
                      undone="with_part")  # fmt: skip
    board.link(Link(purpose, "amplified", purpose, (start, first, wire.id, last, takes), mate,
                    speaker.channel))  # fmt: skip


def _way_to(job: Job, speaker: JobSpeaker) -> str:
    """The places that the measured way to a new speaker lies along."""
    ways = [route.zones for route in job.routes if route.to_place == speaker.name]
    return ", ".join(dict.fromkeys(zone for zones in ways for zone in zones))


def _leave_speaker_ends(board: Board, work: CircuitWork, pair: Pair) -> None:
    because = "no amplifier of this job drives it; its speaker stays silent"
    for leg in pair.legs:
        what = f"speaker end of {pair.named} {leg.pin.leg} ({wire_at(work, leg, 'car')})"
        board.leave_open(
            OpenEnd(speaker_end(work, leg), what, place_of(work, leg), because, SLEEVE)
        )
