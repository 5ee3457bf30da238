"""A photo's bytes without what a camera adds to the picture: place, time, device. No file."""

from __future__ import annotations

from collections.abc import Iterator

START, SCAN = b"\xff\xd8", 0xDA
_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})  # markers without a length
_TOLD = frozenset({*range(0xE1, 0xEE), 0xEF, 0xFE})
"""Segments of applications and comments; JFIF (0xE0) and Adobe's colours (0xEE) are of the picture.
Source: ITU-T T.81, annex B (memory)."""
_PROFILE = b"ICC_PROFILE\0"
"""What the segment of a colour profile begins with: of the picture too. Source: ICC.1 (memory)."""


class NoPictureError(ValueError):
    """The bytes are no JPEG picture."""


def bare_jpeg(data: bytes) -> bytes:
    """Return a JPEG picture without its metadata; the picture itself stays bit for bit.

    Raises:
        NoPictureError: it is no JPEG, or is cut off before its picture.

    >>> bare_jpeg(bytes.fromhex("ffd8 ffe1 0004 4142 ffda 0002 00 ffd9")).hex(" ", 2)
    'ffd8 ffda 0002 00ff d9'
    """
    if not data.startswith(START):
        raise NoPictureError("it is no JPEG picture")
    return START + b"".join(_kept(data))


def _kept(data: bytes) -> Iterator[bytes]:
    at = len(START)
    while True:
        if at + 4 > len(data) or data[at] != 0xFF:
            raise NoPictureError("it is cut off, or no JPEG picture")
        marker = data[at + 1]
        if marker == SCAN:
            yield data[at:]
            return
        length = 0 if marker in _ALONE else int.from_bytes(data[at + 2 : at + 4])
        if marker not in _TOLD or data.startswith(_PROFILE, at + 4):
            yield data[at : at + 2 + length]
        at += 2 + length
