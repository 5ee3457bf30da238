"""What people call the colours of insulation; the record's own words are the first of each.

A colour of one letter is no word of a question to the finder: there it begins another word.
"""

from __future__ import annotations

from builder.model.said.meaning import COLOUR_CODES, COMMON, OTHER_COLOUR, Meaning

_SAID: dict[str, tuple[str, ...]] = {
    "black": ("black", "blk", "blck", "blac", "blak"),
    "white": ("white", "wht", "whi", "whte", "wt"),
    "red": ("red",),
    "green": ("green", "grn", "gren"),
    "blue": ("blue", "blu"),
    "yellow": ("yellow", "yel", "ylw", "yell", "yw"),
    "grey": ("grey", "gray", "gry", "gra"),
    "brown": ("brown", "brn", "bro", "brwn"),
    "violet": ("violet", "purple", "vio", "pur", "ppl", "vlt", "purp"),
    "orange": ("orange", "org", "orn", "orng", "ora"),
    "pink": ("pink", "pnk"),
    "turquoise": ("turquoise", "aqua", "teal"),
    "beige": ("beige", "bge"),
    "tan": ("tan",),
    "light blue": (
        "light blue",
        "lt blue",
        "lightblue",
        "sky blue",
        "pale blue",
        "lt blu",
        "ltblu",
    ),
    "dark blue": ("dark blue", "dk blue", "darkblue", "navy", "dk blu", "dkblu"),
    "light green": (
        "light green",
        "lt green",
        "lightgreen",
        "pale green",
        "lime",
        "lt grn",
        "ltgrn",
    ),
    "dark green": ("dark green", "dk green", "darkgreen", "dk grn", "dkgrn"),
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

_DOUBTFUL = {"violet": ("lilac",), "beige": ("cream",)}
"""Colours for which the records have no word of their own: looked for, and asked back."""

COLOURS: tuple[Meaning, ...] = (
    tuple(Meaning("colour", (colour,), words, COMMON) for colour, words in _SAID.items())
    + tuple(Meaning("colour", (colour,), (code,), COLOUR_CODES) for colour, code in _CODES.items())
    + tuple(
        Meaning("colour", (colour,), words, COMMON, (colour, OTHER_COLOUR))
        for colour, words in _DOUBTFUL.items()
    )
)

SHORT_COLOURS: dict[str, str] = {"w": "white", "r": "red", "y": "yellow", "o": "orange"} | {
    "or": "orange",
    **dict.fromkeys(("?", "unknown", "unknown colour"), "unknown"),
}
"""Short words with one meaning where a colour is asked for."""
ALIKE_COLOURS: dict[str, tuple[str, ...]] = {
    "bl": ("black", "blue"),
    "b": ("black", "blue", "brown"),
    "br": ("brown", OTHER_COLOUR),
    "gr": ("grey", "green"),
    "g": ("green", "grey", "gold"),
    "p": ("pink", "violet"),
    "pu": ("violet", OTHER_COLOUR),
    "lg": ("light green", OTHER_COLOUR),
    "lb": ("light blue", OTHER_COLOUR),
    "l": ("blue", OTHER_COLOUR),
    "db": ("dark blue", OTHER_COLOUR),
    "dg": ("dark green", OTHER_COLOUR),
    "t": ("tan", "turquoise"),
    "tr": ("turquoise", "clear"),
    "s": ("silver", OTHER_COLOUR),
    "v": ("violet", OTHER_COLOUR),
    "be": ("beige", "blue"),
    "bg": ("beige", OTHER_COLOUR),
    "go": ("gold", OTHER_COLOUR),
}
"""Short words that makers and people use for more than one colour: asked back, all offered."""
