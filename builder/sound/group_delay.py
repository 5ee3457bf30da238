"""How much later each part of the sound comes on one pair than on another."""

from __future__ import annotations

from math import log2
from typing import Final

import numpy as np

from builder.sound.bands import PER_OCTAVE, centres_hz
from builder.sound.between import Between
from builder.sound.results import Measured, Refused, Result
from builder.units import Hertz

FEWEST: Final = 5
"""Points of the phase that a slope is laid through at least."""
_METHOD_MS: Final = 0.002
_RESIDUES: Final = 3.0
"""How many times what a straight line leaves, over half its width, a slope may be wrong by."""


def group_delay_of(phases: Between | None) -> tuple[tuple[Hertz, Result], ...]:
    """Return how much later the second of two pairs comes, by sixths of an octave. [Hz, ms]

    Of a pair alone it is not known, since nobody knows when a frequency was played. Source: the
    group delay is −dφ/dω; by a straight line through a third of an octave.
    """
    return tuple((float(hz), _at(phases, float(hz))) for hz in centres_hz())


def _at(phases: Between | None, hz: Hertz) -> Result:
    if phases is None:
        return Refused("the two pairs play nothing in common that is heard")
    near = np.abs(np.log2(phases.hz / hz)) <= 1 / PER_OCTAVE
    ends = np.abs(np.log2(phases.hz[[0, -1]] / hz))
    if np.count_nonzero(near) < FEWEST or not phases.hz[0] <= hz <= phases.hz[-1]:
        return Refused("it is not heard on both pairs")
    if min(ends) < 1 / PER_OCTAVE - log2(1.001):
        return Refused("it lies at the end of what is heard on both pairs")
    turns = 2 * np.pi * phases.hz[near] / 1000  # [rad/ms]
    line = np.polyfit(turns, phases.phase[near], 1)
    left = float(np.max(np.abs(phases.phase[near] - np.polyval(line, turns))))
    half = float(turns[-1] - turns[0]) / 2
    return Measured(-float(line[0]), _METHOD_MS + _RESIDUES * left / half)
