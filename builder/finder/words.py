"""The words people use for functions, channels, colours and places, each with its source.

One table: the command, the page and the handbook read it. A word of several tokens is matched
longest first; a word that begins like several is taken for the first of them in this order.
"""

from __future__ import annotations

from itertools import chain
from typing import Literal, NamedTuple

from builder.finder.colour_words import COLOURS
from builder.finder.function_words import FUNCTIONS
from builder.finder.meaning import COMMON, Meaning, MeaningKind
from builder.model.words import Function

PARTS: tuple[str, str] = ("woofer", "tweeter")
"""Parts of a corner, which a question may ask for in any corner."""

CHANNELS = (
    Meaning("channel", ("front-left",), ("front left", "left front", "fl", "lf"), COMMON),
    Meaning("channel", ("front-right",), ("front right", "right front", "fr", "rf"), COMMON),
    Meaning(
        "channel",
        ("rear-left",),
        ("rear left", "left rear", "back left", "left back", "rl", "lr"),
        COMMON,
    ),
    Meaning(
        "channel",
        ("rear-right",),
        ("rear right", "right rear", "back right", "right back", "rr"),
        COMMON,
    ),
    Meaning("channel", ("front-left", "front-right"), ("front", "fronts"), COMMON),
    Meaning("channel", ("rear-left", "rear-right"), ("rear", "rears", "back"), COMMON),
    Meaning("channel", ("front-left", "rear-left"), ("left",), COMMON),
    Meaning("channel", ("front-right", "rear-right"), ("right",), COMMON),
    Meaning("channel", ("centre",), ("centre", "center"), COMMON),
    Meaning("channel", ("sub",), ("sub", "subwoofer", "subs"), COMMON),
    Meaning("channel", PARTS[:1], ("woofer", "woofers", "midbass"), COMMON),
    Meaning("channel", PARTS[1:], ("tweeter", "tweeters"), COMMON),
)

MEANINGS: tuple[Meaning, ...] = (*FUNCTIONS, *CHANNELS, *COLOURS)
"""Every word with a meaning, in the order in which beginnings are completed."""


class Known(NamedTuple):
    """What a known word stands for."""

    kind: MeaningKind
    means: tuple[str, ...]


KNOWN: dict[str, Known] = {
    word: Known(meaning.kind, meaning.means)
    for meaning in MEANINGS
    for word in sorted(meaning.words, key=lambda word: " " in word)
}
LONGEST_WORD = max(word.count(" ") + 1 for word in KNOWN)  # tokens


def begun(beginning: str, kind: MeaningKind | None = None) -> str:
    """The first known word with this beginning, of this kind if there is one, or ""."""
    found = [word for word in KNOWN if word.startswith(beginning)]
    return next((word for word in found if KNOWN[word].kind == kind), next(iter(found), ""))


AND_WORDS = frozenset({"and", "&", "plus", "also"})
"""Between two facts asked for at once."""
PLUG_WORDS = frozenset({"plug", "block", "connector", "shell"})
"""Before the letter of a plug: "plug A"."""
CAVITY_WORDS = frozenset({"pin", "cavity", "terminal", "way", "position", "contact"})
"""Before the number of a cavity: "pin 4"."""
STRIPE_WORDS = frozenset({"stripe", "striped", "tracer", "trace"})
"""After the second colour: "yellow with red stripe"."""
JOINING_WORDS = frozenset({"with", "w"})
"""Between base and stripe: "yellow with a red stripe"."""

FUSE_WORDS = frozenset({"fuse", "fuses"})
"""Asking for a place in a fuse panel."""
YearWord = Literal["from", "until", "after", "before"]

YEAR_WORDS: dict[str, YearWord] = {
    **dict.fromkeys(("from", "since"), "from"),
    **dict.fromkeys(("until", "till", "to"), "until"),
    "after": "after",
    "before": "before",
}
"""Before a year: which years are meant."""
YEARS_BETWEEN = frozenset({"to", "/", "until", "till", "through", "and", "-"})
"""Between two years."""
YEARS_ONWARD = frozenset({"onward", "onwards", "newer", "up"})
"""After a year: that year and those that follow."""

NOISE = frozenset(
    chain(
        ("which", "what", "where", "is", "are", "the", "a", "an", "on", "of", "in", "for", "to"),
        ("wire", "wires", "cable", "lead", "colour", "color", "power", "12v", "radio", "head"),
        ("unit", "car", "me", "my", "show", "find", "give", "it", "at", "i", "do", "does"),
        ("with", "w", "from", "behind", "need", "up", "between", "model", "year"),
        ("/", "+", "-", "'"),
        PLUG_WORDS,
        CAVITY_WORDS,
        STRIPE_WORDS,
    )
)
"""Words that ask for nothing by themselves."""

MAIN_ANSWERS: tuple[Function, ...] = (
    "constant",
    "constant_sleeps",
    "retained",
    "accessory",
    "run",
    "ground",
    "amplifier_on",
    "illumination",
    "speaker",
)
"""What is answered when the question asks for no wire, in this order."""
SWITCHED: frozenset[Function] = frozenset({"retained", "accessory", "run"})
"""The functions that a question for a switched wire means."""
