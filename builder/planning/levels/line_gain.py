"""What a converter's line output is set to, the gain that takes, and whether it can."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import floor

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.levels.line_limits import LineDemand, LineFlag, gain_flags, line_flags
from builder.planning.power.tables import LINE_STEP_V
from builder.planning.words import GainBasis
from builder.units import Ohms, Volts, VoltsRms, require_positive

_HAIR = 1e-9  # 0.9·4 is 3.6 in decimals


def round_down_v(volts: VoltsRms) -> VoltsRms:
    """Return a line level rounded down to 0.1 V, float noise left out of account. [V]

    >>> round_down_v(5.3666)
    5.3
    """
    return round(floor(volts / LINE_STEP_V + _HAIR) * LINE_STEP_V, 1)


def pad_ratio(input_ohm: Ohms, pad_ohm: Ohms) -> float:
    """Return what a pad lets through, Z/(Z + 2·R), one resistor in each leg; 1 without a pad.

    Raises:
        ValueError: the impedance is not positive, or the pad is negative or not finite.

    >>> round(pad_ratio(10_000.0, 1200.0), 4)
    0.8065
    """
    pad = 0.0 if pad_ohm == 0 else require_positive("pad_ohm", pad_ohm)
    return require_positive("input_ohm", input_ohm) / (input_ohm + 2 * pad)


@dataclass(frozen=True, slots=True)
class LineGain:
    """A line level, the gain it takes, and each reduction on the way, in words."""

    line_v_rms: VoltsRms
    gain: float
    basis: GainBasis
    steps: tuple[str, ...]
    flags: tuple[LineFlag, ...]


def line_target_v(
    output_max_v_rms: VoltsRms, sensitivity_max_v_rms: VoltsRms, defaults: HouseDefaults
) -> VoltsRms:
    """Return 0.9 of the smaller line limit, rounded down to 0.1 V. [V]

    Raises:
        ValueError: a limit is not positive and finite.

    >>> line_target_v(8.0, 5.0, HouseDefaults())
    4.5
    """
    least = min(
        require_positive("output_max_v_rms", output_max_v_rms),
        require_positive("sensitivity_max_v_rms", sensitivity_max_v_rms),
    )
    return round_down_v(defaults.line_target_share * least)


def choose_gain(
    demand: LineDemand, defaults: HouseDefaults, at_most_v_rms: VoltsRms | None = None
) -> LineGain:
    """Return the line level and gain of one output.

    The target is lowered where the amplifier, its own gain at least, would still give the
    speaker too much, and where the converter's gain does not reach; a fixed gain is checked, not
    chosen. `at_most_v_rms` is the level of other outputs that this one must match.

    Raises:
        ValueError: a voltage is not positive and finite.
    """
    require_positive("source", demand.driven_v_rms)
    if demand.gain.fixed:
        line = demand.gain.minimum * demand.driven_v_rms
        return _finish(demand, line, "fixed", ("the gain is fixed",), defaults)
    line, basis, steps = _lowered_for_speaker(demand, defaults)
    if at_most_v_rms is not None and at_most_v_rms < line:
        line, basis = at_most_v_rms, "common"
        steps = (*steps, f"{line:g} V in common with the other outputs")
    return _within_gain(demand, line, basis, steps, defaults)


def choose_common_gains(
    demands: Iterable[LineDemand], defaults: HouseDefaults
) -> tuple[LineGain, ...]:
    """Return the gains of outputs that share one line level: the lowest that any of them takes.

    Raises:
        ValueError: no demand, or as `choose_gain`.
    """
    listed = tuple(demands)
    alone = [choose_gain(demand, defaults) for demand in listed]
    if not alone:
        raise ValueError("no output to set")
    least = min(choice.line_v_rms for choice in alone)
    return tuple(choose_gain(demand, defaults, least) for demand in listed)


def _lowered_for_speaker(
    demand: LineDemand, defaults: HouseDefaults
) -> tuple[Volts, GainBasis, tuple[str, ...]]:
    line = line_target_v(demand.output_at_tone_v_rms, demand.most_in_v_rms, defaults)
    share = f"{shown(defaults.line_target_share)} of the smaller line limit"
    if demand.output_at_tone_v_rms < min(demand.output_max_v_rms, demand.most_in_v_rms):
        share += (
            f", the output's {shown(demand.output_max_v_rms)} V, which it reaches above the tone "
            f"while the tone is at {shown(demand.output_at_tone_v_rms, 2)} V"
        )
    if demand.sum_most > 1:
        each = shown(demand.most_in_v_rms)
        share += f", {each} V at each of the inputs that the amplifier adds up"
    steps = (f"{share}: {shown(line)} V",)
    if demand.set_v_rms is None or demand.full_v_rms is None:
        return line, "target", steps
    # With its own gain at least, the amplifier gives full power for its greatest sensitivity.
    reached = demand.full_v_rms * line / demand.most_in_v_rms
    if reached <= demand.set_v_rms:
        return line, "target", steps
    lower = round_down_v(demand.set_v_rms * demand.most_in_v_rms / demand.full_v_rms)
    why = (
        f"the amplifier's gain at least would give {shown(reached, 1, beside=demand.set_v_rms)} V, "
        f"the speaker takes {shown(demand.set_v_rms, 1, beside=reached)} V: {shown(lower)} V"
    )
    return lower, "speaker_limited", (*steps, why)


def _within_gain(
    demand: LineDemand,
    line: Volts,
    basis: GainBasis,
    steps: tuple[str, ...],
    defaults: HouseDefaults,
) -> LineGain:
    hot, gain = demand.driven_v_rms, demand.gain
    if line / hot > gain.maximum:
        line = round_down_v(defaults.line_target_share * gain.maximum * hot)
        reached = shown(gain.maximum * hot, 2)
        why = f"a gain of at most {shown(gain.maximum)} reaches no more than {reached} V"
        return _finish(demand, line, "gain_limited", (*steps, f"{why}: {line:g} V"), defaults)
    if line / hot < gain.minimum:
        line = gain.minimum * hot
        why = f"a gain of at least {shown(gain.minimum)} gives {shown(line, 2)} V"
        return _finish(demand, line, "least_gain", (*steps, why), defaults)
    return _finish(demand, line, basis, steps, defaults)


def _finish(
    demand: LineDemand,
    line: Volts,
    basis: GainBasis,
    steps: tuple[str, ...],
    defaults: HouseDefaults,
) -> LineGain:
    gain = line / demand.driven_v_rms
    flags = (*gain_flags(demand.gain, gain), *line_flags(demand, line, defaults))
    return LineGain(line, gain, basis, steps, flags)
