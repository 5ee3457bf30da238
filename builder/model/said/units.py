"""How people write units, figures and the signs beside them; common practice without a source."""

from __future__ import annotations

from typing import Final

from builder.model.words import Beside, Leg, Quantity

_VOLT = ("v", "volt", "volts")
_OHM = ("ohm", "ohms", "ω")
_AMPERE = ("a", "amp", "amps", "ampere", "amperes")
_HERTZ = ("hz", "hertz")
_AC = ("vac", "vrms", "voltac", "voltsac")
_MINUTES = ("min", "mins", "minute", "minutes")
_PERCENT = ("%", "percent")

UNIT_WORDS: dict[str, tuple[str, ...]] = {
    "V": (*_VOLT, "vdc", "voltdc", "voltsdc", *_AC),
    "A": _AMPERE,
    "W": ("w", "watt", "watts"),
    "Ω": (*_OHM, "r"),
    "Hz": _HERTZ,
    "s": ("s", "sec", "secs", "second", "seconds"),
    "min": _MINUTES,
    "m": ("m", "metre", "metres", "meter", "meters"),
    "mm²": ("mm²", "mm2"),
    "Ah": ("ah",),
    "dB": ("db",),
    "AWG": ("awg", "ga", "gauge"),
    "%": _PERCENT,
}
"""Of each unit of a record the ways to write it, in lower case."""

_SCALED: dict[Quantity, dict[tuple[str, ...], float]] = {
    "dc_v": {
        (*_VOLT, "vdc", "voltdc", "voltsdc"): 1.0,
        ("mv", "mvdc", "millivolt", "millivolts"): 0.001,
    },
    "ac_v": {_AC: 1.0, ("mvac", "mvrms"): 0.001},
    "ohm": {
        _OHM: 1.0,
        ("k", "kohm", "kohms", "kω"): 1e3,
        ("mohm", "megohm", "megohms", "mω"): 1e6,
    },
    "hz": {_HERTZ: 1.0, ("khz",): 1e3},
    "ma": {("ma", "milliamp", "milliamps"): 1.0, _AMPERE: 1e3},
    "duty_percent": {(*_PERCENT, "%duty"): 1.0},
}
READ_UNITS: dict[str, tuple[Quantity, float]] = {
    word: (quantity, factor)
    for quantity, scaled in _SCALED.items()
    for words, factor in scaled.items()
    for word in words
}
"""A unit behind a reading, without spaces, to quantity and factor.

`mohm` is megohm: no meter shows milliohms here.
"""

QUANTITY_WORDS: dict[Quantity, tuple[str, ...]] = {
    "ac_v": ("v ac", "ac v", "vac", "ac volts", "volts ac"),
    "dc_v": ("v", "v dc", "dc v", "vdc", "volts", "volt", "dc volts", "volts dc"),
    "ohm": ("ohm", "ohms"),
    "hz": _HERTZ,
    "ma": ("ma",),
    "duty_percent": ("duty %", "duty percent", "duty", "%"),
}
"""The same in a heading."""
BESIDE_WORDS: dict[Beside, tuple[str, ...]] = {
    "battery_v": ("battery v", "battery volts", "battery", "batt v", "batt", "battery voltage"),
    "minutes": _MINUTES,
    "tone_hz": ("tone hz", "tone frequency hz"),
    "volume_step": ("volume", "volume step"),
}

OPEN: Final = "open"
OPEN_WORDS = frozenset(
    {"open", "ol", "o.l", "o.l.", "0l", "o/l", "over range", "overload", "inf", "∞", "1 ."}
)
"""What a meter shows when nothing is joined, as people type it."""
MINUS_SIGNS = "-−–"
LEG_WORDS: dict[str, Leg] = {
    **dict.fromkeys(("+", "plus", "pos", "positive", "p", "(+)", "pos.", "+ve"), "positive"),
    **dict.fromkeys(
        (*MINUS_SIGNS, "minus", "neg", "negative", "n", "(-)", "(−)", "neg.", "-ve"), "negative"
    ),
}
