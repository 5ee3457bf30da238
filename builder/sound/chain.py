"""What lead and recorder do themselves: the player recorded through them, without the car."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from math import hypot, sqrt
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.clock import set_clock
from builder.sound.marks import find_track
from builder.sound.response import Response, quiet_response
from builder.sound.results import RecordingRefusedError
from builder.sound.spoilt import gain_change, refuse_noise, refuse_unusable
from builder.sound.tones import Tone
from builder.sound.track import METER_HZ, MIDDLE_HZ, Track
from builder.sound.wav_reading import Recording
from builder.units import Hertz

SOFTEST: Final = 1e-3
"""Nothing is raised by more than that: what lead and recorder let through less of is noise."""


def chain_of(loop_back: Recording | None, track: Track, count: int) -> list[Response | None]:
    """Return the response of lead and recorder for each of so many channels; None without any.

    Raises:
        RecordingRefusedError: that recording is spoilt, or has other channels.
    """
    if loop_back is None:
        return [None] * count
    with _named():
        return [*_responses(loop_back, track, count)]


@contextmanager
def _named() -> Iterator[None]:
    """Say of which of the two recordings a refusal speaks."""
    try:
        yield
    except RecordingRefusedError as error:
        raise RecordingRefusedError(f"the recording without the car: {error}") from error


def _responses(loop_back: Recording, track: Track, count: int) -> Iterator[Response]:
    if len(loop_back.channels) != count:
        raise RecordingRefusedError(
            f"it has {len(loop_back.channels)} channels, that of the pairs {count}: record both in "
            "the same way"
        )
    refuse_unusable(loop_back, track)
    placed = set_clock(loop_back, track, find_track(loop_back, track)).placed
    for number, channel in enumerate(loop_back.channels, 1):
        if changed := gain_change(channel, track, placed):
            raise RecordingRefusedError(f"channel {number}: {changed}")
        response = quiet_response(channel, track, placed)
        refuse_noise(response, number)
        yield response


def freed_response(response: Response, chain: Response | None) -> Response:
    """Return a response without what lead and recorder do to it; at 1 kHz its size stays."""
    if chain is None:
        return response
    values = np.interp(response.hz, chain.hz, np.abs(chain.values)) * np.exp(
        1j * np.interp(response.hz, chain.hz, np.unwrap(np.angle(chain.values)))
    )
    middle = float(np.interp(MIDDLE_HZ, response.hz, np.abs(values)))
    sizes = np.maximum(np.abs(values), SOFTEST * middle)
    freed = middle * response.values * np.conj(values) / sizes**2
    return replace(response, values=freed, error=response.error * middle / sizes)


def freed_tones(tones: Mapping[str, Tone], chain: Response | None) -> Mapping[str, Tone]:
    """Return tones without what lead and recorder do to them; the tone for the meter stays."""
    if chain is None:
        return tones
    return {name: _freed_tone(tone, chain) for name, tone in tones.items()}


def _freed_tone(tone: Tone, chain: Response) -> Tone:
    orders = tone.hz * np.arange(1.0, len(tone.orders) + 2)
    gains = _sizes(chain, orders) / _sizes(chain, np.array([METER_HZ]))
    open_share = _open_share(chain, tone.hz) * sqrt(tone.count / 2)
    return replace(
        tone,
        rms=tone.rms / gains[0],
        orders=tuple(float(each / gain) for each, gain in zip(tone.orders, gains[1:], strict=True)),
        noise_rms=hypot(tone.noise_rms, tone.rms * open_share) / gains[0],
    )


def _sizes(chain: Response, hz: Samples) -> Samples:
    """How much lead and recorder let through at each frequency."""
    sizes = np.abs(chain.values)
    floor = SOFTEST * float(np.interp(MIDDLE_HZ, chain.hz, sizes))
    return np.asarray(np.maximum(np.interp(hz, chain.hz, sizes), floor))


def _open_share(chain: Response, hz: Hertz) -> float:
    """The standard error of that, as a share of it."""
    at = np.array([hz])
    return float(np.interp(at, chain.hz, chain.error)[0] / _sizes(chain, at)[0])
