"""The shape of a response by sixths of an octave, against the level of its pair."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import log2, log10
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.response import Response, points_between
from builder.sound.results import CLEAR_OF_NOISE, Measured, Refused, Result, noise_db
from builder.units import Decibels, Hertz, gain_factor_db

PER_OCTAVE: Final = 6
SHAPE_FROM_HZ: Final = 20.0
SHAPE_TO_HZ: Final = 20_000.0
FULL_WEIGHT_DB, NO_WEIGHT_DB = -3.0, -9.0
"""The level of a pair is the middle one of its sixths of an octave: those within 3 dB of the
loudest weigh one, those 9 dB below it nothing, between them by a straight line. So a bell of the
equaliser moves it little, and no small change of one of them moves it by a jump. Chosen by this
project."""
FALLEN_DB: Final = -12.0
"""Below it, against its level, a pair does not play a tone; it only lets some through. Chosen by
this project."""
CORNERS_CLEAR: Final = 3.0
"""How many times above the corner of lead and recorder an edge has to lie to be the pair's own:
at three times a first-order corner takes 0.46 dB. Chosen by this project."""
UNKNOWN_BELOW_HZ: Final = 200.0
"""Below it no level is told where nobody knows that corner. Chosen by this project."""
CORNER_UNKNOWN: Final = (
    "nobody said where lead and recorder fall off themselves: record the player through them, "
    "without the car, or say their corner"
)
_OWN_DB: Final = 0.05


def centres_hz() -> Samples:
    """The middles of the sixths of an octave, 1 kHz being one of them."""
    steps = np.arange(-34, 27)
    hz = 1000.0 * 2.0 ** (steps / PER_OCTAVE)
    return np.asarray(hz[(hz >= SHAPE_FROM_HZ) & (hz <= SHAPE_TO_HZ)])


def shape_of(response: Response) -> tuple[tuple[float, Result], ...]:
    """Return the level of each sixth of an octave against the level of the pair. [Hz, dB]"""
    points = sixths_of(response)
    level_db = middle_db(points)
    return tuple(
        (hz, Measured(level.value - level_db, level.plus_minus))
        if isinstance(level, Measured)
        else (hz, level)
        for hz, level in points
    )


def own_shape(
    response: Response, chain_corner_hz: Hertz | None
) -> tuple[tuple[Hertz, Result], ...]:
    """Return a shape without what may be the doing of lead and recorder. [Hz, dB]

    Args:
        response: Of the pair.
        chain_corner_hz: Where lead and recorder are 3 dB down; 0 where they are taken out, None
            where nobody knows: an input that cuts the bass then cannot be told from the pair.
    """
    more_db = level_lost_db(sixths_of(response), chain_corner_hz)
    return tuple(
        (hz, own_level(_opened(each, more_db), hz, chain_corner_hz))
        for hz, each in shape_of(response)
    )


def _opened(level: Result, more_db: Decibels) -> Result:
    if isinstance(level, Refused):
        return level
    return Measured(level.value, level.plus_minus + more_db)


def own_level(
    level: Result, hz: Hertz, chain_corner_hz: Hertz | None, *, in_volts: bool = False
) -> Result:
    """Return a level at a frequency, refused where lead and recorder may have lowered it.

    Else what they take at most is added to what it may be wrong by, in dB or in volts.
    """
    if isinstance(level, Refused):
        return level
    lowest_hz = UNKNOWN_BELOW_HZ if chain_corner_hz is None else CORNERS_CLEAR * chain_corner_hz
    if hz >= lowest_hz:
        lost_db = chain_loss_db(hz, chain_corner_hz or 0.0)
        more = level.value * (10 ** (lost_db / 20) - 1) if in_volts else lost_db
        return Measured(level.value, level.plus_minus + more)
    if chain_corner_hz is None:
        return Refused(CORNER_UNKNOWN)
    return Refused(
        f"it is nearer than {CORNERS_CLEAR:g} times to the corner of lead and recorder at "
        f"{chain_corner_hz:.0f} Hz: record the player through them, without the car"
    )


def chain_loss_db(hz: Hertz, chain_corner_hz: Hertz) -> Decibels:
    """Return what lead and recorder take at most of a frequency above their corner. [dB]

    10·log10(1 + (f_c/f)²), as of a filter of the first order: steeper ones take less there.
    """
    return 10 * log10(1 + (chain_corner_hz / hz) ** 2)


def plays(shape: Iterable[tuple[Hertz, Result]], hz: Hertz) -> bool:
    """Return whether a tone is among what a pair plays: within 12 dB of its level."""
    known = [(abs(log2(at / hz)), level) for at, level in shape if isinstance(level, Measured)]
    near = min(known, key=lambda each: each[0], default=None)
    return near is not None and near[0] < 1 / PER_OCTAVE and near[1].value > FALLEN_DB


def pair_level_db(response: Response) -> Decibels:
    """Return the level of a pair that its shape and edges are counted from, against full scale."""
    return middle_db(sixths_of(response))


def sixths_of(response: Response) -> list[tuple[Hertz, Result]]:
    """Return the level of each sixth of an octave against full scale. [Hz, dB]"""
    return [(float(hz), _sixth(response, hz)) for hz in centres_hz()]


def level_lost_db(
    points: Sequence[tuple[Hertz, Result]], chain_corner_hz: Hertz | None
) -> Decibels:
    """Return how much lead and recorder may have lowered the level of a pair."""
    raised = [
        (hz, Measured(each.value + chain_loss_db(hz, chain_corner_hz or 0.0), each.plus_minus))
        if isinstance(each, Measured)
        else (hz, each)
        for hz, each in points
    ]
    return abs(middle_db(raised) - middle_db(points))


def middle_db(points: Iterable[tuple[Hertz, Result]]) -> Decibels:
    """Return the level of a pair by its sixths of an octave; 0 where none of them is told."""
    levels = [level.value for _, level in points if isinstance(level, Measured)]
    if not levels:
        return 0.0
    ordered = np.sort(np.array(levels))
    fallen_db = ordered - ordered[-1]
    weights = np.clip((fallen_db - NO_WEIGHT_DB) / (FULL_WEIGHT_DB - NO_WEIGHT_DB), 0, 1)
    middles = np.cumsum(weights) - weights / 2
    return float(np.interp(np.sum(weights) / 2, middles, ordered))


def _sixth(response: Response, hz: Hertz) -> Result:
    factor = 2 ** (0.5 / PER_OCTAVE)
    if hz / factor < response.from_hz or hz * factor > response.to_hz:
        return Refused("the sweep does not reach it")
    points = points_between(response.hz, hz / factor, hz * factor)
    size = _rms(points, 10 ** (np.interp(points, response.hz, response.db) / 10))
    error = _rms(points, np.interp(points, response.hz, response.error**2))
    if size < CLEAR_OF_NOISE * error or size == 0:
        return Refused("it is lost in noise")
    return Measured(gain_factor_db(size), _OWN_DB + noise_db(size, error))


def _rms(points: Samples, power: Samples) -> float:
    return float(np.sqrt(np.trapezoid(power, points) / (points[-1] - points[0])))
