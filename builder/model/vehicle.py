"""A vehicle record: one scope of cars, and what the record says of them.

Every part that a rule may point at carries `path`, its place in the record's data. The parts
of plugs and of sound have modules of their own.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.findings import DataPath
from builder.model.plugs import FaceRefusal, FusePosition, Plug, Session
from builder.model.sound import ProtectedSound, SpeakerChannel
from builder.model.words import (
    AmplifierFeed,
    Channel,
    ChargingBy,
    Cost,
    Origin,
    RadioOutputs,
    Side,
    Tri,
)


@dataclass(frozen=True, slots=True)
class Scope:
    """Which cars a record is about. Empty option tuples mean no condition."""

    year_from: int
    year_to: int
    build_from: str | None  # YYYY-MM
    build_to: str | None
    bodies: tuple[str, ...]
    markets: tuple[str, ...]
    drive_side: Side
    trims: tuple[str, ...]
    options_any: tuple[str, ...]
    options_none: tuple[str, ...]
    radios: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer to a tell-apart question; `means` is a record id, or "this"."""

    answer: str
    means: str


@dataclass(frozen=True, slots=True)
class Question:
    """A question that tells sister scopes apart."""

    question: str
    cost: Cost
    answers: tuple[Answer, ...]
    path: DataPath


@dataclass(frozen=True, slots=True)
class Fastener:
    """What holds the radio in."""

    head: str
    count: int


@dataclass(frozen=True, slots=True)
class Removal:
    """How the radio comes out."""

    steps: tuple[str, ...]
    fasteners: tuple[Fastener, ...]
    hazards: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Radio:
    """The factory radio as a signal source."""

    outputs: RadioOutputs
    label_w: float | None  # printed power a channel [W]
    open_load_check: Tri
    data_wake: Tri
    removal: Removal | None


@dataclass(frozen=True, slots=True)
class FactoryAmplifier:
    """The amplifier the factory fitted, if any.

    `rail_v` is the supply of its output stages where that is raised above the battery's; None
    where it is not, or nobody knows.
    """

    feed: AmplifierFeed
    location: str | None
    rail_v: float | None = None


@dataclass(frozen=True, slots=True)
class Features:
    """Things in the car that change what a plan may do."""

    start_stop: Tri
    hybrid: Tri
    noise_cancellation: Tri
    engine_sound: Tri
    emergency_call: Tri


@dataclass(frozen=True, slots=True)
class Battery:
    """The 12 V battery."""

    location: str
    capacity_ah: float | None
    sensor_on_negative: Tri


@dataclass(frozen=True, slots=True)
class Power:
    """What the car can give. Every figure is None when not known."""

    battery: Battery
    charging_by: ChargingBy | None
    charging_a: float | None
    base_load_a: float | None
    base_load_key_off_a: float | None
    supply_lead_m: float | None
    ground_lead_m: float | None
    charging_idle_a: float | None = None  # measured at hot idle


@dataclass(frozen=True, slots=True)
class Safety:
    """What can hurt a person. `restraint_wait_min` is None when unknown."""

    restraint_zones: tuple[str, ...]
    high_voltage_zones: tuple[str, ...]
    restraint_wait_min: float | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A finding the record declares as expected."""

    rule: str
    at: str | None
    reason: str
    who: str
    path: DataPath


@dataclass(frozen=True, slots=True)
class Resolution:
    """How a dispute about a pin ended. `retires` names sessions or contributors that lost."""

    pin: str  # plug and cavity, "A.4"
    by: str
    date: str  # YYYY-MM-DD
    deciding: str
    retires: tuple[str, ...]
    path: DataPath
    outcome: str | None = None  # what the pin is now held for, in words


@dataclass(frozen=True, slots=True)
class Vehicle:
    """One vehicle record."""

    id: str
    data: Origin
    make: str
    model: str
    variant: str
    generation: str | None
    scope: Scope
    how_to_tell: tuple[Question, ...]
    radio: Radio
    factory_amplifier: FactoryAmplifier
    features: Features
    protected_sounds: tuple[ProtectedSound, ...]
    power: Power
    safety: Safety
    fuse_positions: tuple[FusePosition, ...]
    channels: tuple[SpeakerChannel, ...]
    sessions: tuple[Session, ...]
    plugs: tuple[Plug, ...]
    accept: tuple[Acceptance, ...]
    edited: str | None
    resolutions: tuple[Resolution, ...] = ()
    face_refusals: tuple[FaceRefusal, ...] = ()  # made by `proof.turning`, never typed

    def plug(self, plug_id: str) -> Plug | None:
        """The plug with this id, or None."""
        return next((plug for plug in self.plugs if plug.id == plug_id), None)

    def session(self, session_id: str) -> Session | None:
        """The session with this id, or None."""
        return next((s for s in self.sessions if s.id == session_id), None)

    def channel(self, name: Channel) -> SpeakerChannel | None:
        """What the pair `name` carries, or None when the record does not say."""
        return next((c for c in self.channels if c.channel == name), None)

    @property
    def title(self) -> str:
        """Make, model, years and variant, as a person would say them."""
        scope = self.scope
        years = (
            str(scope.year_from)
            if scope.year_from == scope.year_to
            else f"{scope.year_from}–{scope.year_to}"
        )
        return f"{self.make} {self.model} {years}, {self.variant}"
