"""The colour words of wires and plugs, and the screen colour that stands for each.

The words are the closed list of the records. The values are chosen by this project to look
like the plastic they name and to stay apart on screen and on paper; they are no standard, and
real plastic of one name varies by more than some neighbours here differ.
"""

from __future__ import annotations

WIRE_SRGB_HEX: dict[str, str | None] = {
    "black": "1e1e20",
    "brown": "7a4a25",
    "red": "c8241f",
    "orange": "ee7d1a",
    "yellow": "f4cf1c",
    "green": "1f8a43",
    "blue": "2458b8",
    "violet": "7d3fa0",
    "grey": "8c9094",
    "white": "fcfcf8",
    "pink": "f09ab4",
    "turquoise": "2fb3ad",
    "beige": "e3d5b8",
    "tan": "d2b48a",
    "light blue": "92acdc",
    "dark blue": "15336b",
    "light green": "8fc4a1",
    "dark green": "125027",
    "gold": "b8912f",
    "silver": "bfc3c7",
    "clear": "e9ecec",
    "natural": "f0ead6",
    "bare": "c47a45",
    "unknown": None,
}
"""Colour word to sRGB as "rrggbb"; None for the word that says nobody wrote it down."""


def srgb_8bit(word: str) -> tuple[int, int, int] | None:
    """Return red, green and blue from 0 to 255 of a colour word; None for one without a colour."""
    found = WIRE_SRGB_HEX.get(word)
    if found is None:
        return None
    return int(found[:2], 16), int(found[2:4], 16), int(found[4:], 16)
