"""Which of six kinds a pin's function belongs to, and how each kind is hatched.

Six patterns can be told apart on a bad black-and-white print; twenty-six could not.
"""

from __future__ import annotations

from typing import Literal

from builder.model.plugs import Pin
from builder.model.words import PAIRED, SUPPLIES, Function
from builder.rendering.drawings.shapes import Hatch
from builder.rendering.drawings.wire_colours import wire_words

FunctionKind = Literal["supply", "ground", "speaker", "data", "control", "other"]

HATCH: dict[FunctionKind, Hatch] = {
    "supply": "solid",
    "ground": "level",
    "speaker": "rising",
    "data": "crossed",
    "control": "upright",
    "other": "dots",
}
"""Kind to pattern, in the order of the legend."""

MEANING: dict[FunctionKind, str] = {
    "supply": "supply",
    "ground": "ground, return or shield",
    "speaker": "speaker or line pair",
    "data": "data",
    "control": "control signal",
    "other": "other or unknown",
}

# A camera supply is left among the others: it must not look like a supply to tap.
_KINDS: tuple[tuple[FunctionKind, frozenset[Function]], ...] = (
    ("supply", SUPPLIES),
    ("ground", frozenset({"ground", "illumination_return", "shield"})),
    ("speaker", PAIRED),
    ("data", frozenset({"data_high", "data_low", "data_single"})),
    (
        "control",
        frozenset(
            {
                "illumination",
                "amplifier_on",
                "aerial_on",
                "mute",
                "speed",
                "reverse",
                "park_brake",
                "wheel_keys",
            }
        ),
    ),
)


def kind_of(function: Function) -> FunctionKind:
    """Return the kind of a pin function: a key of `HATCH`."""
    return next((kind for kind, functions in _KINDS if function in functions), "other")


def plain(word: str) -> str:
    """Return a word of the records as a person would read it: "front-left" as "front left"."""
    return word.replace("_", " ").replace("-", " ")


def use_words(pin: Pin) -> str:
    """Return what a pin does: "speaker, front left, negative"."""
    said = (pin.function, pin.channel, pin.leg)
    return ", ".join(plain(word) for word in said if word)


def pin_words(pin: Pin) -> str:
    """Return what a pin does and its wire: "ground, wire black"."""
    return f"{use_words(pin)}, wire {wire_words(pin.wire)}"
