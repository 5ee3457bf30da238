"""What a line output stands between, and which of its limits a level does not keep."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Gain
from builder.planning.words import LineFlagKind
from builder.units import VoltsRms

_HAIR = 1e-9  # 0.9·4 is 3.6 in decimals


@dataclass(frozen=True, slots=True)
class LineDemand:
    """One line output between its sources and an amplifier channel.

    `summed` counts sources of the same content added inside the converter (left and right to
    mono: 2); a woofer and a tweeter that split one band count as 1. `full_v_rms` is what the
    amplifier gives at full power into its load, `set_v_rms` what the speaker may get.
    `full_band_ratio` is the level at the tone over what comes at the same time where no bass is
    missing: that must not clip the output either. `loaded_share` is what is left of the line's
    volts with every input joined to it; `sum_most` and `sum_least` what the amplifier makes of
    several equal inputs that it sums, over one.
    """

    source_v_rms: VoltsRms
    gain: Gain
    output_max_v_rms: VoltsRms
    sensitivity_min_v_rms: VoltsRms
    sensitivity_max_v_rms: VoltsRms
    pad_factor: float = 1.0
    summed: int = 1
    full_v_rms: VoltsRms | None = None
    set_v_rms: VoltsRms | None = None
    full_band_ratio: float = 1.0
    loaded_share: float = 1.0
    sum_most: float = 1.0
    sum_least: float = 1.0

    @property
    def most_in_v_rms(self) -> VoltsRms:
        """The most that one input takes while the others it is summed with get the same. [V]"""
        return self.sensitivity_max_v_rms / self.sum_most

    @property
    def least_in_v_rms(self) -> VoltsRms:
        """The least that one input needs, the others likewise. [V]"""
        return self.sensitivity_min_v_rms / self.sum_least

    @property
    def output_at_tone_v_rms(self) -> VoltsRms:
        """The most the output gives at the tone before it clips above it. [V]"""
        return self.output_max_v_rms * self.full_band_ratio

    @property
    def driven_v_rms(self) -> VoltsRms:
        """What the gain acts on: source, pad and sum together. [V]"""
        return self.source_v_rms * self.pad_factor * self.summed


@dataclass(frozen=True, slots=True)
class LineFlag:
    """A limit that a line level does not keep.

    Kinds: gain_out_of_range | line_above_output | line_above_input | line_below_sensitivity
    """

    kind: LineFlagKind
    value: float
    limit: float
    says: str


def gain_flags(limits: Gain, gain: float) -> list[LineFlag]:
    """Return whether a converter's gain cannot be set so."""
    if limits.minimum * (1 - _HAIR) <= gain <= limits.maximum * (1 + _HAIR):
        return []
    limit = limits.maximum if gain > limits.maximum else limits.minimum
    needed = shown(gain, 3, beside=limit)
    says = f"a gain of {needed} is outside {shown(limits.minimum)} to {shown(limits.maximum)}"
    return [LineFlag("gain_out_of_range", gain, limit, says)]


def line_flags(demand: LineDemand, line_v_rms: VoltsRms, defaults: HouseDefaults) -> list[LineFlag]:
    """Return which limits of converter and amplifier a line level does not keep; unrounded."""
    most_in, most_out = demand.most_in_v_rms, demand.output_max_v_rms
    least = defaults.sensitivity_room * demand.least_in_v_rms
    found = []
    reached = line_v_rms / demand.full_band_ratio
    if reached > most_out:
        line = shown(reached, 2, beside=most_out)
        above = "" if demand.full_band_ratio == 1 else " above the tone"
        says = f"{line} V{above} is more than the {shown(most_out)} V the converter gives"
        found.append(LineFlag("line_above_output", reached, most_out, says))
    if line_v_rms > most_in:
        line = shown(line_v_rms, 2, beside=most_in)
        says = f"{line} V is more than the {shown(most_in)} V the amplifier takes"
        found.append(LineFlag("line_above_input", line_v_rms, most_in, says))
    loaded = line_v_rms * demand.loaded_share
    if loaded < least:
        line = shown(loaded, 2, beside=least)
        behind = "" if demand.loaded_share == 1 else " with its inputs joined"
        says = f"{line} V{behind} is less than the {shown(least)} V the amplifier needs"
        found.append(LineFlag("line_below_sensitivity", loaded, least, says))
    return found
