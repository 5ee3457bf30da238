"""Insulation colour words and how they are drawn. The word is always printed as well.

The values are chosen by this project to look like the plastic they name and to stay apart
on screen and on paper; they are no standard.
"""

from __future__ import annotations

from functools import lru_cache

from builder.model.vehicle import Wire

_HEX = {
    "black": "1e1e20",
    "white": "fcfcf8",
    "red": "c8241f",
    "green": "1f8a43",
    "blue": "2458b8",
    "yellow": "f4cf1c",
    "grey": "8c9094",
    "brown": "7a4a25",
    "violet": "7d3fa0",
    "orange": "ee7d1a",
    "pink": "f09ab4",
    "tan": "d2b48a",
    "cream": "f3e8c8",
    "turquoise": "2fb3ad",
    "clear": "e9ecec",
    "silver": "bfc3c7",
    "copper": "c47a45",
}
_SAME = {"gray": "grey", "purple": "violet", "beige": "tan", "natural": "clear"}
_BARE = {"bare": "copper", "shield": "silver", "screen": "silver", "braid": "silver"}
_SHADE = {"light": (255, 0.5), "pale": (255, 0.6), "dark": (0, 0.42)}  # towards, how far
NOT_RECORDED = "not recorded"


def is_bare(word: str) -> bool:
    """Tell whether the word names metal without insulation, drawn as a braid."""
    return word.strip().lower() in _BARE


@lru_cache(maxsize=512)
def colour_hex(word: str) -> str | None:
    """Return "#rrggbb" for a colour word ("light green"), or None for a word not known."""
    *shades, name = word.lower().replace("-", " ").split() or [""]
    found = _HEX.get(_BARE.get(name, _SAME.get(name, name)))
    if found is None or any(shade not in _SHADE for shade in shades):
        return None
    levels = [int(found[at : at + 2], 16) for at in (0, 2, 4)]
    for shade in shades:
        towards, share = _SHADE[shade]
        levels = [round(level + (towards - level) * share) for level in levels]
    return "#" + "".join(f"{level:02x}" for level in levels)


def wire_words(wire: Wire | None) -> str:
    """Return the colours of a wire as a person would say them."""
    if wire is None:
        return NOT_RECORDED
    return f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base


def split_words(words: str) -> tuple[str, str | None]:
    """Return base and stripe of "white/black"; the stripe is None for one colour."""
    base, _, stripe = words.partition("/")
    return base.strip(), stripe.strip() or None
