"""What the job brings: the converter, the amplifiers, the new speakers, what is switched on."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.circuit.model import Terminal, Unit
from builder.planning.circuit.spice_converter import converter_lines
from builder.planning.circuit.spice_lines import GROUND, DeckLine, figure
from builder.planning.circuit.spice_work import (
    FLOATING_OHM,
    INSIDE_OHM,
    DeckWork,
    number_of,
    pairs_of,
)
from builder.planning.circuit.terminal_names import coiled_speaker, shield_of


def device_lines(work: DeckWork) -> Iterator[DeckLine]:
    """Yield the models of every device of the job."""
    for unit in work.units("converter"):
        yield from converter_lines(work, unit)
    for number, unit in enumerate(work.units("amplifier"), 1):
        yield from _inputs(work, unit, number)
        yield from _inside(work, unit, number)
        yield from _outputs(work, unit, number)
    for number, unit in enumerate(work.units("speaker"), 1):
        yield from _speaker(work, unit, number)
    yield from _drivers(work)
    yield from _draws(work)


def _inputs(work: DeckWork, unit: Unit, number: int) -> Iterator[DeckLine]:
    """The input impedance between centre and shield, and what the shield is to the amplifier."""
    kind = work.parts.amplifiers[unit.id].input_type
    tie = INSIDE_OHM if kind == "ground_referenced" else FLOATING_OHM
    ground = work.nodes.ground_of(unit.id)
    for at, centre in enumerate(_sockets(work, unit), 1):
        shield = work.nodes.of(shield_of(centre.id))
        name, ohm = f"{number}_{at}", figure(centre.in_ohm or work.defaults.amplifier_input_ohm)
        said = f"{centre.id}: {ohm} ohm; its input is {kind.replace('_', ' ')}"
        yield DeckLine(f"Ri{name}", (work.at(centre), shield), ohm, (said,))
        yield DeckLine(f"Rg{name}", (shield, ground), figure(tie))


def _sockets(work: DeckWork, unit: Unit) -> list[Terminal]:
    """The line inputs that a lead is plugged into; the others lie inside."""
    terminals = work.nodes.index.terminals
    return [each for each in _named(unit, "line", "takes") if shield_of(each.id) in terminals]


def _inside(work: DeckWork, unit: Unit, number: int) -> Iterator[DeckLine]:
    """What a channel hears of the inputs that its amplifier brings it."""
    links = work.nodes.index.circuit.links
    for terminal in _named(unit, "line", "takes"):
        brought = [link for link in links if link.finishes == terminal.id and not link.mate]
        if not brought:
            continue
        heard = [
            f"v({work.nodes.of(link.begins)},{work.nodes.of(shield_of(link.begins))})"
            for link in brought
        ]
        group = work.parts.amplifiers[unit.id].inputs_of(number_of(terminal))
        average = group is not None and group.sum == "average"
        share = figure(1 / len(brought) if average else 1.0)
        said = [f"{terminal.id} hears {' and '.join(link.begins for link in brought)}"]
        said += [f"  {link.set_by}" for link in brought[:1] if link.set_by]
        ends, name = (work.at(terminal), work.nodes.ground_of(unit.id)), number_of(terminal)
        yield DeckLine(f"Bs{number}_{name}", ends, f"v={share}*({' + '.join(heard)})", tuple(said))


def _named(unit: Unit, carries: str, role: str) -> list[Terminal]:
    return [each for each in unit.terminals if (each.carries, each.role) == (carries, role)]


def _outputs(work: DeckWork, unit: Unit, number: int) -> Iterator[DeckLine]:
    """Each output as a source of the volts that its gain is set to."""
    for plus, minus in pairs_of(unit, "amplified"):
        chain = work.chain(unit.id, number_of(plus))
        volts = chain.set_v_rms if chain else 0.0
        name, ends = f"{number}_{number_of(plus)}", (work.at(plus), work.at(minus))
        told = f"set to {volts:g} V RMS" if chain else "its level is not worked out"
        said = f"{unit.id} out {number_of(plus)}: {told}"
        ground = work.nodes.ground_of(unit.id)
        if not plus.floating:
            yield DeckLine(f"Vo{name}", ends, f"dc 0 ac {figure(volts)}", (said,))
            yield DeckLine(f"Ro{name}", (ends[1], ground), figure(INSIDE_OHM))
            continue
        middle, half = f"mid{name}", f"dc 0 ac {figure(volts / 2)}"
        bias = f"dc {figure(work.defaults.charging_v / 2)}"
        yield DeckLine(f"Vo{name}a", (ends[0], middle), half, (said,))
        yield DeckLine(f"Vo{name}b", (middle, ends[1]), half)
        yield DeckLine(f"Vo{name}", (middle, ground), bias, ("both legs about half the supply",))


def _speaker(work: DeckWork, unit: Unit, number: int) -> Iterator[DeckLine]:
    """Its nominal ohms between its terminals; coils on record are parts of the circuit."""
    parts = work.nodes.index.circuit.elements
    if any(part.kind == "coil" and coiled_speaker(part.id) == unit.id for part in parts):
        return
    for plus, minus in pairs_of(unit):
        ohm = plus.in_ohm or work.defaults.sketch_speaker_ohm
        said = f"{unit.id}: {ohm:g} ohm"
        yield DeckLine(f"Rn{number}", (work.at(plus), work.at(minus)), figure(ohm), (said,))


def _drivers(work: DeckWork) -> Iterator[DeckLine]:
    """A driver's input loads little; its output is the supply, switched."""
    for number, unit in enumerate(work.units("driver"), 1):
        volts = work.defaults.charging_v
        for terminal in unit.terminals:
            end = work.at(terminal)
            if terminal.role == "takes":
                said = f"{terminal.id}: {FLOATING_OHM:g} ohm, assumed"
                yield DeckLine(f"Rd{number}", (end, GROUND), figure(FLOATING_OHM), (said,))
            else:
                value = work.switched(_behind(work), volts)
                yield DeckLine(f"Vd{number}", (end, GROUND), value, (f"{terminal.id}: on",))


def _behind(work: DeckWork) -> str:
    """A hold-up of the car's turn-on hangs behind the driver, where there is one."""
    held = work.pack.hold_up
    return held.where if held and not held.where.startswith("the turn-on output of") else ""


def _draws(work: DeckWork) -> Iterator[DeckLine]:
    """Every terminal that takes a current: supplies at full current, turn-on inputs as recorded."""
    for number, terminal in enumerate(work.nodes.index.terminals.values(), 1):
        if terminal.draw_ma and terminal.role == "takes" and work.nodes.joined(terminal.id):
            amps = terminal.draw_ma / 1000
            ends = (work.at(terminal), work.nodes.ground_of(terminal.unit))
            said = f"{terminal.id} draws {amps:g} A"
            yield DeckLine(f"Id{number}", ends, f"dc {figure(amps)}", (said,))
