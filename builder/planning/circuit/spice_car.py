"""What the car brings: its battery, the outputs of its radio, its speakers, what it switches."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.car.pairs import Pair, find_line_pairs, find_pairs
from builder.planning.circuit.model import Terminal
from builder.planning.circuit.spice_lines import GROUND, DeckLine, figure
from builder.planning.circuit.spice_work import INSIDE_OHM, DeckWork, pairs_of
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    BATTERY_PLUS,
    SECOND_MINUS,
    SECOND_PLUS,
    socket_terminal,
)
from builder.planning.turn_on.loads import turn_on_pin
from builder.planning.words import LinkClass, UnitKind
from builder.proof.pin_readings import is_logic_level
from builder.units import Volts


def car_lines(work: DeckWork) -> Iterator[DeckLine]:
    """Yield the models of everything that was in the car before."""
    yield from _battery(work)
    terminals = work.nodes.index.terminals
    vehicle = work.parts.vehicle
    lines = find_line_pairs(vehicle, work.defaults).values()
    pairs = (*find_pairs(vehicle, work.defaults), *lines)
    touched = [pair for pair in pairs if all(leg.name in terminals for leg in pair.legs)]
    for number, pair in enumerate(touched, 1):
        yield from _pair(work, number, pair)
    yield from _speakers(work)
    yield from _switched(work)
    yield from _fed(work)


def _battery(work: DeckWork) -> Iterator[DeckLine]:
    if BATTERY_PLUS in work.nodes.index.terminals:
        volts = work.defaults.charging_v
        said = f"the battery while the engine runs: {volts:g} V, house default"
        ends = work.nodes.of(BATTERY_PLUS), work.nodes.of(BATTERY_MINUS)
        yield DeckLine("Vbattery", ends, f"dc {figure(volts)}", (said,))
    if SECOND_PLUS in work.nodes.index.terminals:
        volts = work.defaults.charging_v
        said = f"the second battery: {volts:g} V, house default, at which full current is counted"
        ends = work.nodes.of(SECOND_PLUS), work.nodes.of(SECOND_MINUS)
        yield DeckLine("Vsecond", ends, f"dc {figure(work.defaults.charging_v)}", (said,))


def _pair(work: DeckWork, number: int, pair: Pair) -> Iterator[DeckLine]:
    """A pair at its loudest clean level: both legs about their bias, or one against ground."""
    level = work.level_v_rms(pair.channel)
    legs = [work.nodes.of(socket_terminal(leg.plug.unit, leg.name)) for leg in pair.legs]
    volts = level or 0.0
    told = "its level is not worked out, nothing plays it" if level is None else f"{volts:g} V RMS"
    said = f"{pair.named} at {pair.positive.name} and {pair.negative.name}: {told}, loudest clean"
    if pair.topology == "common_ground":
        yield DeckLine(f"Vs{number}", (legs[0], legs[1]), f"dc 0 ac {figure(volts)}", (said,))
        returned = "its negative leg is the radio's ground"
        yield DeckLine(f"Rs{number}", (legs[1], GROUND), figure(INSIDE_OHM), (returned,))
        return
    middle, half = f"bias{number}", f"dc 0 ac {figure(volts / 2)}"
    bias, where = _bias_v(work, pair)
    yield DeckLine(f"Vs{number}a", (legs[0], middle), half, (said,))
    yield DeckLine(f"Vs{number}b", (middle, legs[1]), half)
    yield DeckLine(f"Vs{number}", (middle, GROUND), f"dc {figure(bias)}", (where,))


def _bias_v(work: DeckWork, pair: Pair) -> tuple[Volts, str]:
    if pair.bias is not None:
        return pair.bias.high_v, f"bias of its legs: {pair.bias.high_v:g} V, as read"
    return work.defaults.charging_v / 2, "assumed: a bias of half the supply, nobody read it"


def _speakers(work: DeckWork) -> Iterator[DeckLine]:
    for number, unit in enumerate(work.units("factory_speaker"), 1):
        for plus, minus in pairs_of(unit):
            ohm = plus.in_ohm or work.defaults.sketch_speaker_ohm
            told = f"{unit.id}: {ohm:g} ohm" + ("" if plus.in_ohm else ", assumed, nobody read it")
            ends = work.at(plus), work.at(minus)
            yield DeckLine(f"Rl{number}", ends, figure(ohm), (told,))
    for number, unit in enumerate(work.units("factory_input"), 1):
        for plus, minus in pairs_of(unit):
            ohm = plus.in_ohm or work.defaults.amplifier_input_ohm
            told = f"{unit.id}: {ohm:g} ohm" + ("" if plus.in_ohm else ", assumed, nobody read it")
            yield DeckLine(f"Rf{number}", (work.at(plus), work.at(minus)), figure(ohm), (told,))


def _switched(work: DeckWork) -> Iterator[DeckLine]:
    """Wires that switch on, of the car or of an interface, each a source by itself."""
    sources = _driving(work, "control", "radio", "plug", "fuse_position", "interface")
    for number, terminal in enumerate(sources, 1):
        volts = _on_v(work)
        where = _place(terminal, work)
        said = f"{terminal.id} switched on: {volts:g} V"
        value = work.switched(where, volts)
        yield DeckLine(f"Vt{number}", (work.at(terminal), GROUND), value, (said,))


def _fed(work: DeckWork) -> Iterator[DeckLine]:
    """What of the car feeds a device at a plug or a fuse position, and takes its current back."""
    volts = work.defaults.charging_v
    for number, terminal in enumerate(_driving(work, "supply", "plug", "fuse_position"), 1):
        said = f"{terminal.id} is live: {volts:g} V, as the battery"
        yield DeckLine(f"Vf{number}", (work.at(terminal), GROUND), f"dc {figure(volts)}", (said,))
    grounds = [
        each for unit in work.units("plug") for each in unit.terminals if each.carries == "ground"
    ]
    for number, terminal in enumerate(grounds, 1):
        said = f"{terminal.id}: assumed, the car's own ground without loss"
        yield DeckLine(f"Rf{number}", (work.at(terminal), GROUND), figure(INSIDE_OHM), (said,))


def _driving(work: DeckWork, carries: LinkClass, *kinds: UnitKind) -> list[Terminal]:
    return [
        terminal
        for unit in work.units(*kinds)
        for terminal in unit.terminals
        if terminal.carries == carries and terminal.role == "drives"
    ]


def _on_v(work: DeckWork) -> Volts:
    pin = turn_on_pin(work.parts.vehicle, work.pack.plan.turn_on)
    if pin is not None and pin.level_v is not None and is_logic_level(pin, work.defaults):
        return pin.level_v
    return work.defaults.charging_v


def _place(terminal: Terminal, work: DeckWork) -> str:
    """The name that a hold-up has for a source: the cavity, or the fuse position itself."""
    joints = work.nodes.index.joints_of.get(terminal.id, [])
    cavities = [end for joint in joints if joint.kind == "plug_home" for end in joint.joins]
    return next((end for end in cavities if end != terminal.id), terminal.id)
