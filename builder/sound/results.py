"""What a recording says: a value with its uncertainty, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias


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


class RecordingRefusedError(ValueError):
    """Nothing can be said of a whole recording; the message says why, and what to do."""
