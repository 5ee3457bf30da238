"""How far a job is joined when each line of its bay sheet is read, as its steps say.

A line finds only what stands by then: a joint that is made later cannot fail it, and neither can
what lies behind a plug that is off or a fuse that is not in yet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.planning.circuit.model import Circuit, Joint
from builder.planning.comeback.condition import Condition, Fault
from builder.planning.comeback.faults import ON_THE_BODY
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.healthy import Healthy
from builder.planning.comeback.touching import TOUCH
from builder.planning.course.car_states import plug_of
from builder.planning.course.places import plug_in
from builder.planning.words import MAIN_FUSE, HowItStands, UnitKind
from builder.planning.work_pack import BayTest

_DEVICES: tuple[UnitKind, ...] = ("converter", "amplifier", "crossover")


@dataclass(frozen=True, slots=True)
class Absent:
    """What is not there when a line is read: joints and parts by id. `held` are joints at a device
    whose end is still open: the probe is there instead. `dead` says that no current has flowed yet,
    so that no fuse is blown; at the table no wire lies on a body either."""

    joints: frozenset[str]
    parts: frozenset[str]
    held: frozenset[str]
    dead: bool


class AsJoined:
    """The circuit of a job at each line of its sheet."""

    def __init__(self, job: HandedOver) -> None:
        self.job = job
        self._tests = {test.id: test for test in job.pack.tests}
        self._absent = dict(self._walk())
        self._healthy: dict[Absent, Healthy] = {}

    def _walk(self) -> Iterator[tuple[str, Absent]]:
        """Every line with what is absent then, down the steps."""
        steps = self.job.pack.steps
        later = {joint for step in steps for joint in step.makes}
        plugs: dict[str, HowItStands] = {}
        for step in steps:
            plugs |= {each.what: each.value for each in step.moves}
            later -= {*step.makes}
            off = {joint.id for joint in self.job.circuit.joints if _is_off(joint, plugs)}
            for id in step.tests:
                yield id, self._at(self._tests[id], frozenset(later | off))

    def _at(self, test: BayTest, joints: frozenset[str]) -> Absent:
        held = frozenset(filter(self._at_device, joints)) if test.turn == "far_end" else frozenset()
        gone = joints | {ON_THE_BODY, TOUCH} if test.turn == "at_table" else joints
        return Absent(gone, frozenset(self._fuses_out(test)), held, _is_dead(test))

    def _at_device(self, joint: str) -> bool:
        """Whether a joint is the terminal of a device, at which a line reads its open end."""
        made = self.job.index.joints[joint]
        ends = [end for end in made.joins if end in self.job.index.terminals]
        return made.kind == "terminal" and any(
            self.job.index.unit_of(end).kind in _DEVICES for end in ends
        )

    def _fuses_out(self, test: BayTest) -> Iterator[str]:
        """The fuses that are not in yet: all but the main one are, once they are looked at."""
        if test.turn == "at_table" or not _is_dead(test):
            return
        for part in self.job.circuit.elements:
            if part.kind == "fuse" and (part.id == MAIN_FUSE or test.turn != "fused"):
                yield part.id

    def standing(self, line: str, fault: Fault | None) -> Condition:
        """Return the job with a fault, or with none, as far as it is joined at a line."""
        return self.with_absent(self._absent[line], fault)

    def absent_at(self, line: str) -> Absent:
        """Return what is not there when a line is read."""
        return self._absent[line]

    def with_absent(self, absent: Absent, fault: Fault | None) -> Condition:
        """Return the job with a fault, or with none, and without what is not there yet."""
        job = self.job
        if absent not in self._healthy:
            circuit = self._without(job.circuit, absent)
            self._healthy[absent] = replace(job.healthy, circuit=circuit)
        healthy = self._healthy[absent]
        if fault is None:
            return Condition(healthy)
        circuit = fault.circuit
        if absent.dead and fault.kind == "short_to_body":
            circuit = replace(circuit, elements=job.circuit.elements)
        return Condition(healthy, replace(fault, circuit=self._without(circuit, absent)))

    def _without(self, circuit: Circuit, absent: Absent) -> Circuit:
        held = (joint for joint in self.job.circuit.joints if joint.id in absent.held)
        return replace(
            circuit,
            joints=(*(joint for joint in circuit.joints if joint.id not in absent.joints), *held),
            elements=tuple(part for part in circuit.elements if part.id not in absent.parts),
        )


def _is_dead(test: BayTest) -> bool:
    """Whether a line is read before power comes to what was joined."""
    return test.phase in ("before", "build")


def _is_off(joint: Joint, plugs: dict[str, HowItStands]) -> bool:
    """Whether a joint is a plug of the car in its socket, and that plug is off."""
    if joint.kind != "plug_home":
        return False
    return any("." in end and plugs.get(plug_of(plug_in(end))) == "off" for end in joint.joins)
