"""Converters, amplifiers and cables as the plans see them."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.plugs import Wire


@dataclass(frozen=True, slots=True)
class ConverterInput:
    """One speaker-level input of a converter."""

    type: str  # floating | ground_referenced | switchable
    max_v_rms: float
    after_sum_max_v_rms: float | None
    impedance_ohm: float
    common_mode_max_v: float | None


@dataclass(frozen=True, slots=True)
class Gain:
    """Line volts out for speaker volts in. A fixed gain has minimum = maximum."""

    minimum: float
    maximum: float

    @property
    def fixed(self) -> bool:
        """Whether the gain cannot be set."""
        return self.minimum == self.maximum


@dataclass(frozen=True, slots=True)
class RemoteIn:
    """A turn-on input: what it draws and at what voltage it acts."""

    draw_ma: float
    threshold_v: float | None


@dataclass(frozen=True, slots=True)
class RemoteOut:
    """A turn-on output for the next device."""

    max_ma: float
    delay_s: float | None


@dataclass(frozen=True, slots=True)
class Supply:
    """What a device asks of 12 V."""

    min_v: float
    idle_a: float
    max_a: float | None
    fuse_a: float


@dataclass(frozen=True, slots=True)
class BassCorrection:
    """How much factory bass loss a converter can give back.

    `follows_level`: it gives back what is missing at each volume; otherwise it is a fixed boost.
    """

    max_db: float
    hz: float
    follows_level: bool


@dataclass(frozen=True, slots=True)
class Converter:
    """A line-level converter. A passive one has no supply and no turn-on."""

    id: str
    data: str
    name: str
    maker: str
    kind: str  # active | passive
    inputs: int
    outputs: int
    input: ConverterInput
    sum: str  # none | same_side | any
    gain: Gain
    output_max_v_rms: float
    output_at_supply_v: float | None
    output_impedance_ohm: float | None
    band_hz: tuple[float, float] | None
    supply: Supply | None
    remote_in: RemoteIn | None
    offset_wake_min_v: float | None  # None: it has none
    signal_wake_hold_s: float | None  # None: it has none
    remote_out: RemoteOut | None
    bass_rolloff_correction: BassCorrection | None
    input_load_ohm: float | None
    delay_adjust: str  # yes | no


@dataclass(frozen=True, slots=True)
class AmplifierChannels:
    """A group of equal channels of an amplifier. `power_w` is W RMS by load in ohms."""

    count: int
    use: str  # full_range | sub
    power_w: dict[float, float]
    min_ohm: float
    bridgeable: str
    sensitivity_min_v_rms: float
    sensitivity_max_v_rms: float


@dataclass(frozen=True, slots=True)
class Amplifier:
    """An amplifier."""

    id: str
    data: str
    name: str
    maker: str
    amplifier_class: str  # AB | D
    efficiency: float | None
    channels: tuple[AmplifierChannels, ...]
    supply: Supply
    turn_on: RemoteIn
    input_type: str
    speaker_level_in: str
    output_floating: str
    power_max_awg: str | None
    speaker_max_awg: str | None


@dataclass(frozen=True, slots=True)
class CablePair:
    """Two conductors that stay together."""

    positive: Wire
    negative: Wire


@dataclass(frozen=True, slots=True)
class Cable:
    """A cable on the shelf."""

    id: str
    data: str
    name: str
    use: str  # multi_conductor | speaker_pair | power
    size_awg: str | None
    size_mm2: float | None
    material: str  # copper | copper_clad_aluminium | unknown
    jacket: str
    pairs: tuple[CablePair, ...]
    singles: tuple[Wire, ...]
    shield: str
    on_reel_m: float | None
