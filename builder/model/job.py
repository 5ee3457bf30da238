"""A job: one car, what the customer wants, the parts chosen, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from builder.findings import DataPath
from builder.model.vehicle import Acceptance
from builder.model.words import (
    Carries,
    Channel,
    FuseShape,
    GroundPoint,
    Listening,
    Material,
    Origin,
    Treatment,
    Tri,
)

PadWish: TypeAlias = Literal["auto", "none"] | float
"""Whether a source too loud for its input gets a resistor in each leg: as the plan finds it
needed, never, or one of so many ohms in every pair."""


AT_RADIO: Final = "radio"
AT_CONVERTER: Final = "converter"
"""What the places of the two are called in a route; other places are free text."""


@dataclass(frozen=True, slots=True)
class JobCar:
    """The car in the bay. `answers` are question and answer, as typed."""

    tag: str
    year: int | None
    built: str | None
    trim: str | None
    answers: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class JobAmplifier:
    """An amplifier of the job; `part` is a record id."""

    name: str
    part: str
    place: str
    path: DataPath


@dataclass(frozen=True, slots=True)
class JobLead:
    """A wire to a speaker. Sizes are None until chosen."""

    length_m: float
    size_awg: str | None
    size_mm2: float | None


@dataclass(frozen=True, slots=True)
class JobSpeaker:
    """A speaker that an amplifier of the job drives, and the factory pairs it plays."""

    name: str
    channel: Channel
    nominal_ohm: float
    rated_w_rms: float
    existing: bool
    existing_lead: JobLead | None
    lead: JobLead | None
    amplifier: str
    amplifier_channel: int  # from 1, counted through the amplifier's groups
    plays: tuple[Channel, ...]
    overlap: bool
    path: DataPath


@dataclass(frozen=True, slots=True)
class Route:
    """A measured way through the car."""

    from_place: str
    to_place: str
    carries: Carries
    length_m: float
    zones: tuple[str, ...]
    measured_by: str | None
    path: DataPath


@dataclass(frozen=True, slots=True)
class JobBranch:
    """A supply branch from a distribution block to one amplifier."""

    amplifier: str
    out_m: float
    return_m: float


@dataclass(frozen=True, slots=True)
class JobSupply:
    """The supply of what is added. None where unknown or left to the tool."""

    supply_lead_m: float | None
    ground_lead_m: float | None
    fuse_to_battery_m: float | None
    fuse_family: FuseShape
    material: Material
    size_awg: str | None
    size_mm2: float | None
    branches: tuple[JobBranch, ...]
    ground_point: GroundPoint
    listening: Listening
    locks_per_day: float | None
    wake_hold_min: float | None
    idle_a: float | None
    parked_ma: float | None
    path: DataPath


@dataclass(frozen=True, slots=True)
class TurnOnLoad:
    """Something else the turn-on lead has to switch."""

    name: str
    draw_ma: float
    coil: bool
    diode: Tri
    path: DataPath


@dataclass(frozen=True, slots=True)
class Result:
    """A filled-in line of the bay sheet."""

    test: str
    value: float | None
    passed: bool | None
    by: str
    date: str
    path: DataPath
    battery_v: float | None = None  # read beside `value`


@dataclass(frozen=True, slots=True)
class FollowUp:
    """What was heard of the job later."""

    date: str
    outcome: str


@dataclass(frozen=True, slots=True)
class Job:
    """One job record. `treatment` is empty for auto."""

    id: str
    data: Origin
    title: str
    vehicle: str
    car: JobCar
    wanted: str
    protect: tuple[str, ...]
    converter: str
    converter_place: str
    pad: PadWish
    amplifiers: tuple[JobAmplifier, ...]
    speakers: tuple[JobSpeaker, ...]
    treatment: dict[Channel, Treatment]
    routes: tuple[Route, ...]
    cables: tuple[str, ...]
    supply: JobSupply
    other_turn_on_loads: tuple[TurnOnLoad, ...]
    accept: tuple[Acceptance, ...]
    results: tuple[Result, ...]
    follow_up: tuple[FollowUp, ...]
    edited: str | None

    def amplifier(self, name: str) -> JobAmplifier | None:
        """The amplifier of that name, or None."""
        return next((each for each in self.amplifiers if each.name == name), None)
