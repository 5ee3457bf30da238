"""The shape of a response: sixths of an octave, and where it falls off."""

from __future__ import annotations

from collections.abc import Iterable
from math import log2
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.response import Response
from builder.sound.results import Measured, Refused, Result
from builder.units import Decibels, Hertz, gain_factor_db

PER_OCTAVE: Final = 6
SHAPE_FROM_HZ: Final = 20.0
SHAPE_TO_HZ: Final = 20_000.0
EDGE_DB: Final = -3.0
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
MOST_OPEN: Final = 1.25
"""How many times farther out an edge may lie than it is said to."""
_OWN_DB: Final = 0.03
_SLACK_DB: Final = 0.1


def centres_hz() -> Samples:
    """The middles of the sixths of an octave, 1 kHz being one of them."""
    steps = np.arange(-34, 27)
    hz = 1000.0 * 2.0 ** (steps / PER_OCTAVE)
    return np.asarray(hz[(hz >= SHAPE_FROM_HZ) & (hz <= SHAPE_TO_HZ)])


def shape_of(response: Response) -> tuple[tuple[float, Result], ...]:
    """Return the level of each sixth of an octave against the level of the pair. [Hz, dB]"""
    points = [(float(hz), _sixth(response, hz)) for hz in centres_hz()]
    middle_db = _middle_db(points)
    return tuple(
        (hz, Measured(level.value - middle_db, level.plus_minus))
        if isinstance(level, Measured)
        else (hz, level)
        for hz, level in points
    )


def own_shape(
    shape: Iterable[tuple[Hertz, Result]], chain_corner_hz: Hertz | None
) -> tuple[tuple[Hertz, Result], ...]:
    """Return a shape without what may be the doing of lead and recorder. [Hz, dB]

    Args:
        shape: As recorded.
        chain_corner_hz: Where lead and recorder are 3 dB down; 0 where they are taken out, None
            where nobody knows: an input that cuts the bass then cannot be told from the pair.
    """
    return tuple((hz, own_level(each, hz, chain_corner_hz)) for hz, each in shape)


def own_level(level: Result, hz: Hertz, chain_corner_hz: Hertz | None) -> Result:
    """Return a level at a frequency, refused where lead and recorder may have lowered it."""
    lowest_hz = UNKNOWN_BELOW_HZ if chain_corner_hz is None else CORNERS_CLEAR * chain_corner_hz
    if isinstance(level, Refused) or hz >= lowest_hz:
        return level
    if chain_corner_hz is None:
        return Refused(CORNER_UNKNOWN)
    return Refused(
        f"it is nearer than {CORNERS_CLEAR:g} times to the corner of lead and recorder at "
        f"{chain_corner_hz:.0f} Hz: record the player through them, without the car"
    )


def plays(shape: Iterable[tuple[Hertz, Result]], hz: Hertz) -> bool:
    """Return whether a tone is among what a pair plays: within 12 dB of its level."""
    known = [(abs(log2(at / hz)), level) for at, level in shape if isinstance(level, Measured)]
    near = min(known, key=lambda each: each[0], default=None)
    return near is not None and near[0] < 1 / PER_OCTAVE and near[1].value > FALLEN_DB


def pair_level_db(response: Response) -> Decibels:
    """Return the level of a pair that its shape and edges are counted from, against full scale."""
    return _middle_db([(float(hz), _sixth(response, hz)) for hz in centres_hz()])


def _middle_db(points: list[tuple[float, Result]]) -> Decibels:
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
    inside = (response.hz >= hz / factor) & (response.hz <= hz * factor)
    size = float(np.sqrt(np.mean(np.abs(response.values[inside]) ** 2)))
    error = float(np.sqrt(np.mean(response.error[inside] ** 2)))
    if size < 3 * error or size == 0:
        return Refused("it is lost in noise")
    return Measured(gain_factor_db(size), _OWN_DB + gain_factor_db(1 + 2 * error / size))


def edges_of(response: Response, chain_corner_hz: Hertz | None) -> tuple[Result, Result]:
    """Return where a pair is 3 dB below its level, at the low and at the high end. [Hz]

    Args:
        response: Of the pair.
        chain_corner_hz: Where lead and recorder are 3 dB down at the low end; 0 when their own
            response is already divided out; None when nobody knows.
    """
    inside = (response.hz >= response.from_hz) & (response.hz <= response.to_hz)
    hz, db = response.hz[inside], response.db[inside]
    if not np.count_nonzero(response.heard[inside]):
        lost = Refused("nothing of the pair is heard clearly enough")
        return lost, lost
    limit_db = pair_level_db(response) + EDGE_DB
    low, high = (
        _edge(hz, db, response.error[inside], limit_db, at_low) for at_low in (True, False)
    )
    return _own_edge(low, chain_corner_hz), high


def _edge(hz: Samples, db: Samples, error: Samples, limit_db: Decibels, at_low: bool) -> Result:
    """An outermost edge, and how far it goes when the limit is a little higher or lower."""
    at_hz = _crossed(hz, db, limit_db, at_low)
    if at_hz is None:
        end_hz = hz[0] if at_low else hz[-1]
        side = "below" if at_low else "above"
        return Refused(f"it lies {side} {end_hz:.0f} Hz, where the sweep ends")
    noise = float(np.interp(at_hz, hz, error)) / 10 ** (limit_db / 20)
    slack_db = _SLACK_DB + gain_factor_db(1 + 2 * noise)
    ends = [_crossed(hz, db, limit_db + off_db, at_low) for off_db in (-slack_db, slack_db)]
    ratios = [max(end_hz / at_hz, at_hz / end_hz) for end_hz in ends if end_hz]
    if len(ratios) < len(ends) or max(ratios) > MOST_OPEN:
        return Refused("it falls off too gently there to say where")
    return Measured(at_hz, at_hz * (max(ratios) - 1))


def _crossed(hz: Samples, db: Samples, limit_db: Decibels, at_low: bool) -> Hertz | None:
    """The outermost place where a response comes above a limit; None where its end is above."""
    order = slice(None) if at_low else slice(None, None, -1)
    along_hz, along_db = hz[order], db[order]
    first = int(np.argmax(along_db >= limit_db))
    if first == 0:
        return None
    share = (limit_db - along_db[first - 1]) / (along_db[first] - along_db[first - 1])
    return float(along_hz[first - 1] * (along_hz[first] / along_hz[first - 1]) ** share)


def _own_edge(edge: Result, chain_corner_hz: Hertz | None) -> Result:
    """A low edge, unless it may be that of the lead or recorder."""
    if isinstance(edge, Refused) or chain_corner_hz == 0:
        return edge
    if chain_corner_hz is None:
        return Refused(CORNER_UNKNOWN)
    if edge.value < CORNERS_CLEAR * chain_corner_hz:
        return Refused(
            f"at {edge.value:.0f} Hz it may be that of lead and recorder, whose corner is at "
            f"{chain_corner_hz:.0f} Hz: record the player through them, without the car"
        )
    return edge
