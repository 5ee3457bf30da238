"""What the bytes of a photo are: its size in pixels, and what they tell beside the picture."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator

from builder.editing.photo_bytes import (
    EXIF,
    EXIF_CHUNK,
    PNG_PICTURE,
    WEBP_PICTURE,
    WIDE,
    NoPictureError,
    bare_photo,
    is_of_jpeg,
    jpeg_parts,
    orientation,
    png_parts,
    webp_parts,
)
from builder.model.photo_file import MOST_SHOWN_BYTES, MOST_SHOWN_PX, PhotoFault, PhotoFile

_FRAMES = frozenset({*range(0xC0, 0xD0)} - {0xC4, 0xC8, 0xCC})
"""Segments that say how many pixels there are. Source: ITU-T T.81, table B.1 (memory)."""
_XMP, _COMMENT, _IPTC, _XMP_CHUNK = b"http://ns.adobe.com/", 0xFE, 0xED, b"XMP "
_PNG_TEXTS, _PNG_EXIF = (b"tEXt", b"zTXt", b"iTXt"), b"eXIf"
_VP8_START = b"\x9d\x01\x2a"
"""What stands before the size in a lossy frame. Source: RFC 6386, 9.1 (memory)."""


def judged(data: bytes) -> PhotoFile:
    """Return what a photo is by its bytes, and what of that keeps it off the pages.

    >>> judged(b"<svg>").why
    'it is no JPEG, PNG or WebP picture'
    """
    size, digest = len(data), hashlib.sha256(data).hexdigest()
    try:
        bare, ending = bare_photo(data)
        wide, high = _pixels(bare, ending)
        told = tuple(dict.fromkeys(_told(data, bare, ending)))
    except NoPictureError as error:
        return PhotoFile(("no_picture",), str(error), size, sha256=digest)
    faults: dict[PhotoFault, bool] = {
        "bytes": size > MOST_SHOWN_BYTES,
        "pixels": max(wide, high) > MOST_SHOWN_PX,
        "metadata": bool(told),
    }
    found = tuple(fault for fault, holds in faults.items() if holds)
    return PhotoFile(found, "", size, wide, high, ending, told, digest)


def _pixels(data: bytes, ending: str) -> tuple[int, int]:
    """Width and height as it is shown, by every place that says one; of several the largest."""
    found = [*{".jpg": _of_jpeg, ".png": _of_png, ".webp": _of_webp}[ending](data)]
    if not found or min(map(min, found)) < 1:
        raise NoPictureError("it does not say how many pixels it has")
    wide, high = max(wide for wide, _ in found), max(high for _, high in found)
    return (high, wide) if _lies_on_its_side(data, ending) else (wide, high)


def _of_jpeg(data: bytes) -> Iterator[tuple[int, int]]:
    for marker, body, _ in jpeg_parts(data):
        if marker in _FRAMES:
            yield int.from_bytes(body[3:5]), int.from_bytes(body[1:3])


def _of_png(data: bytes) -> Iterator[tuple[int, int]]:
    for kind, body, _ in png_parts(data):
        if kind == b"IHDR":
            yield int.from_bytes(body[:4]), int.from_bytes(body[4:8])


def _of_webp(data: bytes) -> Iterator[tuple[int, int]]:
    for kind, body in webp_parts(data):
        if kind == WIDE:
            yield _little(body[4:7]) + 1, _little(body[7:10]) + 1
        elif kind == b"VP8L":
            sides = _little(body[1:5])
            yield (sides & 0x3FFF) + 1, (sides >> 14 & 0x3FFF) + 1
        elif kind == b"VP8 " and body[3:6] == _VP8_START:
            yield _little(body[6:8]) & 0x3FFF, _little(body[8:10]) & 0x3FFF


def _little(body: bytes) -> int:
    return int.from_bytes(body, "little")


def _lies_on_its_side(data: bytes, ending: str) -> bool:
    """Whether width and height change places; after `bare_photo` Exif says nothing else."""
    if ending == ".jpg":
        exif = (body for _, body, _ in jpeg_parts(data) if body.startswith(EXIF))
    elif ending == ".webp":
        exif = (body for kind, body in webp_parts(data) if kind == EXIF_CHUNK)
    else:
        return False
    return orientation(next(exif, b"").removeprefix(EXIF)) > 4


def _told(data: bytes, bare: bytes, ending: str) -> Iterator[str]:
    """Name what would be taken out."""
    if data == bare:
        return
    names = {".jpg": _told_by_jpeg, ".png": _told_by_png, ".webp": _told_by_webp}[ending]
    yield from names(data)


def _told_by_jpeg(data: bytes) -> Iterator[str]:
    parts = [*jpeg_parts(data)]
    for marker, body, _ in parts:
        if body.startswith(EXIF):
            yield "Exif (place, time, device)"
        elif body.startswith(_XMP):
            yield "XMP"
        elif not is_of_jpeg(marker, body):
            yield {_COMMENT: "a comment", _IPTC: "IPTC"}.get(marker, "data of a program")
    if sum(len(whole) for _, _, whole in parts) + 2 < len(data):
        yield "data behind the picture"


def _told_by_png(data: bytes) -> Iterator[str]:
    parts = [*png_parts(data)]
    for kind, _, _ in parts:
        if kind not in PNG_PICTURE:
            known = {_PNG_EXIF: "Exif (place, time, device)", b"tIME": "a time"}
            yield "a text" if kind in _PNG_TEXTS else known.get(kind, "data of a program")
    if sum(len(whole) for _, _, whole in parts) + 8 < len(data):
        yield "data behind the picture"


def _told_by_webp(data: bytes) -> Iterator[str]:
    known = {EXIF_CHUNK: "Exif (place, time, device)", _XMP_CHUNK: "XMP"}
    for kind, _ in webp_parts(data):
        if kind not in WEBP_PICTURE:
            yield known.get(kind, "data of a program")
    if 8 + _little(data[4:8]) < len(data):
        yield "data behind the picture"
