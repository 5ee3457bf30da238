"""What a delay does to a sum: of two bands at a crossover, of two sides in the bass."""

from __future__ import annotations

from cmath import exp as cexp
from collections.abc import Iterable
from dataclasses import dataclass
from math import pi

from builder.planning.feeds.band_sums import delay_limit_ms, phase_deg, sum_loss_db
from builder.planning.power.tables import BASS_SUM_HZ
from builder.units import (
    Decibels,
    Hertz,
    Milliseconds,
    VoltsRms,
    gain_factor_db,
    require_positive,
)


@dataclass(frozen=True, slots=True)
class DelaySum:
    """Two equal signals a delay apart at one frequency, in phase otherwise."""

    hz: Hertz
    delay_ms: Milliseconds
    phase_deg: float
    loss_db: Decibels  # against no delay; 0 or less
    limit_ms: Milliseconds  # costs 3 dB

    @property
    def holds(self) -> bool:
        """Whether the delay is within the limit, unrounded."""
        return self.delay_ms <= self.limit_ms


def delay_sum(hz: Hertz, delay_ms: Milliseconds) -> DelaySum:
    """Return what a delay costs at a frequency: φ = 360·f·Δt, loss 20·log10|cos(φ/2)|.

    Raises:
        ValueError: the frequency is not positive, or the delay is negative or not finite.
    Source: the sum of two equal phasors.
    """
    if delay_ms != 0:
        require_positive("delay_ms", delay_ms)
    limit = delay_limit_ms(hz)
    return DelaySum(hz, delay_ms, phase_deg(hz, delay_ms), sum_loss_db(hz, delay_ms), limit)


def bass_sum(delay_ms: Milliseconds, hz: Hertz = BASS_SUM_HZ) -> DelaySum:
    """Return what a delay between two sides costs a mono bass; its limit is 3.1 ms at 80 Hz.

    Raises:
        ValueError: as `delay_sum`.
    """
    return delay_sum(hz, delay_ms)


def summed_v_rms(
    parts: Iterable[tuple[VoltsRms, Milliseconds]], hz: Hertz, *, inverted: int | None = None
) -> VoltsRms:
    """Return the level of delayed signals of one content added together. [V RMS]

    Args:
        parts: Each level and its delay.
        hz: Where.
        inverted: Index of a part whose legs are swapped, or None.
    Raises:
        ValueError: no part, or a level or the frequency is not positive and finite.
    """
    require_positive("hz", hz)
    vectors = [
        _phasor(v_rms, delay, hz) * (-1.0 if i == inverted else 1.0)
        for i, (v_rms, delay) in enumerate(parts)
    ]
    if not vectors:
        raise ValueError("nothing to add")
    return abs(sum(vectors))


def _phasor(v_rms: VoltsRms, delay_ms: Milliseconds, hz: Hertz) -> complex:
    return require_positive("level", v_rms) * cexp(-2j * pi * hz * delay_ms / 1000)


def sum_gain_db(levels_v_rms: Iterable[VoltsRms]) -> Decibels:
    """Return how far a sum in phase lies over its loudest part: 6.02 dB for two equal ones. [dB]

    The converter's input stage must have room for this after the sum.

    Raises:
        ValueError: no level, or one is not positive and finite.
    """
    levels = [require_positive("level", level) for level in levels_v_rms]
    if not levels:
        raise ValueError("nothing to add")
    return gain_factor_db(sum(levels) / max(levels))
