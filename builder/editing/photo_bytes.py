"""A photo's bytes without what a camera adds to the picture: place, time, device. No file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

START, SCAN, END = b"\xff\xd8", 0xDA, 0xD9
_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})  # markers without a length
_TOLD = frozenset({*range(0xE1, 0xEE), 0xEF, 0xFE})
"""Segments of applications and comments; JFIF (0xE0) and Adobe's colours (0xEE) are of the picture.
Source: ITU-T T.81, annex B (memory)."""
_PROFILE = b"ICC_PROFILE\0"
"""What the segment of a colour profile begins with: of the picture too. Source: ICC.1 (memory)."""
_EXIF = b"Exif\0\0"
_TURNED = 0x0112
"""The tag of which side is up: without it a photo of a phone lies on its side. Source: Exif 2.3,
4.6.4 (memory)."""
_PNG = b"\x89PNG\r\n\x1a\n"
_OF_PICTURE = frozenset(
    {
        *(b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM"),
        *(b"sRGB", b"iCCP", b"sBIT", b"bKGD", b"pHYs", b"cICP"),
    }
)
"""Chunks that the picture is made of; texts, time and Exif are none.
Source: W3C PNG, 11 (memory)."""


class NoPictureError(ValueError):
    """The bytes are no picture of which it is known how to take the metadata out."""


def bare_photo(data: bytes) -> tuple[bytes, str]:
    """Return a photo without its metadata, and the ending its name has: `.jpg` or `.png`.

    Raises:
        NoPictureError: it is neither JPEG nor PNG, whatever its name says, or is cut off.
    """
    if data.startswith(_PNG):
        return _PNG + b"".join(_png_kept(data)), ".png"
    if data.startswith(START):
        return bare_jpeg(data), ".jpg"
    raise NoPictureError("it is neither a JPEG nor a PNG picture")


def bare_jpeg(data: bytes) -> bytes:
    """Return a JPEG picture without its metadata; the picture itself stays bit for bit.

    Which side is up stays too. What lies behind the picture's end (a film, a second picture with
    metadata of its own) goes.

    Raises:
        NoPictureError: it is no JPEG, or is cut off before its picture.

    >>> bare_jpeg(bytes.fromhex("ffd8 ffe1 0004 4142 ffda 0002 0001 ffd9 4142")).hex(" ", 2)
    'ffd8 ffda 0002 0001 ffd9'
    """
    if not data.startswith(START):
        raise NoPictureError("it is no JPEG picture")
    return START + b"".join(_kept(data))


def _kept(data: bytes) -> Iterator[bytes]:
    at, shown = len(START), False
    while not (shown and data[at : at + 2] in (b"", b"\xff", bytes([0xFF, END]))):
        if at + 4 > len(data) or data[at] != 0xFF:
            raise NoPictureError("it is cut off, or no JPEG picture")
        marker = data[at + 1]
        length = 0 if marker in _ALONE else int.from_bytes(data[at + 2 : at + 4])
        end = at + 2 + length
        if marker == SCAN:
            shown, end = True, _end_of_scan(data, end)
        if marker not in _TOLD or data.startswith(_PROFILE, at + 4):
            yield data[at:end]
        elif turned := _turned(data[at + 4 : end]):
            yield turned
        at = end
    yield data[at : at + 2]


def _end_of_scan(data: bytes, at: int) -> int:
    """Where the next marker after coded data begins; the end of the data when there is none."""
    while (at := data.find(b"\xff", at)) >= 0 and at + 1 < len(data):
        if data[at + 1] not in (0x00, 0xFF, *range(0xD0, 0xD8)):
            return at
        at += 1
    return len(data)


def _turned(told: bytes) -> bytes:
    """A segment of nothing but which side is up, where a segment says so; else nothing."""
    way = _orientation(told.removeprefix(_EXIF)) if told.startswith(_EXIF) else 0
    if not 1 < way < 9:
        return b""
    one = _TURNED.to_bytes(2) + b"\0\3\0\0\0\1" + way.to_bytes(2) + b"\0\0"
    body = _EXIF + b"MM\0\x2a\0\0\0\x08\0\1" + one + b"\0\0\0\0"
    return b"\xff\xe1" + (len(body) + 2).to_bytes(2) + body


def _orientation(tiff: bytes) -> int:
    order: Literal["little", "big"] = "little" if tiff[:2] == b"II" else "big"
    first = int.from_bytes(tiff[4:8], order)
    count = int.from_bytes(tiff[first : first + 2], order)
    entries = (first + 2 + 12 * at for at in range(min(count, 200)))
    found = (tiff[at : at + 12] for at in entries if at + 12 <= len(tiff))
    tag = next((e for e in found if int.from_bytes(e[:2], order) == _TURNED), b"")
    return int.from_bytes(tag[8:10], order)


def _png_kept(data: bytes) -> Iterator[bytes]:
    at, kind = len(_PNG), b""
    while kind != b"IEND":
        if at + 12 > len(data):
            raise NoPictureError("it is cut off, or no PNG picture")
        end, kind = at + 12 + int.from_bytes(data[at : at + 4]), data[at + 4 : at + 8]
        if kind in _OF_PICTURE:
            yield data[at:end]
        at = end
