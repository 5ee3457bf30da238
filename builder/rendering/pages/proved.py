"""What of a car is proved and what is not yet, in a few lines on top of its page."""

from __future__ import annotations

from collections import defaultdict
from typing import Final, NamedTuple

from builder.model.vehicle import Vehicle
from builder.model.words import GRADE_BANDS, Function, GradeBand
from builder.proof.pin_proof import UNGRADED, Proofs

_PROVED: Final[frozenset[GradeBand]] = frozenset({"proven", "good"})
"""Grades that a plan builds on."""
_SAYS_NOTHING: Final[frozenset[Function]] = frozenset({"unknown", "not_used"})


class Proved(NamedTuple):
    """How many pins of a car are proved, of how many whose function is said; the others by grade.

    `unknown` are the pins of which nobody knows what they do.
    """

    proved: int
    of: int
    left: tuple[tuple[GradeBand, tuple[str, ...]], ...]
    unknown: tuple[str, ...]


def proved_of(vehicle: Vehicle, proofs: Proofs) -> Proved:
    """Return what is proved of a vehicle, the other pins by their grades, best first."""
    by_band: defaultdict[GradeBand, list[str]] = defaultdict(list)
    unknown = []
    for plug in vehicle.plugs:
        for pin in plug.pins:
            name = f"{plug.id}.{pin.cavity}"
            if pin.function == "unknown":
                unknown.append(name)
            elif pin.function not in _SAYS_NOTHING:
                by_band[proofs.get(pin.path, UNGRADED).band].append(name)
    left = tuple((b, tuple(by_band[b])) for b in GRADE_BANDS if by_band[b] and b not in _PROVED)
    proved = sum(len(by_band[band]) for band in _PROVED)
    return Proved(proved, proved + sum(len(pins) for _, pins in left), left, tuple(unknown))
