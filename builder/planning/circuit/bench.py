"""What works in a circuit, healthy or with a fault: who is supplied, switched on, and heard.

A model of continuity, not of waveforms: a leg is joined or it is not. It says what a fault takes
away, which is what the bay sheet has to notice.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from builder.planning.circuit.charging import is_charged
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, EndId, Unit
from builder.planning.circuit.nets import Nets, continuity, parts_on_way
from builder.planning.circuit.ohmmeter import Ohmmeter
from builder.planning.circuit.terminal_names import (
    DRIVER,
    DRIVER_IN,
    DRIVER_OUT,
    SIGNS,
    first_of,
    ground_of,
    heard_by,
    legs_of,
    pair_input,
    shield_of,
    supply_of,
    turn_on_input,
    turn_on_of,
    turn_on_output,
)
from builder.planning.words import UnitKind
from builder.units import Ohms

_OF_THE_CAR: tuple[UnitKind, ...] = ("radio", "plug", "fuse_position")


@dataclass(frozen=True, slots=True)
class Sound:
    """How sound runs through the devices, which the circuit does not say.

    `plays` are the converter inputs of each line output, `inputs` the line inputs of each
    amplifier channel. `wakes` says that the converter switches itself on by its first input.
    `dc_share` is what an ohmmeter reads of a speaker's nominal ohms.
    """

    plays: dict[str, tuple[int, ...]]
    inputs: dict[str, tuple[str, ...]]
    wakes: bool
    dc_share: float = 1.0


class Bench:
    """One circuit on the bench. Every answer is worked out from what is joined."""

    def __init__(self, circuit: Circuit, sound: Sound) -> None:
        self.index = CircuitIndex(circuit)
        self.circuit = circuit
        self.sound = sound
        self._of_kinds: dict[tuple[UnitKind, ...], list[Unit]] = {}

    @cached_property
    def nets(self) -> Nets:
        """What is joined by wires, fuses and the parts in a link's own way."""
        pads = parts_on_way(self.circuit)
        return continuity(self.circuit, parts=lambda part: part.id in pads)

    def _units(self, *kinds: UnitKind) -> list[Unit]:
        if kinds not in self._of_kinds:
            self._of_kinds[kinds] = [unit for unit in self.circuit.units if unit.kind in kinds]
        return self._of_kinds[kinds]

    def joined(self, one: EndId, other: EndId) -> bool:
        """Whether two terminals are joined by wires, fuses and the parts in a link's own way."""
        return self.nets.together(one, other)

    def supplied(self, unit: str) -> bool:
        """Whether a device has its supply and its ground, from the battery or from the car."""
        return self.from_the_car(supply_of(unit)) and self.from_the_car(ground_of(unit))

    @cached_property
    def converter(self) -> str:
        """The converter of the job."""
        return self._units("converter")[0].id

    def _passive(self) -> bool:
        return supply_of(self.converter) not in self.index.terminals

    @cached_property
    def converter_on(self) -> bool:
        """Whether the converter works: by itself, or supplied and switched on."""
        return self._converter_works()

    def _converter_works(self) -> bool:
        if self._passive():
            return True
        if not self.supplied(self.converter):
            return False
        return self.pair_of(1) is not None if self.sound.wakes else self._car_switches(
            turn_on_input(self.converter)
        )  # fmt: skip

    def _car_switches(self, terminal: EndId) -> bool:
        """Whether the car's own turn-on source reaches a terminal, through a driver or not."""
        if DRIVER_IN in self.index.terminals and terminal != DRIVER_IN:
            works = self._car_switches(DRIVER_IN) and self.supplied(DRIVER)
            return works and self.joined(DRIVER_OUT, terminal)
        sources = [*self._switching(*_OF_THE_CAR), *self._switching_interfaces()]
        return any(self.joined(source, terminal) for source in sources)

    def _switching_interfaces(self) -> list[EndId]:
        """The outputs of the interfaces that the car's own plug supplies."""
        return [
            each
            for each in self._switching("interface")
            if self.supplied(self.index.unit_of(each).id)
        ]

    def from_the_car(self, terminal: EndId) -> bool:
        """Return whether a supply or ground terminal hangs on the battery or what the car gives."""
        there = self.index.terminals.get(terminal)
        return there is not None and any(
            self.joined(each.id, terminal)
            for unit in self._units("battery", "plug", "fuse_position")
            for each in unit.terminals
            if each.carries == there.carries
        )

    def _switching(self, *kinds: UnitKind) -> list[EndId]:
        """The terminals of some units that switch something on."""
        return [
            each.id
            for unit in self._units(*kinds)
            for each in unit.terminals
            if each.carries == "control" and each.role == "drives"
        ]

    def switched_on(self, unit: str) -> bool:
        """Whether a device's turn-on terminal is live while the radio is on, read against its own
        ground where that is all the coil behind it has."""
        if self.index.units[unit].kind == "turn_on_load" and not self._returns(unit):
            return False
        terminal, output = turn_on_of(unit), turn_on_output(self.converter)
        if output in self.index.terminals:
            return self.converter_on and self.joined(output, terminal)
        return self._car_switches(terminal)

    def _returns(self, load: str) -> bool:
        """Whether current finds its way back from what the turn-on lead switches."""
        own = ground_of(load)
        return own not in self.index.terminals or self.from_the_car(own)

    def works(self, amplifier: str) -> bool:
        """Whether an amplifier is supplied and switched on."""
        return self.supplied(amplifier) and self.switched_on(amplifier)

    @cached_property
    def radio_works(self) -> bool:
        """Whether the radio still has whatever the car brings it: its plug is home there too."""
        cavities = [each.id for unit in self._units("plug") for each in unit.terminals]
        taken = [
            each.id
            for unit in self._units("radio")
            for each in unit.terminals
            if each.role == "takes"
        ]
        return all(any(self.joined(each, cavity) for cavity in cavities) for each in taken)

    def pair_of(self, number: int) -> str | None:
        """The cavities that feed a converter input, whichever leg; None where one lacks."""
        legs = [self._leg(pair_input(self.converter, number, sign)) for sign in SIGNS]
        if None in legs or legs[0] == legs[1]:
            return None
        return " and ".join(sorted(leg for leg in legs if leg))

    def _leg(self, terminal: EndId) -> str | None:
        for unit in self._units("plug", "loom"):
            for each in unit.terminals:
                if each.carries == "speaker_level" and self.joined(each.id, terminal):
                    return each.id
        return None

    def played_at(self, cavity: EndId) -> bool:
        """Whether the car's own output reaches a cavity: its plug is home."""
        return self.radio_works and any(
            self.joined(each.id, cavity)
            for unit in self._units("radio")
            for each in unit.terminals
            if each.carries == "speaker_level"
        )

    def charged(self, store: str) -> bool:
        """Whether a hold-up capacitor is filled: through its resistor, from a live lead."""
        live = [
            *self._switching(*_OF_THE_CAR, "converter", "driver"),
            *self._switching_interfaces(),
        ]
        return is_charged(self.circuit, self.index.elements[store], live)

    def line_pairs(self, output: str) -> tuple[str, ...]:
        """The pairs that a line output plays; () while the converter does not work."""
        if not (self.converter_on and self.radio_works):
            return ()
        pairs = [self.pair_of(number) for number in self.sound.plays.get(output, ())]
        return tuple(pair for pair in pairs if pair)

    def heard_at(self, line_input: EndId) -> tuple[str, ...]:
        """The pairs that reach an amplifier's line input, through centre and shield both."""
        found: list[str] = []
        for output in self.sound.plays:
            whole = self.joined(output, line_input) and self.joined(
                shield_of(output), shield_of(line_input)
            )
            found += self.line_pairs(output) if whole else ()
        return tuple(found)

    def channel_plays(self, channel: str) -> tuple[str, ...]:
        """The pairs that an amplifier channel plays, "sub amp out 1"; () while it is silent."""
        amplifier, number = channel.rsplit(" out ", 1)
        if not self.works(amplifier):
            return ()
        return tuple(
            pair
            for each in self.sound.inputs.get(channel, ())
            if self._brought(each, amplifier, first_of(number))
            for pair in self.heard_at(each)
        )

    def _brought(self, line_input: EndId, amplifier: str, number: int) -> bool:
        """Whether a channel hears an input: its own, or one that its amplifier brings it."""
        inside = heard_by(amplifier, number)
        if inside not in self.index.terminals:
            return True
        return any(
            (link.begins, link.finishes) == (line_input, inside) for link in self.circuit.links
        )

    def speaker_plays(self, speaker: str) -> tuple[str, ...]:
        """The pairs that a speaker plays, reversed or not; () while it is silent."""
        for channel in self.sound.inputs:
            legs, ends = legs_of(channel), legs_of(speaker)
            if all(map(self.joined, legs, ends)) or all(map(self.joined, legs, ends[::-1])):
                return self.channel_plays(channel)
        return ()

    def ohms(self, one: EndId, other: EndId) -> Ohms:
        """What an ohmmeter reads between two ends of the dead circuit. [Ω]"""
        return self._ohmmeter.between(one, other)

    def island(self, end: EndId) -> EndId:
        """What an end hangs together with by anything that conducts, by a name of it all."""
        return self._ohmmeter.island(end)

    @cached_property
    def _ohmmeter(self) -> Ohmmeter:
        return Ohmmeter.of(self.circuit, self.sound.dc_share)
