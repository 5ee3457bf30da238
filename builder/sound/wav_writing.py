"""Samples as the bytes of a WAV file: 16 bits, one or two channels.

Source: RIFF/WAVE with a plain PCM `fmt ` chunk, IBM and Microsoft, 1991; from memory, and held in
tests against the standard library and scipy, which read it.
"""

from __future__ import annotations

import struct

import numpy as np

from builder.sound.arrays import Samples

_TOP = 32_767
_DITHER_SEED = 20_000
"""The same track is the same file each time: what is added is drawn from one seed."""


def wav_of(left: Samples, right: Samples, rate_hz: int) -> bytes:
    """Return a stereo WAV file of two channels of one length, 1 being full scale.

    Dithered by two draws of half a step each, so that what is quiet is not distorted; channels that
    are silent from end to end stay silent.
    """
    frames = np.stack([_whole_numbers(each, at) for at, each in enumerate((left, right))], axis=1)
    data = frames.astype("<i2").tobytes()
    block = 2 * frames.shape[1]
    fmt = struct.pack("<HHIIHH", 1, frames.shape[1], rate_hz, rate_hz * block, block, 16)
    body = b"WAVE" + _chunk(b"fmt ", fmt) + _chunk(b"data", data)
    return _chunk(b"RIFF", body)


def _chunk(name: bytes, content: bytes) -> bytes:
    return name + struct.pack("<I", len(content)) + content + b"\0" * (len(content) % 2)


def _whole_numbers(samples: Samples, channel: int) -> Samples:
    if not samples.any():
        return samples
    draw = np.random.default_rng(_DITHER_SEED + channel)
    dither = draw.random(len(samples)) - draw.random(len(samples))
    return np.asarray(np.clip(np.rint(_TOP * samples + dither), -_TOP, _TOP))
