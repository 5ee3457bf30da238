"""The run of a netlist: which figures a simulator prints, and what each of them is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.planning.circuit.model import Terminal, Unit
from builder.planning.circuit.spice_lines import comment, figure, volts
from builder.planning.circuit.spice_work import DIP_S, DeckWork, number_of, pairs_of
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    BATTERY_PLUS,
    SECOND_MINUS,
    SECOND_PLUS,
    SIGNS,
    ground_of,
    shield_of,
    supply_of,
)
from builder.planning.words import BLOCK

TONE_HZ = 1000
"""Where the sound is looked at; nothing of the netlist depends on it."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure that is printed: its name, what it is, how it is worked out."""

    name: str
    said: str
    formula: str

    @property
    def text(self) -> str:
        """Its lines in the run."""
        said = comment(f"{self.name}: {self.said}")
        return f"{said}\nlet {self.name} = {self.formula}\nprint {self.name}"


def run_lines(work: DeckWork) -> Iterator[str]:
    """Yield the run: supply and switching at rest, the sound, a restart where one is held over."""
    yield ".control"
    yield "op"
    yield from (each.text for each in _drops(work))
    yield f"ac lin 1 {TONE_HZ} {TONE_HZ}"
    yield from (each.text for each in (*_inputs(work), *_lines(work), *_speakers(work)))
    yield from _held(work)
    yield "quit"
    yield ".endc"


def _across(work: DeckWork, plus: str, minus: str) -> str:
    return volts(work.nodes.of(plus), work.nodes.of(minus))


def _drops(work: DeckWork) -> Iterator[Figure]:
    terminals = work.nodes.index.terminals
    if BATTERY_PLUS not in terminals:
        return
    second = SECOND_PLUS in terminals  # what is added hangs on that one
    plus, minus = (SECOND_PLUS, SECOND_MINUS) if second else (BATTERY_PLUS, BATTERY_MINUS)
    battery = _across(work, plus, minus)
    for number, unit in enumerate(work.units("amplifier"), 1):
        if supply_of(unit.id) in terminals:
            seen = _across(work, supply_of(unit.id), ground_of(unit.id))
            said = f"volts that the supply of {unit.id} loses, out and return"
            yield Figure(f"drop{number}", said, f"{battery}-({seen})")
    if f"{BLOCK} in" in terminals:
        lost = _across(work, plus, f"{BLOCK} in")
        yield Figure("drop_block", f"volts lost on the way to the {BLOCK}", lost)


def _sound(name: str, said: str, plus: str, minus: str) -> Figure:
    return Figure(name, said, f"mag({volts(plus, minus)})")


def _inputs(work: DeckWork) -> Iterator[Figure]:
    for unit in work.units("converter"):
        for plus, minus in pairs_of(unit, "speaker_level"):
            said = f"V RMS across {unit.id} in {number_of(plus)}, behind its pads"
            yield _sound(f"in{number_of(plus)}", said, work.at(plus), work.at(minus))


def _lines(work: DeckWork) -> Iterator[Figure]:
    for unit in work.units("converter"):
        for centre in _line_outputs(unit):
            shield, number = work.nodes.of(shield_of(centre.id)), number_of(centre)
            open_said = f"V RMS of {centre.id} with nothing joined to it"
            yield _sound(f"line{number}_open", open_said, f"out{number}", shield)
            said = f"V RMS of {centre.id} loaded by what is joined to it"
            yield _sound(f"line{number}", said, work.at(centre), shield)


def _line_outputs(unit: Unit) -> list[Terminal]:
    return [each for each in unit.terminals if (each.carries, each.role) == ("line", "drives")]


def _speakers(work: DeckWork) -> Iterator[Figure]:
    for number, unit in enumerate(work.units("speaker", "factory_speaker"), 1):
        for plus, minus in pairs_of(unit):
            if plus.name != SIGNS[0]:  # the inner terminals of a coil
                continue
            said = f"V RMS at {unit.id}"
            yield _sound(f"speaker{number}", said, work.at(plus), work.at(minus))


def _held(work: DeckWork) -> Iterator[str]:
    """How long the node stays above what lets its inputs go, once its source is gone."""
    held, store = work.pack.hold_up, _node_held(work)
    if held is None or store is None:
        return
    until = DIP_S + 4 * held.held_s
    yield f"tran {figure(held.held_s / 1000)} {figure(until)}"
    yield comment(f"held_s: seconds that {held.where} stays above {held.threshold_v:g} V")
    yield f"let turn_on = {volts(*store)}"
    yield f"meas tran falls when turn_on={figure(held.threshold_v)} fall=1"
    yield f"let held_s = falls-{figure(DIP_S)}\nprint held_s"


def _node_held(work: DeckWork) -> tuple[str, str] | None:
    """The node behind the hold-up's diode, and the ground that its capacitor stands on."""
    elements = work.nodes.index.circuit.elements
    store = next((each for each in elements if each.kind == "capacitor"), None)
    diode = next((each for each in elements if each.kind == "diode"), None)
    if store is None or diode is None:
        return None
    return work.nodes.of(diode.ends[1]), work.nodes.of(store.ends[1])
