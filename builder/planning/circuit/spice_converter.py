"""The converter in a netlist: what its inputs load, what each output gives, what switches."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.words import Channel
from builder.planning.car.output_sums import corner_of, corners_of
from builder.planning.circuit.model import Link, Terminal, Unit
from builder.planning.circuit.spice_lines import DeckLine, figure
from builder.planning.circuit.spice_work import (
    FLOATING_OHM,
    INSIDE_OHM,
    DeckWork,
    number_of,
    pairs_of,
)
from builder.planning.circuit.terminal_names import shield_of
from builder.planning.pack_details import LevelChain
from builder.units import db_to_ratio

Inputs = dict[Channel, tuple[str, str]]


def converter_lines(work: DeckWork, unit: Unit) -> Iterator[DeckLine]:
    """Yield the model of a converter."""
    inputs: Inputs = {}
    for plus, minus in pairs_of(unit, "speaker_level"):
        yield from _input(work, unit, plus, minus)
        channel = _channel_at(work, plus)
        if channel is not None:
            inputs[channel] = work.at(plus), work.at(minus)
    outputs = [each for each in unit.terminals if each.carries == "line" and each.role == "drives"]
    for terminal in outputs:
        yield from _output(work, unit, terminal, inputs)
    yield from _turn_on(work, unit)


def _input(work: DeckWork, unit: Unit, plus: Terminal, minus: Terminal) -> Iterator[DeckLine]:
    device, number = work.parts.converter.input, number_of(plus)
    said = f"{unit.id} in {number}: {device.impedance_ohm:g} ohm, {device.type.replace('_', ' ')}"
    ends = work.at(plus), work.at(minus)
    yield DeckLine(f"Rc{number}", ends, figure(device.impedance_ohm), (said,))
    tie = INSIDE_OHM if device.type == "ground_referenced" else FLOATING_OHM
    yield DeckLine(f"Rc{number}g", (ends[1], work.nodes.ground_of(unit.id)), figure(tie))


def _links_at(work: DeckWork, terminal: Terminal) -> list[Link]:
    return [link for link in work.nodes.index.circuit.links if terminal.id in link.path]


def _channel_at(work: DeckWork, terminal: Terminal) -> Channel | None:
    """The factory channel whose pair is joined to an input."""
    return next((link.channel for link in _links_at(work, terminal)), None)


def _output(work: DeckWork, unit: Unit, centre: Terminal, inputs: Inputs) -> Iterator[DeckLine]:
    """A line output: the inputs that it plays times its gain, behind its own resistance."""
    number, chain = number_of(centre), _chain_at(work, centre)
    shield = work.nodes.of(shield_of(centre.id))
    gain = chain.converter_gain if chain and chain.converter_gain else 0.0
    heard = [inputs[each] for each in _loudest_bands(work, centre.plays) if each in inputs]
    total = " + ".join(f"v({plus},{minus})" for plus, minus in heard) or "0"
    share = 1.0 if chain is None else tone_share(work, chain)
    said = [f"{centre.id} plays {' and '.join(centre.plays)}, gain {gain:.4g}"]
    said += [] if share == 1 else [f"  times {share:.4g}: bass that is missing at its tone"]
    yield DeckLine(f"Bc{number}", (f"out{number}", shield),
                   f"v={figure(gain * share)}*({total})", tuple(said))  # fmt: skip
    told = f"its own resistance: {centre.out_ohm or 0:g} ohm"
    told += "" if centre.out_ohm is not None else ", assumed, nobody recorded it"
    ohm = figure(max(centre.out_ohm or 0.0, INSIDE_OHM))
    yield DeckLine(f"Rc{number}o", (f"out{number}", work.at(centre)), ohm, (told,))
    ground = work.nodes.ground_of(unit.id)
    yield DeckLine(f"Rc{number}s", (shield, ground), *_shield(work))


def _shield(work: DeckWork) -> tuple[str, tuple[str, ...]]:
    device = work.parts.converter
    if device.kind == "passive" and device.input.type != "ground_referenced":
        return figure(FLOATING_OHM), ("assumed: windings of their own, no ground",)
    return figure(INSIDE_OHM), ("assumed: the shield is the converter's ground",)


def _chain_at(work: DeckWork, centre: Terminal) -> LevelChain | None:
    """The levels of what an output's first lead goes to."""
    links = [link for link in _links_at(work, centre) if link.begins == centre.id]
    terminals = work.nodes.index.terminals
    found = (terminals[link.finishes] for link in links)
    return next((work.chain(each.unit, number_of(each)) for each in found), None)


def _loudest_bands(work: DeckWork, channels: tuple[Channel, ...]) -> list[Channel]:
    """One band of each corner: at any tone the others of that corner are silent."""
    loudest = []
    for corner in corners_of(channels):
        bands = [each for each in channels if corner_of(each) == corner]
        loudest.append(max(bands, key=lambda each: work.level_v_rms(each) or 0.0))
    return loudest


def tone_share(work: DeckWork, chain: LevelChain) -> float:
    """Return what is left of a chain's level at its tone: bass that nothing gives back."""
    if chain.bass_db is None:
        return 1.0
    given = work.parts.converter.bass_rolloff_correction
    back_db = given.max_db if given is not None and chain.correction == "on" else 0.0
    return db_to_ratio(min(0.0, chain.bass_db + back_db))


def _turn_on(work: DeckWork, unit: Unit) -> Iterator[DeckLine]:
    """Its turn-on output, which gives the supply while the converter is on."""
    for terminal in unit.terminals:
        if terminal.carries == "control" and terminal.role == "drives":
            volts = work.defaults.charging_v
            value = work.switched(f"the turn-on output of {unit.id}", volts)
            ends = work.at(terminal), work.nodes.ground_of(unit.id)
            yield DeckLine("Vt0", ends, value, (f"{terminal.id} switched on: {volts:g} V",))
