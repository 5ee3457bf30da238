"""The words of a question: those of the word table, and those that stand for places and years.

The command, the page and the handbook read them. A word of several tokens is matched
longest first; a word that begins like several is taken for the first of them in this order.
"""

from __future__ import annotations

from itertools import chain
from typing import Literal, NamedTuple

from builder.model.said.channels import CHANNELS
from builder.model.said.colours import ALIKE_COLOURS, COLOURS, SHORT_COLOURS
from builder.model.said.functions import FUNCTIONS, SWITCHED
from builder.model.said.meaning import Meaning, MeaningKind
from builder.model.words import Function

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
ASKED_BACK: dict[str, tuple[str, ...]] = {
    **{
        word: (colour,)
        for word, colour in SHORT_COLOURS.items()
        if word.isalpha() and word not in KNOWN
    },
    **ALIKE_COLOURS,
}
"""Short words for colours that a question has to write out, each with what it could be."""
LONGEST_WORD = max(word.count(" ") + 1 for word in KNOWN)  # tokens


def begun(beginning: str, kind: MeaningKind | None = None) -> str:
    """The first known word with this beginning, of this kind if there is one, or ""."""
    found = [word for word in KNOWN if word.startswith(beginning)]
    return next((word for word in found if KNOWN[word].kind == kind), next(iter(found), ""))


PlaceSet = Literal["and", "plug", "cavity", "fuse", "joining", "stripe", "noise", "planned"]
YearSet = Literal["from", "until", "before", "after", "yearsBetween", "yearsOnward"]
WordSet = PlaceSet | YearSet

_PLUG = frozenset({"plug", "block", "connector", "shell"})  # before its letter: "plug A"
_CAVITY = frozenset({"pin", "cavity", "terminal", "way", "position", "contact"})  # "pin 4"
_STRIPE = frozenset({"stripe", "striped", "tracer", "trace"})  # "yellow with red stripe"
_PLANNED = frozenset(
    {"plan", "plans", "planned", "measure", "measured", "reading", "readings", "first"}
)  # "what do I measure first"
NOISE = frozenset(
    chain(
        ("which", "what", "where", "is", "are", "the", "a", "an", "on", "of", "in", "for", "to"),
        ("wire", "wires", "cable", "lead", "colour", "color", "power", "12v", "radio", "head"),
        ("unit", "car", "me", "my", "show", "find", "give", "it", "at", "i", "do", "does"),
        ("with", "w", "from", "behind", "need", "up", "between", "model", "year"),
        ("/", "+", "-", "'"),
        *(_PLUG, _CAVITY, _STRIPE, _PLANNED),
    )
)
"""Words that ask for nothing by themselves."""

WORD_SETS: dict[WordSet, frozenset[str]] = {
    "and": frozenset({"and", "&", "plus", "also"}),  # between two facts asked for at once
    "plug": _PLUG,
    "cavity": _CAVITY,
    "fuse": frozenset({"fuse", "fuses"}),  # a place in a fuse panel
    "joining": frozenset({"with", "w"}),  # between base and stripe
    "stripe": _STRIPE,
    "noise": NOISE,
    "planned": _PLANNED,  # a car's plans say what is measured first
    "from": frozenset({"from", "since"}),
    "until": frozenset({"until", "till", "to"}),
    "before": frozenset({"before"}),
    "after": frozenset({"after"}),
    "yearsBetween": frozenset({"to", "/", "until", "till", "through", "and", "-"}),
    "yearsOnward": frozenset({"onward", "onwards", "newer", "up"}),
}
"""The sets of words that the grammar asks for."""

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


class Instead(NamedTuple):
    """What serves where a car has nothing of what was asked for, and how that is said."""

    functions: tuple[Function, ...]
    said: str


_SWITCHED_INSTEAD = Instead(SWITCHED, "below is what is switched")
INSTEAD: dict[Function, Instead] = {
    "amplifier_on": _SWITCHED_INSTEAD,
    "aerial_on": _SWITCHED_INSTEAD._replace(functions=("amplifier_on", *SWITCHED)),
    "line": Instead(("speaker",), "below are its speaker pairs"),
    "speaker": Instead(("line",), "below are its line pairs"),
}
"""By the first function that a question asks for; common practice, no source."""
