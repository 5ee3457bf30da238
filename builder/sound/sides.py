"""Which side a pair plays, how well the sides are apart, how loud its noise is, what was muted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.marks import Placed
from builder.sound.response import Response
from builder.sound.results import Measured, Refused, Result
from builder.sound.tones import Tone, envelope
from builder.sound.track import (
    FIRST_SWEEP,
    LAST_SWEEP,
    LOUD_SWEEP,
    METER_TONE,
    SIDE_TONES_HZ,
    SILENCE,
    Part,
    Sides,
    Track,
)
from builder.units import Decibels, gain_factor_db

BOTH_WITHIN_DB: Final = 3.0
MUTED_DB: Final = 10.0
"""How much softer than it should be a part is that counts as muted. Both chosen by this project."""
_STRETCH_S: Final = 0.05
_SHORTEST: Final = 3
_CLEAR: Final = 4.0


def side_of(tones: Mapping[str, Tone]) -> tuple[Sides | Refused, Result]:
    """Return the side that a pair plays, and how much softer the other one is on it. [dB]"""
    heard = [
        [tones[f"{side} alone, {hz:.0f} Hz"] for hz in SIDE_TONES_HZ] for side in ("left", "right")
    ]
    left, right = max(zip(*heard, strict=True), key=lambda both: max(t.rms for t in both))
    loud, soft = (left, right) if left.rms >= right.rms else (right, left)
    if loud.rms < 10 * loud.error_rms:
        why = Refused("neither side alone is heard on this pair")
        return why, why
    if soft.rms < 3 * soft.error_rms:
        apart = gain_factor_db(loud.rms / (3 * soft.error_rms))
        return _side(left, right), Refused(f"more than {apart:.0f} dB, which noise hides")
    apart = gain_factor_db(loud.rms / soft.rms)
    error_db = 0.05 + soft.error_db
    return _side(left, right), Measured(apart, error_db)


def _side(left: Tone, right: Tone) -> Sides:
    if max(left.rms, right.rms) < min(left.rms, right.rms) * 10 ** (BOTH_WITHIN_DB / 20):
        return "both"
    return "left" if left.rms > right.rms else "right"


def noise_rms(channel: Samples, track: Track, placed: Placed) -> float:
    """Return what stands on a channel while the track is silent, in RMS of full scale."""
    part = track.named(SILENCE)
    heard, _ = placed.cut(channel, part.start_s + 0.1, part.end_s - 0.1)
    return float(np.std(heard))


def muted_parts(
    channel: Samples,
    track: Track,
    placed: Placed,
    response: Response,
    tones: Mapping[str, Tone],
) -> tuple[str, ...]:
    """Return the names of parts that are much softer than this pair plays their frequencies.

    A burst is compared with the others of its step and tone, since its volume is its own.
    """
    noise = noise_rms(channel, track, placed)
    meter = track.named(METER_TONE)
    found = [
        *(
            [meter.name]
            if _missing(channel, placed, meter, _expected(response, meter), noise)
            else ()
        ),
        *_missing_bursts(channel, track, placed, noise, tones),
        *_missing_of_sweeps(channel, track, placed, noise),
    ]
    return tuple(dict.fromkeys(found))


def _expected(response: Response, part: Part) -> float:
    gain = float(np.interp(part.hz, response.hz, np.abs(response.values)))
    return gain * 10 ** (part.level_dbfs / 20) / 2**0.5


def _missing(
    channel: Samples, placed: Placed, part: Part, expected_rms: float, noise: float
) -> bool:
    """Whether any stretch of a tone is much softer than it should be."""
    if expected_rms < _CLEAR * noise * 10 ** (MUTED_DB / 20):
        return False
    heard, _ = placed.cut(channel, part.start_s + 0.08, part.end_s - 0.08)
    soft = envelope(heard, placed.rate_hz, _STRETCH_S) < expected_rms * _share(MUTED_DB)
    return bool(np.any(soft))


def _share(decibels: Decibels) -> float:
    return float(10 ** (-decibels / 20))


def _missing_bursts(
    channel: Samples, track: Track, placed: Placed, noise: float, tones: Mapping[str, Tone]
) -> Iterator[str]:
    """Bursts with a hole in them, and those that their loud or quiet twin shows to be absent."""
    for step in range(1, track.choice.steps + 1):
        bursts = track.of_step(step)
        for quiet, loud in zip(bursts[:2], bursts[2:], strict=True):
            sizes = [tones[burst.name].rms for burst in (quiet, loud)]
            if max(sizes) < _CLEAR * noise:
                continue
            if sizes[1] < sizes[0]:
                yield loud.name
            if sizes[0] < sizes[1] * _share(20 + MUTED_DB) and sizes[1] > 30 * _CLEAR * noise:
                yield quiet.name
            for part, own in ((quiet, sizes[0]), (loud, sizes[1])):
                if _missing(channel, placed, part, own, noise):
                    yield part.name


def _missing_of_sweeps(
    channel: Samples, track: Track, placed: Placed, noise: float
) -> Iterator[str]:
    """Sweeps of which one is softer for a while than the others say."""
    parts = [track.named(name) for name in (FIRST_SWEEP, LAST_SWEEP, LOUD_SWEEP)]
    sizes = []
    for part in parts:
        heard, _ = placed.cut(channel, part.start_s, part.end_s)
        own = envelope(heard, placed.rate_hz, _STRETCH_S) * _share(
            part.level_dbfs - parts[0].level_dbfs
        )
        sizes.append(own)
    length = min(map(len, sizes))
    rows = np.array([each[:length] for each in sizes])
    loudest = np.max(rows[:2], axis=0)
    clear = loudest > _CLEAR * noise * 10 ** (MUTED_DB / 20)
    for part, row in zip(parts, rows, strict=True):
        if np.count_nonzero(clear & (row < loudest * _share(MUTED_DB))) >= _SHORTEST:
            yield part.name
