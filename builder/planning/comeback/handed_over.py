"""The job as it was handed over, as a comeback asks for it: circuit, sound, sources, speakers."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from builder.model.access import AccessPart
from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function, State
from builder.planning.car.access import job_parts
from builder.planning.car.seats import has_plug
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, EndId, Link
from builder.planning.circuit.terminal_names import socket_terminal
from builder.planning.comeback.condition import Condition
from builder.planning.comeback.healthy import Healthy
from builder.planning.comeback.words import WHENS, When
from builder.planning.words import UnitKind
from builder.planning.work_pack import JobParts, WorkPack
from builder.proof.band import where_in
from builder.proof.signatures.of_pins import kinds_of_function

_STATES: dict[When, tuple[State, ...]] = {
    "day": ("radio_on_zero", "tuner", "accessory", "run"),
    "lights": ("lights_on", "radio_on_zero", "tuner", "accessory", "run"),
    "key_off": ("retained",),
    "asleep": ("asleep",),
}
"""The states whose readings say whether a source is live at a time."""
_ANY_BATTERY_V = 12.6
JOINED_LOAD_MAX_OHM = 1000.0
"""A radio that looks for its speakers finds one below this. Common practice, no source. [Ω]"""
_SOURCES: tuple[UnitKind, ...] = ("radio", "plug", "fuse_position", "interface")


def live_when(function: Function, house: HouseDefaults) -> frozenset[When]:
    """Return when a wire of the car is live, by what proves it: 0 V would read low there.

    A time at which its signature says nothing counts as live: nobody promised that it is off.
    """
    return frozenset(when for when in WHENS if _is_live(function, _STATES[when], house))


def _is_live(function: Function, states: tuple[State, ...], house: HouseDefaults) -> bool:
    rows = [
        row
        for kind in kinds_of_function(function, house)
        for state in states
        for row in kind.cells.get((state, "dc_v"), ())
    ]
    return not rows or any(where_in(row.band, 0.0, _ANY_BATTERY_V) == "low" for row in rows)


class HandedOver:
    """One job with a tap plan, in the car of its customer.

    Args:
        parts: The job with its records.
        pack: Its work pack, which has a circuit.
        house: The book's house defaults.
    """

    def __init__(self, parts: JobParts, pack: WorkPack, house: HouseDefaults) -> None:
        assert pack.circuit is not None and pack.sound is not None, "of a tap plan"
        self.parts, self.pack, self.house = parts, pack, house
        self.circuit: Circuit = pack.circuit
        self.index = CircuitIndex(self.circuit)
        self.healthy = Healthy(self.circuit, pack.sound, dict(self._live()))
        self.whole = Condition(self.healthy)

    def sources(self) -> Iterator[EndId]:
        """Yield the terminals of the car, and of what reads its data, that switch something on."""
        for unit in self.circuit.units:
            for each in unit.terminals:
                if unit.kind in _SOURCES and (each.carries, each.role) == ("control", "drives"):
                    yield each.id

    def _live(self) -> Iterator[tuple[EndId, frozenset[When]]]:
        for source in self.sources():
            yield source, live_when(self.function_at(source), self.house)

    def function_at(self, source: EndId) -> Function:
        """What a source of the car is; what an interface gives is like a turn-on output."""
        vehicle = self.parts.vehicle
        for plug in vehicle.plugs:
            for pin in plug.pins:
                cavity = f"{plug.id}.{pin.cavity}"
                if source in (cavity, socket_terminal(plug.unit, cavity)):
                    return pin.function
        unit = self.index.unit_of(source).id
        fused = (each for each in vehicle.fuse_positions if each.position in (source, unit))
        return next((each.function for each in fused), "amplifier_on")

    @cached_property
    def speakers(self) -> tuple[str, ...]:
        """Every speaker that plays, the car's own with the rest."""
        kinds: tuple[UnitKind, ...] = ("speaker", "factory_speaker")
        units = (unit.id for unit in self.circuit.units if unit.kind in kinds)
        return tuple(unit for unit in units if self.whole.day.speaker_heard(unit))

    @cached_property
    def added(self) -> tuple[str, ...]:
        """Those of them that play through the job."""
        return tuple(each for each in self.speakers if self.whole.day.speaker_plays(each))

    @cached_property
    def devices(self) -> tuple[str, ...]:
        """Everything of the job that does something by itself."""
        kinds: tuple[UnitKind, ...] = ("converter", "amplifier", "interface", "driver")
        return tuple(unit.id for unit in self.circuit.units if unit.kind in kinds)

    @cached_property
    def amplifiers(self) -> tuple[str, ...]:
        """The amplifiers of the job."""
        return tuple(unit.id for unit in self.circuit.units if unit.kind == "amplifier")

    @cached_property
    def passed_on(self) -> list[Link]:
        """What a loom passes on from the car to its radio."""
        found = [link for link in self.circuit.links if link.carries == "through"]
        return [link for link in found if "radio" in self._kinds_at(link)]

    def _kinds_at(self, link: Link) -> set[UnitKind]:
        return {self.index.unit_of(end).kind for end in (link.begins, link.finishes)}

    @cached_property
    def radio_pairs(self) -> list[tuple[EndId, EndId]]:
        """Both outputs of each pair that the car drives."""
        units = (unit for unit in self.circuit.units if unit.kind == "radio")
        ends = [x.id for unit in units for x in unit.terminals if x.carries == "speaker_level"]
        return list(zip(ends[::2], ends[1::2], strict=False))

    @cached_property
    def loaded_pairs(self) -> list[tuple[EndId, EndId]]:
        """Those of them that find a speaker, or what stands in for one."""
        return [legs for legs in self.radio_pairs if self.loaded(self.whole, *legs)]

    @staticmethod
    def loaded(now: Condition, plus: EndId, minus: EndId) -> bool:
        """Whether an output of the car finds a load between its legs: a speaker or a resistor."""
        return now.day.ohms(plus, minus) < JOINED_LOAD_MAX_OHM

    @cached_property
    def restraint_parts(self) -> tuple[AccessPart, ...]:
        """The parts with a plug that may be of the restraint system and that the work moved."""
        return tuple(filter(has_plug, job_parts(self.parts.vehicle, self.parts.job)))
