"""A speaker pair as a source of signal: its legs, what it carries and how it is biased."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from builder.model.house_defaults import HouseDefaults
from builder.model.legs import legs_of_pairs
from builder.model.names import channel_name
from builder.model.plugs import Pin, Plug, Reading
from builder.model.sound import Level, SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES, Channel, DrivenBy, DriverSeat, RadioOutputs
from builder.planning.tables import AUDIO_SUPPLY_V
from builder.planning.words import Topology

_SIDES: tuple[DriverSeat, ...] = ("left", "right")


@dataclass(frozen=True, slots=True)
class Leg:
    """One pin of a pair and the plug it stands in."""

    plug: Plug
    pin: Pin

    @property
    def name(self) -> str:
        """The pin as a person names it, e.g. "A.7"."""
        return f"{self.plug.id}.{self.pin.cavity}"

    @property
    def wire(self) -> str:
        """Insulation colours, or "not recorded"."""
        wire = self.pin.wire
        if wire is None:
            return "not recorded"
        return f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base


@dataclass(frozen=True, slots=True)
class Bias:
    """DC volts of the legs of a playing pair at volume 0, lowest and highest reading. [V]

    `at_audio_supply_v` is the highest bias carried over to the supply at which audio power is
    rated.
    """

    low_v: float
    high_v: float
    at_audio_supply_v: float


@dataclass(frozen=True, slots=True)
class Pair:
    """Two legs of one channel at one unit."""

    channel: Channel
    positive: Leg
    negative: Leg
    carries: SpeakerChannel | None
    driven_by: DrivenBy
    topology: Topology
    bias: Bias | None
    is_line: bool = False  # the line feed of a factory amplifier

    @property
    def named(self) -> str:
        """Its channel in words, as every sheet has it."""
        return channel_name(self.channel)

    @property
    def legs(self) -> tuple[Leg, Leg]:
        """Positive, then negative."""
        return (self.positive, self.negative)

    @property
    def side(self) -> DriverSeat | Literal[""]:
        """left, right or "" for a pair without a side."""
        return next((side for side in _SIDES if side in self.channel), "")

    @property
    def inverted(self) -> bool:
        """Whether the record says that the two legs are the other way round."""
        return self.carries is not None and self.carries.polarity == "inverted"


def find_pairs(vehicle: Vehicle, defaults: HouseDefaults) -> tuple[Pair, ...]:
    """Return every complete speaker pair of the record, in the order of its pins."""
    return tuple(
        _pair(vehicle, channel, Leg(*legs["positive"][0]), Leg(*legs["negative"][0]), defaults)
        for (function, channel, _), legs in legs_of_pairs(vehicle).items()
        if function == "speaker" and len(legs) == 2
    )


def find_line_pairs(vehicle: Vehicle, defaults: HouseDefaults) -> dict[Channel, Pair]:
    """Return the complete line feeds at the radio, by channel: the sound before the amplifier.

    What the record says of the speaker pair holds behind the amplifier: of the feed it is known
    only how loud it gets. Both legs are driven, or one may be; what the bias shows counts.
    """
    return {
        channel: _line_pair(vehicle, channel, Leg(*legs["positive"][0]), Leg(*legs["negative"][0]),
                            defaults)
        for (function, channel, unit), legs in legs_of_pairs(vehicle).items()
        if function == "line" and unit == "radio" and len(legs) == 2
    }  # fmt: skip


def _line_pair(
    vehicle: Vehicle, channel: Channel, positive: Leg, negative: Leg, defaults: HouseDefaults
) -> Pair:
    known, bias = vehicle.channel(channel), pair_bias(positive.pin, negative.pin)
    read = known.line_level if known else None
    level = (
        Level(clean_max_v_rms=read.clean_max_v_rms, at_volume_step=read.at_volume_step)
        if read
        else None
    )
    carries = SpeakerChannel(
        channel=channel,
        driven_by="radio",
        band="full",
        speaker_ohm=None,
        level=level,
        volume="variable",
    )
    topology = _topology("unknown", bias, defaults)
    return Pair(channel, positive, negative, carries, "radio", topology, bias, is_line=True)


def across_ohm(pair: Pair) -> float | None:
    """Return the ohms that were read across a pair at its plug, which is what it feeds. [Ω]"""
    for leg, other in (pair.legs, pair.legs[::-1]):
        for reading in leg.pin.readings:
            apart = reading.state == "unplugged" and reading.quantity == "ohm"
            if apart and reading.against == other.pin.cavity and reading.value:
                return reading.value
    return None


def _pair(
    vehicle: Vehicle, channel: Channel, positive: Leg, negative: Leg, defaults: HouseDefaults
) -> Pair:
    carries = vehicle.channel(channel)
    driven_by = _driven_by(vehicle, positive.plug, carries)
    bias = pair_bias(positive.pin, negative.pin)
    stated = vehicle.radio.outputs if driven_by == "radio" else "unknown"
    topology = _topology(stated, bias, defaults)
    return Pair(channel, positive, negative, carries, driven_by, topology, bias)


def _driven_by(vehicle: Vehicle, plug: Plug, carries: SpeakerChannel | None) -> DrivenBy:
    if plug.unit in ("radio", "amplifier"):
        return plug.unit
    if carries is not None:
        return carries.driven_by
    return "radio" if vehicle.factory_amplifier.feed == "none" else "amplifier"


def _topology(stated: RadioOutputs, bias: Bias | None, defaults: HouseDefaults) -> Topology:
    """What the record states, else what the bias of the legs shows. Silence is not an answer."""
    if stated in ("bridged", "common_ground"):
        return stated
    if bias is None:
        return "unknown"
    if bias.low_v >= defaults.biased_leg_min_v:
        return "bridged"
    return "common_ground" if bias.high_v <= defaults.off_max_v else "unknown"


def pair_bias(positive: Pin, negative: Pin) -> Bias | None:
    """Return the bias of a pair, or None unless both legs were read."""
    first, second = list(bias_readings(positive)), list(bias_readings(negative))
    if not first or not second:
        return None
    readings = first + second
    volts = [reading.value for reading in readings if reading.value is not None]
    return Bias(min(volts), max(volts), max(map(_at_audio_supply_v, readings)))


def bias_readings(pin: Pin) -> Iterator[Reading]:
    """Yield the readings that give the bias of a leg: DC volts, awake, volume 0, no load."""
    for reading in pin.readings:
        awake = reading.state == "radio_on_zero" and reading.quantity == "dc_v"
        if awake and reading.value is not None and reading.against in GROUND_REFERENCES:
            yield reading


def _at_audio_supply_v(reading: Reading) -> float:
    """The bias a leg would show on the audio supply.

    A leg above half of it is fed by a boosted, regulated rail and stays where it is; below, it
    follows the battery, and without battery volts the most it can be is taken.
    """
    value = reading.value or 0.0
    if value > AUDIO_SUPPLY_V / 2:
        return value
    if reading.battery_v:
        return min(value * AUDIO_SUPPLY_V / reading.battery_v, AUDIO_SUPPLY_V / 2)
    return AUDIO_SUPPLY_V / 2 if value > 0 else 0.0
