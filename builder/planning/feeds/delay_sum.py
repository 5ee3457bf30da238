"""What a delay does to a sum: of two bands at a crossover."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.feeds.band_sums import delay_limit_ms, phase_deg, sum_loss_db
from builder.units import (
    Decibels,
    Hertz,
    Milliseconds,
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

    >>> delay_sum(2900.0, 0.12).holds
    False
    """
    if delay_ms != 0:
        require_positive("delay_ms", delay_ms)
    limit = delay_limit_ms(hz)
    return DelaySum(hz, delay_ms, phase_deg(hz, delay_ms), sum_loss_db(hz, delay_ms), limit)
