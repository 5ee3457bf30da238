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
_JFIF, _SMALL = 0xE0, b"JFXX\0"
"""The segment of JFIF, and what one begins with that holds the picture again, small and perhaps
before it was cut. Source: ITU-T T.871, 10.3 (memory)."""
EXIF = b"Exif\0\0"
_TURNED = 0x0112
"""The tag of which side is up: without it a photo of a phone lies on its side. Source: Exif 2.3,
4.6.4 (memory)."""
PNG = b"\x89PNG\r\n\x1a\n"
PNG_PICTURE = frozenset(
    {
        *(b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM"),
        *(b"sRGB", b"iCCP", b"sBIT", b"bKGD", b"pHYs", b"cICP"),
    }
)
"""Chunks that the picture is made of; texts, time and Exif are none.
Source: W3C PNG, 11 (memory)."""


_WEBP, WIDE, EXIF_CHUNK = b"WEBP", b"VP8X", b"EXIF"
WEBP_PICTURE = frozenset({WIDE, b"VP8 ", b"VP8L", b"ALPH", b"ICCP"})
"""Chunks that a still picture is made of. Source: RFC 9649, 2.5 to 2.7 (memory)."""
_MOVES, _HAS_EXIF, _TOLD_BITS = 0x02, 0x08, 0x0C
"""Bits of the first byte of VP8X: a moving picture, Exif, Exif or XMP. Source: the same, 2.7."""


class NoPictureError(ValueError):
    """The bytes are no picture of which it is known how to take the metadata out."""


def bare_photo(data: bytes) -> tuple[bytes, str]:
    """Return a photo without its metadata, and the ending its name has: `.jpg`, `.png`, `.webp`.

    Raises:
        NoPictureError: it is none of the three, whatever its name says, or is cut off.
    """
    if data.startswith(PNG):
        kept = (whole for kind, _, whole in png_parts(data) if kind in PNG_PICTURE)
        return PNG + b"".join(kept), ".png"
    if data.startswith(START):
        return bare_jpeg(data), ".jpg"
    if data.startswith(b"RIFF") and data[8:12] == _WEBP:
        return bare_webp(data), ".webp"
    raise NoPictureError("it is no JPEG, PNG or WebP picture")


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
    for marker, body, whole in jpeg_parts(data):
        if is_of_jpeg(marker, body):
            yield whole
        elif turned := _turned(body):
            yield turned


def is_of_jpeg(marker: int, body: bytes) -> bool:
    """Whether a segment is of the picture; a second, smaller picture for lists is not."""
    if marker == _JFIF:
        return not body.startswith(_SMALL)
    return marker not in _TOLD or body.startswith(_PROFILE)


def jpeg_parts(data: bytes) -> Iterator[tuple[int, bytes, bytes]]:
    """Yield marker, body and all bytes of each segment up to the end of the picture.

    Raises:
        NoPictureError: it is cut off before its picture.
    """
    at, shown = len(START), False
    while not (shown and data[at : at + 2] in (b"", b"\xff", bytes([0xFF, END]))):
        if at + 4 > len(data) or data[at] != 0xFF:
            raise NoPictureError("it is cut off, or no JPEG picture")
        marker = data[at + 1]
        length = 0 if marker in _ALONE else int.from_bytes(data[at + 2 : at + 4])
        end = at + 2 + length
        if marker == SCAN:
            shown, end = True, _end_of_scan(data, end)
        yield marker, data[at + 4 : end], data[at:end]
        at = end
    yield END, b"", data[at : at + 2]


def _end_of_scan(data: bytes, at: int) -> int:
    """Where the next marker after coded data begins; the end of the data when there is none."""
    while (at := data.find(b"\xff", at)) >= 0 and at + 1 < len(data):
        if data[at + 1] not in (0x00, 0xFF, *range(0xD0, 0xD8)):
            return at
        at += 1
    return len(data)


def _turned(told: bytes) -> bytes:
    """A segment of nothing but which side is up, where a segment says so; else nothing."""
    way_up = _way_up(told.removeprefix(EXIF)) if told.startswith(EXIF) else b""
    body = EXIF + way_up
    return b"\xff\xe1" + (len(body) + 2).to_bytes(2) + body if way_up else b""


def _way_up(tiff: bytes) -> bytes:
    """Exif of nothing but which side is up, where it says so; else nothing."""
    way = orientation(tiff)
    if not 1 < way < 9:
        return b""
    one = _TURNED.to_bytes(2) + b"\0\3\0\0\0\1" + way.to_bytes(2) + b"\0\0"
    return b"MM\0\x2a\0\0\0\x08\0\1" + one + b"\0\0\0\0"


def orientation(tiff: bytes) -> int:
    """Which side is up by a block of Exif without its head, 1 to 8; 0 where it does not say."""
    order: Literal["little", "big"] = "little" if tiff[:2] == b"II" else "big"
    first = int.from_bytes(tiff[4:8], order)
    count = int.from_bytes(tiff[first : first + 2], order)
    entries = (first + 2 + 12 * at for at in range(min(count, 200)))
    found = (tiff[at : at + 12] for at in entries if at + 12 <= len(tiff))
    tag = next((e for e in found if int.from_bytes(e[:2], order) == _TURNED), b"")
    return int.from_bytes(tag[8:10], order)


def png_parts(data: bytes) -> Iterator[tuple[bytes, bytes, bytes]]:
    """Yield kind, body and all bytes of each chunk up to the end of the picture.

    Raises:
        NoPictureError: it is cut off.
    """
    at, kind = len(PNG), b""
    while kind != b"IEND":
        end, kind = at + 12 + int.from_bytes(data[at : at + 4]), data[at + 4 : at + 8]
        if end > len(data):
            raise NoPictureError("it is cut off, or no PNG picture")
        yield kind, data[at + 8 : end - 4], data[at:end]
        at = end


# ---- WebP ---------------------------------------------------------------------------------------
def bare_webp(data: bytes) -> bytes:
    """Return a WebP picture without its metadata; the picture itself stays bit for bit.

    Which side is up stays too.

    Raises:
        NoPictureError: it is cut off, moves, or holds no picture.
    """
    parts = list(webp_parts(data))
    kept = [part for part in parts if part[0] in WEBP_PICTURE]
    told = next((body for kind, body in parts if kind == EXIF_CHUNK), b"")
    way_up = _way_up(told.removeprefix(EXIF))
    if not {b"VP8 ", b"VP8L"} & {kind for kind, _ in kept}:
        raise NoPictureError("it is cut off, or no WebP picture")
    if way_up and kept[0][0] == WIDE:
        kept.append((EXIF_CHUNK, way_up))
    body = _WEBP + b"".join(_webp_chunk(kind, part, bool(way_up)) for kind, part in kept)
    return b"RIFF" + len(body).to_bytes(4, "little") + body


def webp_parts(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Yield kind and body of each chunk up to the end that the file states.

    Raises:
        NoPictureError: it is cut off.
    """
    at, end = 12, 8 + int.from_bytes(data[4:8], "little")
    if end > len(data):
        raise NoPictureError("it is cut off, or no WebP picture")
    while at + 8 <= end:
        kind, size = data[at : at + 4], int.from_bytes(data[at + 4 : at + 8], "little")
        if at + 8 + size > end:
            raise NoPictureError("it is cut off, or no WebP picture")
        yield kind, data[at + 8 : at + 8 + size]
        at += 8 + size + size % 2


def _webp_chunk(kind: bytes, body: bytes, has_exif: bool) -> bytes:
    if kind == WIDE and body:
        if body[0] & _MOVES:
            raise NoPictureError("it is a moving picture")
        body = bytes([body[0] & ~_TOLD_BITS | (_HAS_EXIF if has_exif else 0)]) + body[1:]
    return kind + len(body).to_bytes(4, "little") + body + b"\0" * (len(body) % 2)
