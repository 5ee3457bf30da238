"""A job as it stands with one fault in it: who is supplied, switched on and heard, and when."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from builder.planning.circuit.bench import Bench
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, EndId, Unit
from builder.planning.circuit.ohmmeter import Ohmmeter
from builder.planning.circuit.terminal_names import (
    BODY_AT_STRAP,
    legs_of,
    supply_of,
    turn_on_input,
    turn_on_of,
)
from builder.planning.comeback.circuit_changes import without_joints
from builder.planning.comeback.healthy import Healthy
from builder.planning.comeback.words import FaultKind, When


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong. `circuit` is the job with it; `at` is what it is at.

    `weak` are joints that conduct, and badly. `live` says of a source when it is live, where that
    is another than it should be. `touching` are ends of two wires on each other. `odds` is how
    often it is the cause, against the others.
    """

    id: str
    kind: FaultKind
    at: str
    what: str
    remedy: str
    place: str
    odds: float
    circuit: Circuit
    weak: tuple[str, ...] = ()
    live: Mapping[EndId, frozenset[When]] = field(default_factory=dict)
    touching: tuple[EndId, ...] = ()


class FaultyBench(Bench):
    """A circuit on the bench in which devices may be dead, and wires may lie on the body.

    `restless` are devices that do not go off when they should; `touching` are ends of two wires
    that lie on each other.
    """

    def __init__(
        self, circuit: Circuit, healthy: Healthy, dead: frozenset[str], restless: frozenset[str],
        touching: tuple[EndId, ...] = (), wakes: bool = True,
    ) -> None:  # fmt: skip
        sound = healthy.sound
        super().__init__(circuit, sound if wakes else replace(sound, wakes=False))
        self.dead, self.restless, self.touching = dead, restless, touching
        self.healthy, self._net_of = healthy, healthy.nets_of(circuit)
        self._heard: dict[str, bool] = {}
        self._legs: dict[EndId, EndId | None] = {}
        self._plays: dict[str, tuple[str, ...]] = {}

    def joined(self, one: EndId, other: EndId) -> bool:
        """Whether two terminals are joined; thousands of readings ask, so names are kept."""
        return self._net_of.get(one, one) == self._net_of.get(other, other)

    @cached_property
    def _ohmmeter(self) -> Ohmmeter:
        return self.healthy.ohmmeter_of(self.circuit)

    def on_body(self, terminal: EndId) -> bool:
        """Whether what should not be lies on the body."""
        return self.joined(terminal, BODY_AT_STRAP)

    def shorted(self, leg: EndId) -> bool:
        """Whether an output at an end protects itself: on the body, or on another wire."""
        return self.on_body(leg) or any(self.joined(leg, each) for each in self.touching)

    def supplied(self, unit: str) -> bool:
        """Whether it has supply and ground; a supply on the body takes its fuse."""
        return not self.on_body(supply_of(unit)) and super().supplied(unit)

    def _converter_works(self) -> bool:
        if self.converter in self.restless:
            return self.supplied(self.converter)
        pulled = self.on_body(turn_on_input(self.converter))
        return self.converter not in self.dead and not pulled and super()._converter_works()

    def _switching_interfaces(self) -> list[EndId]:
        found = super()._switching_interfaces()
        return [each for each in found if self.index.unit_of(each).id not in self.dead]

    def switched_on(self, unit: str) -> bool:
        """Whether its turn-on terminal is live: one on the body is not."""
        return not self.on_body(turn_on_of(unit)) and super().switched_on(unit)

    def works(self, amplifier: str) -> bool:
        """Whether an amplifier plays: one with a leg on what is not its own protects itself."""
        if amplifier in self.restless:
            return self.supplied(amplifier)
        if amplifier in self.dead or not super().works(amplifier):
            return False
        return not any(map(self.shorted, self.outputs_of(amplifier)))

    def car_switches(self, end: EndId) -> bool:
        """Whether a live source of the car reaches an end."""
        return self._car_switches(end)

    def outputs_of(self, unit: str) -> list[EndId]:
        """The legs that a device drives speakers with."""
        return [
            each.id
            for each in self.index.units[unit].terminals
            if each.carries in ("amplified", "speaker_level") and each.role == "drives"
        ]

    def leg_plays(self, end: EndId) -> bool:
        """Whether a working output of the car reaches an end, and the end is not shorted."""
        output = self.leg_at(end)
        there = output is not None and output not in self.dead
        return self.radio_works and there and not self.shorted(end)

    def played_at(self, cavity: EndId) -> bool:
        """Whether the car's own output reaches a cavity that lies on no other wire."""
        touched = any(self.joined(cavity, each) for each in self.touching)
        return not touched and super().played_at(cavity)

    def leg_at(self, end: EndId) -> EndId | None:
        """The output of the car that reaches an end, or None."""
        if end not in self._legs:
            self._legs[end] = self._leg_at(end)
        return self._legs[end]

    def _leg_at(self, end: EndId) -> EndId | None:
        for unit in self._units("radio"):
            for each in unit.terminals:
                if each.carries == "speaker_level" and self.joined(each.id, end):
                    return each.id
        return None

    def heard_at(self, line_input: EndId) -> tuple[str, ...]:
        """The pairs that reach a line input; a centre on the body brings none."""
        return () if self.on_body(line_input) else super().heard_at(line_input)

    def channel_plays(self, channel: str) -> tuple[str, ...]:
        """The pairs that a channel plays; one that is a fault itself plays none."""
        if channel not in self._plays:
            self._plays[channel] = () if channel in self.dead else super().channel_plays(channel)
        return self._plays[channel]

    def line_pairs(self, output: str) -> tuple[str, ...]:
        """The pairs that a line output plays, those left out that the car does not play."""
        if output in self.dead or self.on_body(output):
            return ()
        pairs = super().line_pairs(output)
        return tuple(pair for pair in pairs if all(map(self.leg_plays, pair.split(" and "))))

    def speaker_heard(self, speaker: str) -> bool:
        """Whether a speaker plays, through the job or straight from the car."""
        if speaker not in self._heard:
            self._heard[speaker] = self._is_heard(speaker)
        return self._heard[speaker]

    def _is_heard(self, speaker: str) -> bool:
        legs = legs_of(speaker)
        if speaker in self.dead or legs[0] not in self.index.terminals:
            return False
        return bool(self.speaker_plays(speaker)) or (
            all(map(self.leg_plays, legs)) and not self.joined(*legs)
        )


class Condition:
    """One job with one fault, or with none, at every time of the day."""

    def __init__(self, healthy: Healthy, fault: Fault | None = None) -> None:
        self.healthy, self.fault = healthy, fault
        self.circuit = fault.circuit if fault else healthy.circuit
        self._benches: dict[When, FaultyBench] = {}
        self._alike: dict[tuple[frozenset[EndId], bool], FaultyBench] = {}
        self.known: dict[str, Any] = {}  # what was worked out of it, by what it is

    @cached_property
    def dead(self) -> frozenset[str]:
        """The device, output or speaker that does nothing."""
        return self._at("device", "car")

    def _at(self, *kinds: FaultKind) -> frozenset[str]:
        ill = self.fault is not None and self.fault.kind in kinds
        return frozenset({self.fault.at}) if ill and self.fault else frozenset()

    @property
    def _touching(self) -> tuple[EndId, ...]:
        return self.fault.touching if self.fault else ()

    def has(self, kind: FaultKind, at: str = "") -> bool:
        """Whether a fault of this kind is in it, at this place or at any."""
        fault = self.fault
        return fault is not None and fault.kind == kind and at in ("", fault.at)

    @property
    def day(self) -> FaultyBench:
        """The job with the radio on, by day."""
        return self.at("day")

    def at(self, when: When) -> FaultyBench:
        """The job at a time: sources that are not live then switch nothing."""
        if when not in self._benches:
            self._benches[when] = self._bench(self._quiet_at(when), wakes=when != "asleep")
        return self._benches[when]

    def _bench(self, quiet: frozenset[EndId], *, wakes: bool) -> FaultyBench:
        """The job while some sources are not live: one bench for all times that are alike."""
        if (quiet, wakes) not in self._alike:
            units = tuple(_quietened(unit, quiet) for unit in self.circuit.units)
            self._alike[quiet, wakes] = FaultyBench(
                replace(self.circuit, units=units), self.healthy, self.dead,
                self._at("stays_awake"), self._touching, wakes=wakes,
            )  # fmt: skip
        return self._alike[quiet, wakes]

    def _quiet_at(self, when: When) -> frozenset[EndId]:
        live = {**self.healthy.live, **(self.fault.live if self.fault else {})}
        return frozenset(end for end, whens in live.items() if when not in whens)

    @cached_property
    def strong(self) -> FaultyBench:
        """The job without joints that conduct badly: what hangs on them alone is apart."""
        weak = self.fault.weak if self.fault else ()
        return FaultyBench(
            without_joints(self.circuit, weak), self.healthy, self.dead, frozenset(),
            self._touching,
        )  # fmt: skip

    @cached_property
    def index(self) -> CircuitIndex:
        """The circuit by names."""
        return CircuitIndex(self.circuit)


def _quietened(unit: Unit, quiet: frozenset[EndId]) -> Unit:
    if quiet.isdisjoint(each.id for each in unit.terminals):
        return unit
    return replace(
        unit,
        terminals=tuple(
            replace(each, role="passes") if each.id in quiet else each for each in unit.terminals
        ),
    )
