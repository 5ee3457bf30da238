"""How people write headings, states and colours; all of it common practice without a source."""

from __future__ import annotations

import re

from builder.finder.colour_words import COLOURS
from builder.model.words import Beside, Leg, Load, Quantity, State

STATE_WORDS: dict[State, tuple[str, ...]] = {
    "asleep": ("asleep", "sleep", "sleeping", "key out locked"),
    "door_open": ("door open",),
    "accessory": ("acc", "accessory", "key acc"),
    "run": ("run", "ign", "ignition", "key run", "ignition on", "ign on"),
    "crank": ("crank", "cranking"),
    "engine": ("engine", "engine running", "engine on"),
    "lights_on": ("lights on", "lamps on"),
    "lights_dimmed": ("lights dimmed", "dimmed"),
    "lights_off": ("lights off", "lamps off"),
    "retained": ("retained", "key off retained", "key off not yet asleep", "key off"),
    "radio_off": ("radio off",),
    "radio_on_zero": ("radio on zero", "radio zero", "volume zero", "radio on volume 0"),
    "radio_on_tone": ("radio on tone", "radio tone"),
    "tuner": ("tuner",),
    "other_source": ("other source",),
    "auto_restart": ("auto restart", "restart"),
    "unplugged": ("unplugged",),
    "battery_off": ("battery off",),
}
LOAD_WORDS: dict[Load, tuple[str, ...]] = {
    "lamp_0.4a": ("lamp 0.4a", "lamp"),
    "1a": ("1a", "1 a"),
    "50ma": ("50ma", "50 ma"),
    "5ma": ("5ma", "5 ma"),
}
QUANTITY_WORDS: dict[Quantity, tuple[str, ...]] = {
    "ac_v": ("v ac", "ac v", "vac", "ac volts"),
    "dc_v": ("v", "v dc", "dc v", "vdc", "volts", "volt"),
    "ohm": ("ohm", "ohms"),
    "hz": ("hz",),
    "ma": ("ma",),
    "duty_percent": ("duty %", "duty percent", "duty", "%"),
}
BESIDE_WORDS: dict[Beside, tuple[str, ...]] = {
    "battery_v": ("battery v", "battery volts", "battery", "batt v"),
    "minutes": ("min", "minutes", "mins"),
    "tone_hz": ("tone hz", "tone frequency hz"),
    "volume_step": ("volume", "volume step"),
}
OPEN_WORDS = frozenset({"open", "ol", "o.l", "o.l.", "0l", "o/l", "over range", "inf", "∞", "1 ."})
LEG_WORDS: dict[str, Leg] = {
    **dict.fromkeys(("+", "plus", "pos", "positive", "p", "(+)"), "positive"),
    **dict.fromkeys(("-", "−", "–", "minus", "neg", "negative", "n", "(-)"), "negative"),
}
EMPTY_WORDS = frozenset({"empty", "no terminal", "no pin", "blank"})
ALIKE_COLOURS: dict[str, tuple[str, ...]] = {
    "bl": ("black", "blue"),
    "b": ("black", "blue", "brown"),
    "br": ("brown", "another colour"),
    "gr": ("grey", "green"),
    "g": ("green", "grey", "gold"),
    "p": ("pink", "violet"),
    "pu": ("violet", "another colour"),
    "lg": ("light green", "another colour"),
    "lb": ("light blue", "another colour"),
    "l": ("blue", "another colour"),
    "db": ("dark blue", "another colour"),
    "dg": ("dark green", "another colour"),
    "t": ("tan", "turquoise"),
    "tr": ("turquoise", "clear"),
    "s": ("silver", "another colour"),
    "v": ("violet", "another colour"),
    "be": ("beige", "blue"),
    "bg": ("beige", "another colour"),
    "go": ("gold", "another colour"),
}
"""Short words that makers and people use for more than one colour: refused, all of them offered."""

COLOUR_WORDS: dict[str, str] = {
    word: meaning.means[0] for meaning in COLOURS for word in meaning.words
} | {
    **{"w": "white", "r": "red", "y": "yellow", "o": "orange", "or": "orange", "wt": "white"},
    **{"unknown": "unknown", "?": "unknown", "blac": "black", "vlt": "violet"},
}
_MONTH = (
    "jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|sept|oct|okt|nov|dec|dez|january|february|march|"
    "april|june|july|august|september|october|november|december|januar|februar|märz|juni|juli|"
    "oktober|dezember"
)
_BECAME_DATE = re.compile(
    rf"(?:[0-9]{{1,4}}[-. /]*\s*(?:{_MONTH})\.?(?:[-. /]*[0-9]{{2,4}})?"
    rf"|(?:{_MONTH})\.?[-. /]*[0-9]{{1,4}}"
    r"|[0-9]{1,2}[-./][0-9]{1,2}[-./][0-9]{2,4}|[0-9]{4}-[0-9]{2}-[0-9]{2}(?: 00:00:00)?)\Z",
    re.I,
)


def looks_like_date(text: str) -> bool:
    """Whether a text is what a spreadsheet program makes of 1-2 when it takes it for a day."""
    return _BECAME_DATE.match(text.strip()) is not None


_SPELT = {"color": "colour", "colors": "colours", "shell": "housing"}
"""Words of headings that are spelt otherwise, or were once."""


def plain(text: str) -> str:
    """A heading without case, brackets and signs: `Fuse (A)` and `fuse_a` are `fuse a`."""
    text = text.lower().replace("²", "2").replace("Ω".lower(), "ohm").replace("Ω", "ohm")
    words = re.findall(r"[\w%+.]+", text.replace("_", " "))
    return " ".join(_SPELT.get(word, word) for word in words).strip(". ")
