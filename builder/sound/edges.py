"""Where a pair falls off: 3 dB below its own level, at the low and at the high end."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.bands import (
    CORNER_UNKNOWN,
    CORNERS_CLEAR,
    chain_loss_db,
    level_lost_db,
    middle_db,
    sixths_of,
)
from builder.sound.response import Response
from builder.sound.results import Measured, Refused, Result
from builder.units import Decibels, Hertz, gain_factor_db

EDGE_DB: Final = -3.0
MOST_OPEN: Final = 1.25
"""How many times farther out an edge may lie than it is said to."""
_SLACK_DB: Final = 0.1


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
    points, corner_hz = sixths_of(response), chain_corner_hz or 0.0
    limit_db = middle_db(points) + EDGE_DB
    heard = _Heard(hz, db, response.error[inside], level_lost_db(points, corner_hz))
    low = _edge(heard, limit_db, True, corner_hz)
    return _own_edge(low, chain_corner_hz), _edge(heard, limit_db, False, 0.0)


class _Heard(NamedTuple):
    """A response where the sweep was, and by how much its level may have been lowered."""

    hz: Samples
    db: Samples
    error: Samples
    lost_db: Decibels


def _edge(heard: _Heard, limit_db: Decibels, at_low: bool, chain_corner_hz: Hertz) -> Result:
    """An outermost edge, and how far it goes when the limit is a little higher or lower.

    Lower by as much as lead and recorder take there: without them the pair reaches farther.
    """
    hz, db, error, lost_db = heard
    at_hz = _crossed(hz, db, limit_db, at_low)
    if at_hz is None:
        end_hz = hz[0] if at_low else hz[-1]
        side = "below" if at_low else "above"
        return Refused(f"it lies {side} {end_hz:.0f} Hz, where the sweep ends")
    noise = float(np.interp(at_hz, hz, error)) / 10 ** (limit_db / 20)
    slack_db = _SLACK_DB + gain_factor_db(1 + 2 * noise)
    lowest_db = limit_db - slack_db - chain_loss_db(at_hz, chain_corner_hz)
    limits_db = lowest_db, limit_db + slack_db + lost_db
    ends = [_crossed(hz, db, each_db, at_low) for each_db in limits_db]
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
