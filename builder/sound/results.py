"""What a recording says: a value with its uncertainty, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Final, TypeAlias

from builder.units import Decibels, gain_factor_db

CLEAR_OF_NOISE: Final = 10.0
"""How many times its standard error a level of a response has to be: noise then leaves 2 dB open.
Chosen by this project."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A value, in the unit that the key it stands under names.

    `plus_minus` holds the true value in 19 cases of 20, in the same unit.
    """

    value: float
    plus_minus: float


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a recording cannot say it, as a sentence that ends without a stop."""

    reason: str


Result: TypeAlias = Measured | Refused


def noise_db(size: float, error: float) -> Decibels:
    """Return what noise leaves open of a level in decibels: twice its standard error.

    Downwards, where that is more than upwards; infinite where the error is half of it.
    """
    left = 1 - 2 * error / size if size else 0.0
    return -gain_factor_db(left) if left > 0 else inf


class RecordingRefusedError(ValueError):
    """Nothing can be said of a whole recording; the message says why, and what to do."""
