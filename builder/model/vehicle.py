"""A vehicle record: one scope of cars, its plugs, its pins and what was measured on them.

Every part that a rule may point at carries `path`, its place in the record's data.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.findings import DataPath
from builder.model.words import (
    AmplifierFeed,
    Band,
    Channel,
    ClaimMethod,
    Cost,
    Face,
    Function,
    Leg,
    Load,
    Quantity,
    RadioOutputs,
    Side,
    State,
    Tri,
    Unit,
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
    """The amplifier the factory fitted, if any."""

    feed: AmplifierFeed
    location: str | None


@dataclass(frozen=True, slots=True)
class Features:
    """Things in the car that change what a plan may do."""

    start_stop: Tri
    hybrid: Tri
    noise_cancellation: Tri
    engine_sound: Tri
    emergency_call: Tri


@dataclass(frozen=True, slots=True)
class ProtectedSound:
    """A sound that must still be heard after the work."""

    sound: str
    channels: tuple[Channel, ...]
    plays_key_off: Tri
    path: DataPath


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
    charging_by: str | None  # alternator | dcdc
    charging_a: float | None
    base_load_a: float | None
    base_load_key_off_a: float | None
    supply_lead_m: float | None
    ground_lead_m: float | None


@dataclass(frozen=True, slots=True)
class Safety:
    """What can hurt a person. `restraint_wait_min` is None when unknown."""

    restraint_zones: tuple[str, ...]
    high_voltage_zones: tuple[str, ...]
    restraint_wait_min: float | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Session:
    """One visit with a meter: who, when, on which car, reading from which face."""

    id: str
    by: str
    date: str  # YYYY-MM-DD
    car_tag: str
    car_year: int | None
    car_built: str | None
    car_trim: str | None
    car_drive_side: Side | None
    method: str  # meter | scope
    read_from: Face
    against: str
    impedance_mohm: float | None
    true_rms: Tri
    path: DataPath


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure off a meter. `value` is None for an open circuit (ohms only).

    `against` is "battery_negative", "body", "4" (a cavity of the same plug) or "B.4".
    """

    session: str
    state: State
    quantity: Quantity
    value: float | None
    against: str
    battery_v: float | None
    load: Load
    minutes: float | None
    volume_step: int | None
    tone_hz: float | None
    note: str | None
    path: DataPath


@dataclass(frozen=True, slots=True)
class Claim:
    """What somebody says of a pin without having measured it."""

    by: str
    date: str
    method: ClaimMethod
    says: Function
    channel: Channel | None
    leg: Leg | None
    source: str | None
    path: DataPath


@dataclass(frozen=True, slots=True)
class Wire:
    """Insulation colours and conductor size; base colour first, stripe second."""

    base: str
    stripe: str | None
    size_mm2: float | None
    size_awg: str | None


@dataclass(frozen=True, slots=True)
class Fuse:
    """The fuse that feeds a supply pin."""

    place: str
    rating_a: float | None


@dataclass(frozen=True, slots=True)
class Condition:
    """The part of the scope for which a line holds."""

    trims: tuple[str, ...]
    options_any: tuple[str, ...]
    options_none: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pin:
    """One described cavity of a plug."""

    cavity: str
    function: Function
    channel: Channel | None
    leg: Leg | None
    wire: Wire | None
    fuse: Fuse | None
    max_source_ma: float | None
    level_v: float | None
    only_if: Condition | None
    readings: tuple[Reading, ...]
    claims: tuple[Claim, ...]
    note: str | None
    path: DataPath


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A plug that could be taken for this one, and how to tell."""

    plug: str | None
    housing: str | None
    fits: Tri
    tell: tuple[str, ...]
    path: DataPath


@dataclass(frozen=True, slots=True)
class Plug:
    """One plug of the vehicle."""

    id: str
    name: str
    unit: Unit
    location: str
    housing: str
    shell_colours: tuple[str, ...]
    read_from: Face
    empty: tuple[str, ...]
    look_alikes: tuple[LookAlike, ...]
    pins: tuple[Pin, ...]
    path: DataPath


@dataclass(frozen=True, slots=True)
class Level:
    """How loud a pair gets. `clean_max_v_rms` is measured; `label_w` is only printed."""

    clean_max_v_rms: float | None
    at_volume_step: int | None
    label_w: float | None
    label_ohm: float | None


@dataclass(frozen=True, slots=True)
class BassPoint:
    """Level at a low frequency at one volume step, against 200 Hz."""

    volume_step: int
    hz: float
    db: float


@dataclass(frozen=True, slots=True)
class SpeakerChannel:
    """What one factory speaker pair carries."""

    channel: Channel
    driven_by: str  # radio | amplifier
    speaker_ohm: float | None
    band: Band
    lowpass_hz: float | None
    highpass_hz: float | None
    level: Level | None
    delay_ms: float | None
    polarity: str  # normal | inverted | unknown
    volume: str  # variable | fixed | unknown
    upmix: Tri
    bass_table: tuple[BassPoint, ...]
    in_line: tuple[str, ...]  # fader | series_capacitor | second_speaker | ...
    shared_return: Tri
    path: DataPath


@dataclass(frozen=True, slots=True)
class FusePosition:
    """A fuse-panel position that could feed a turn-on lead."""

    position: str
    panel: str
    label: str
    function: Function
    rating_a: float | None
    readings: tuple[Reading, ...]
    path: DataPath


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


@dataclass(frozen=True, slots=True)
class Vehicle:
    """One vehicle record."""

    id: str
    data: str  # invented | measured
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

    def plug(self, plug_id: str) -> Plug | None:
        """The plug with this id, or None."""
        return next((plug for plug in self.plugs if plug.id == plug_id), None)

    def session(self, session_id: str) -> Session | None:
        """The session with this id, or None."""
        return next((s for s in self.sessions if s.id == session_id), None)

    def channel(self, name: str) -> SpeakerChannel | None:
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
