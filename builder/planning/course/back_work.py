"""What the way back of a job is planned from."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.bay.work import BayWork
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.circuit.model import Circuit
from builder.planning.course.joined import Joined
from builder.planning.plan import TurnOn
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class BackWork:
    """A job that is in a car. `microphones` says whether those of the car's noise cancellation
    are unplugged."""

    parts: JobParts
    turn_on: TurnOn
    microphones: bool
    defaults: HouseDefaults
    joined: Joined

    @property
    def circuit(self) -> Circuit:
        """What is joined."""
        return self.joined.circuit


def planned_back(bay: BayWork, circuit: Circuit) -> BackWork:
    """Return the way back of a job that was carried out as planned."""
    out = microphones_out(bay.parts.vehicle, bay.selection)
    return BackWork(bay.parts, bay.plan.turn_on, out, bay.defaults, Joined(circuit))
