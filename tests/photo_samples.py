"""Bytes of photos in their three kinds, put together part by part, with and without metadata."""

from __future__ import annotations

import struct
import zlib

PLACE = b"GPS 51 deg 30 min"
JFIF = b"\xff\xe0\x00\x07JFIF\x00"
TABLE = b"\xff\xdb\x00\x05\x00\x01\x02"
SCAN = b"\xff\xda\x00\x03\x01" + b"\x12\xff\x00\x34\xff\xd0\x56"
END = b"\xff\xd9"


def segment(marker: int, body: bytes) -> bytes:
    return bytes([0xFF, marker]) + (len(body) + 2).to_bytes(2, "big") + body


def exif(way: int, order: str) -> bytes:
    """Exif with a maker, a way up, and where it was taken, in either order of bytes."""
    head = b"MM\0\x2a\0\0\0\x08" if order == ">" else b"II\x2a\0\x08\0\0\0"
    entries = [(0x010F, 2, 1, 0), (0x0112, 3, 1, way), (0x8825, 4, 1, 0)]
    body = struct.pack(f"{order}H", len(entries))
    for tag, kind, count, value in entries:
        small = struct.pack(f"{order}HHI", tag, kind, count)
        body += small + (struct.pack(f"{order}HH", value, 0) if kind == 3 else b"\0\0\0\0")
    return segment(0xE1, b"Exif\0\0" + head + body + b"\0\0\0\0" + PLACE)


def chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


PIXELS = b"\x2f\x01\x02\x03\x04"  # five bytes, so that a byte is filled in


def part(kind: bytes, body: bytes) -> bytes:
    return kind + len(body).to_bytes(4, "little") + body + b"\0" * (len(body) % 2)


def riff(*chunks: bytes) -> bytes:
    body = b"WEBP" + b"".join(chunks)
    return b"RIFF" + len(body).to_bytes(4, "little") + body


def wide(bits: int) -> bytes:
    return part(b"VP8X", bytes([bits]) + b"\0" * 9)


def webp(way: int) -> bytes:
    """A picture with a profile, a way up, and where it was taken."""
    told = part(b"EXIF", exif(way, "<")[4:])
    parts = (wide(0x2C), part(b"ICCP", b"profile"), part(b"VP8L", PIXELS))
    return riff(*parts, told, part(b"XMP ", b"at " + PLACE))


def frame(wide_px: int, high_px: int, marker: int = 0xC0) -> bytes:
    return segment(marker, b"\x08" + high_px.to_bytes(2) + wide_px.to_bytes(2) + b"\1\1\x11\0")


def jpeg(*told: bytes, wide_px: int = 640, high_px: int = 480, behind: bytes = b"") -> bytes:
    shape = frame(wide_px, high_px)
    return b"\xff\xd8" + JFIF + b"".join(told) + TABLE + shape + SCAN + END + behind


def png(*told: bytes, wide_px: int = 640, high_px: int = 480, behind: bytes = b"") -> bytes:
    size = wide_px.to_bytes(4) + high_px.to_bytes(4) + b"\x08\x03\0\0\0"
    parts = (chunk(b"IHDR", size), *told, chunk(b"IDAT", b"rows"), chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts) + behind


def lossless(wide_px: int, high_px: int) -> bytes:
    sides = (wide_px - 1) | (high_px - 1) << 14
    return part(b"VP8L", b"\x2f" + sides.to_bytes(4, "little"))


def lossy(wide_px: int, high_px: int) -> bytes:
    sides = wide_px.to_bytes(2, "little") + high_px.to_bytes(2, "little")
    return part(b"VP8 ", b"\0\0\0\x9d\x01\x2a" + sides)
