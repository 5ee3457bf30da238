"""What people call the colours of insulation; the record's own words are the first of each."""

from __future__ import annotations

from builder.finder.meaning import COLOUR_CODES, COMMON, Meaning

_SAID: dict[str, tuple[str, ...]] = {
    "black": ("black", "blk", "blck"),
    "white": ("white", "wht", "whi"),
    "red": ("red",),
    "green": ("green", "grn"),
    "blue": ("blue", "blu"),
    "yellow": ("yellow", "yel", "ylw"),
    "grey": ("grey", "gray", "gry", "gra"),
    "brown": ("brown", "brn", "bro"),
    "violet": ("violet", "purple", "vio", "pur", "ppl", "lilac"),
    "orange": ("orange", "org", "orn"),
    "pink": ("pink", "pnk"),
    "turquoise": ("turquoise", "aqua", "teal"),
    "beige": ("beige", "bge"),
    "tan": ("tan",),
    "light blue": ("light blue", "lt blue", "lightblue", "sky blue", "pale blue"),
    "dark blue": ("dark blue", "dk blue", "darkblue", "navy"),
    "light green": ("light green", "lt green", "lightgreen", "pale green", "lime"),
    "dark green": ("dark green", "dk green", "darkgreen"),
    "gold": ("gold",),
    "silver": ("silver",),
    "clear": ("clear", "transparent"),
    "natural": ("natural", "milky"),
    "bare": ("bare", "braid"),
}
_CODES = {
    **{"black": "bk", "brown": "bn", "red": "rd", "orange": "og", "yellow": "ye", "green": "gn"},
    **{"blue": "bu", "violet": "vt", "grey": "gy", "white": "wh", "pink": "pk"},
    **{"gold": "gd", "turquoise": "tq", "silver": "sr"},
}

COLOURS: tuple[Meaning, ...] = tuple(
    Meaning("colour", (colour,), words, COMMON) for colour, words in _SAID.items()
) + tuple(Meaning("colour", (colour,), (code,), COLOUR_CODES) for colour, code in _CODES.items())
