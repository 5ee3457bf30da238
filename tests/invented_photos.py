"""Pictures of shipped cars, drawn: a plug behind an open radio bay, plainly marked as invented.

    .venv/bin/python tests/invented_photos.py      writes them beside the records that name them

No car was photographed. Plain PNG of a few colours, by the standard library alone.
"""

from __future__ import annotations

import struct
import sys
import zlib
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from shipped_book import PINOUTS  # noqa: E402
from shipped_cars import car  # noqa: E402

from builder.book import open_book  # noqa: E402
from builder.editing.photo_bytes import PNG, png_parts  # noqa: E402
from builder.model.housing import Housing  # noqa: E402
from builder.model.plugs import Plug  # noqa: E402
from builder.model.wire_colours import srgb_8bit  # noqa: E402
from builder.pipeline.checking.shelf import housings_of  # noqa: E402

WIDE_PX, HIGH_PX = 960, 640
MOST_DRAWN_BYTES = 60_000
CELL_PX = 60
Rgb = tuple[int, int, int]
BAY, FRAME, EDGE, HOLE, PAPER = (43, 45, 49), (74, 77, 83), (22, 23, 25), (12, 12, 13), (240,) * 3
MARK = "INVENTED PICTURE - NO REAL CAR"
LETTERS = {
    "A": "01110 10001 10001 11111 10001 10001 10001",
    "C": "01111 10000 10000 10000 10000 10000 01111",
    "D": "11110 10001 10001 10001 10001 10001 11110",
    "E": "11111 10000 10000 11110 10000 10000 11111",
    "I": "11111 00100 00100 00100 00100 00100 11111",
    "L": "10000 10000 10000 10000 10000 10000 11111",
    "N": "10001 11001 10101 10101 10011 10001 10001",
    "O": "01110 10001 10001 10001 10001 10001 01110",
    "P": "11110 10001 10001 11110 10000 10000 10000",
    "R": "11110 10001 10001 11110 10100 10010 10001",
    "T": "11111 00100 00100 00100 00100 00100 00100",
    "U": "10001 10001 10001 10001 10001 10001 01110",
    "V": "10001 10001 10001 10001 10001 01010 00100",
    "-": "00000 00000 00000 11111 00000 00000 00000",
}  # fmt: skip


class Shown(NamedTuple):
    """One picture: where it lies, and the plug that it shows from the wire side."""

    file: str
    vehicle: str
    plug: str


PICTURES = (
    Shown("ostrel/tansy-plug-a-wires.png", "ostrel-tansy-2017-hatch-base", "A"),
    Shown("wexlow/quern-white-plug-a.png", "wexlow-quern-2016-early", "A"),
    Shown("wexlow/quern-black-plug-a.png", "wexlow-quern-2018-late", "A"),
    Shown("mirdle/smew-block-a.png", "mirdle-smew-2004", "A"),
)


class Canvas:
    """Rows of numbers of colours; what is outside is not drawn."""

    def __init__(self) -> None:
        self.colours: list[Rgb] = []
        self.rows = [bytearray(WIDE_PX) for _ in range(HIGH_PX)]
        self.box(0, 0, WIDE_PX, HIGH_PX, BAY)

    def box(self, left: int, top: int, wide: int, high: int, colour: Rgb) -> None:
        """Fill a rectangle, in pixels from the upper left corner."""
        number = self._number(colour)
        start, end = max(0, left), min(WIDE_PX, left + wide)
        for row in self.rows[max(0, top) : max(0, top + high)]:
            row[start:end] = bytes([number]) * max(0, end - start)

    def words(self, left: int, top: int, text: str, dot_px: int, colour: Rgb) -> None:
        """Write capitals, five by seven dots each."""
        for at, letter in enumerate(text):
            for down, line in enumerate(LETTERS.get(letter, "").split()):
                for right, dot in enumerate(line):
                    if dot == "1":
                        x = left + (at * 6 + right) * dot_px
                        self.box(x, top + down * dot_px, dot_px, dot_px, colour)

    def png(self) -> bytes:
        """The picture as a file."""
        size = struct.pack(">IIBBBBB", WIDE_PX, HIGH_PX, 8, 3, 0, 0, 0)
        palette = b"".join(map(bytes, self.colours))
        rows = zlib.compress(b"".join(b"\0" + bytes(row) for row in self.rows), 9)
        parts = ((b"IHDR", size), (b"PLTE", palette), (b"IDAT", rows), (b"IEND", b""))
        return PNG + b"".join(_chunk(kind, body) for kind, body in parts)

    def _number(self, colour: Rgb) -> int:
        if colour not in self.colours:
            self.colours.append(colour)
        return self.colours.index(colour)


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def drawn(plug: Plug, housing: Housing) -> bytes:
    """A plug from the wire side, as its record and its shell say it stands there, latch up."""
    canvas = Canvas()
    canvas.box(60, 40, WIDE_PX - 120, HIGH_PX - 130, FRAME)
    canvas.box(84, 64, WIDE_PX - 168, HIGH_PX - 178, EDGE)
    columns = max(map(len, housing.rows))
    wide, high = columns * CELL_PX + 40, len(housing.rows) * CELL_PX + 40
    left, top = (WIDE_PX - wide) // 2, 190
    shell = srgb_8bit(plug.shell_colours[0]) or PAPER
    canvas.box(left - 6, top - 6, wide + 12, high + 12, FRAME)
    canvas.box(left + wide // 2 - 50, top - 34, 100, 34, FRAME)
    canvas.box(left + wide // 2 - 44, top - 28, 88, 28, shell)
    canvas.box(left, top, wide, high, shell)
    for row, cavities in enumerate(housing.rows):
        for column, cavity in enumerate(cavities):
            if cavity is not None:
                at = (left + 20 + column * CELL_PX, top + 20 + row * CELL_PX)
                _wire(canvas, *at, plug, str(cavity))
    canvas.box(0, HIGH_PX - 70, WIDE_PX, 70, PAPER)
    canvas.words((WIDE_PX - len(MARK) * 24) // 2, HIGH_PX - 49, MARK, 4, EDGE)
    return canvas.png()


def _wire(canvas: Canvas, left: int, top: int, plug: Plug, cavity: str) -> None:
    """A cavity with the wire that leaves it, striped along its length."""
    canvas.box(left + 6, top + 6, CELL_PX - 12, CELL_PX - 12, HOLE)
    wire = next((pin.wire for pin in plug.pins if str(pin.cavity) == cavity and pin.wire), None)
    base = srgb_8bit(wire.base) if wire else None
    if wire is None or base is None:
        return
    canvas.box(left + 16, top + 12, CELL_PX - 32, CELL_PX - 24, base)
    if stripe := srgb_8bit(wire.stripe or "unknown"):
        canvas.box(left + CELL_PX // 2 - 4, top + 12, 8, CELL_PX - 24, stripe)


def pixels(png: bytes) -> bytes:
    """The rows of a picture made here, whatever packed them."""
    return zlib.decompress(b"".join(body for kind, body, _ in png_parts(png) if kind == b"IDAT"))


def pictures() -> dict[Path, bytes]:
    """Every picture by the file it is in."""
    shells = housings_of(open_book(PINOUTS))
    made = {}
    for shown in PICTURES:
        plug = car(shown.vehicle).plug(shown.plug)
        assert plug is not None, shown
        made[PINOUTS / "vehicles" / shown.file] = drawn(plug, shells[plug.housing])
    return made


if __name__ == "__main__":
    for path, content in pictures().items():
        path.write_bytes(content)
        print(f"{path.name}: {len(content)} bytes")
