"""The bytes of a WAV file as samples; whatever else it is, is refused with its place.

Read: plain PCM of 16, 24 or 32 bits and floats of 32 or 64, one or more channels, in a plain or an
extensible `fmt ` chunk.
Source: RIFF/WAVE, IBM and Microsoft, 1991, and its extensible form; from memory, and held in tests
against files that the standard library and scipy write.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.results import RecordingRefusedError

LOWEST_RATE_HZ: Final = 8_000
HIGHEST_RATE_HZ: Final = 192_000
MOST_CHANNELS: Final = 32
_PCM, _FLOAT, _EXTENSIBLE = 1, 3, 0xFFFE
_WHOLE: Final = {2: "<i2", 4: "<i4"}
_FLOATS: Final = {4: "<f4", 8: "<f8"}


@dataclass(frozen=True, slots=True)
class Recording:
    """Channels of one length that were recorded together; 1 is full scale."""

    rate_hz: int
    channels: tuple[Samples, ...]

    @property
    def length_s(self) -> float:
        """How long it lasts by its own clock."""
        return len(self.channels[0]) / self.rate_hz


def read_wav(content: bytes) -> Recording:
    """Return the samples of a file.

    Raises:
        RecordingRefusedError: it is no WAV file, or one of a form that is not read.
    """
    if content[:4] != b"RIFF" or content[8:12] != b"WAVE":
        raise RecordingRefusedError("byte 0: this is no WAV file; record or save it as WAV")
    chunks: dict[bytes, tuple[int, bytes]] = {}
    for name, at, body in _chunks(content):
        chunks.setdefault(name, (at, body))
    for name in (b"fmt ", b"data"):
        if name not in chunks:
            raise RecordingRefusedError(
                f"byte {len(content)}: the file ends without its part {name.decode().strip()!r}; "
                "copy it anew from the recorder"
            )
    return _decoded(*chunks[b"fmt "], chunks[b"data"][1])


def _chunks(content: bytes) -> Iterator[tuple[bytes, int, bytes]]:
    at = 12
    while at + 8 <= len(content):
        name, size = struct.unpack_from("<4sI", content, at)
        yield name, at, content[at + 8 : at + 8 + size]
        at += 8 + size + size % 2


def _decoded(at: int, fmt: bytes, data: bytes) -> Recording:
    if len(fmt) < 16:
        raise RecordingRefusedError(f"byte {at}: the description of the sound is cut short")
    kind, channels, rate_hz, _, block, bits = struct.unpack_from("<HHIIHH", fmt)
    if kind == _EXTENSIBLE and len(fmt) >= 26:
        (kind,) = struct.unpack_from("<H", fmt, 24)
    if not 1 <= channels <= MOST_CHANNELS or not LOWEST_RATE_HZ <= rate_hz <= HIGHEST_RATE_HZ:
        raise RecordingRefusedError(
            f"byte {at}: {channels} channels at {rate_hz} samples a second are not read; "
            "record one to 32 channels at 44100 or 48000"
        )
    frames = len(data) // block if block == channels * bits // 8 and block else 0
    values = _values(kind, bits // 8, data[: frames * block]) if frames else None
    if values is None or not len(values):
        raise RecordingRefusedError(
            f"byte {at}: sound of form {kind} with {bits} bits and {len(data)} bytes is not read; "
            "record uncompressed WAV, 16 or 24 bits"
        )
    if not np.isfinite(values).all():
        raise RecordingRefusedError("a sample of the file is no number; copy it anew")
    return Recording(
        rate_hz, tuple(np.ascontiguousarray(each) for each in _split(values, channels))
    )


def _split(values: Samples, channels: int) -> Samples:
    return values.reshape(-1, channels).T


def _values(kind: int, size: int, data: bytes) -> Samples | None:
    """Samples of all channels in turn, or None for a form that is not read."""
    if kind == _FLOAT and size in _FLOATS:
        return np.frombuffer(data, _FLOATS[size]).astype(np.float64)
    if kind == _PCM and size in _WHOLE:
        return np.frombuffer(data, _WHOLE[size]) / 2.0 ** (8 * size - 1)
    if kind == _PCM and size == 3:
        wide = np.zeros((len(data) // 3, 4), np.uint8)
        wide[:, 1:] = np.frombuffer(data, np.uint8).reshape(-1, 3)
        return wide.view("<i4")[:, 0] / 2.0**31
    return None
