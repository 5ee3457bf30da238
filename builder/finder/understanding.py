"""A question taken apart: which cars, which years, and which facts of them.

What its words are, `grammar.py` says; the rest is mirrored in the page's `finder-words.js`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from builder.finder.grammar import Rule
from builder.finder.matching import Caught, filled, first_rule, years_in
from builder.finder.tokens import Tokens
from builder.finder.words import KNOWN
from builder.model.names import SINGULAR_NAMES
from builder.model.said.meaning import MeaningKind
from builder.model.words import Function

Years = tuple[int, int]
"""The first and the last year asked for."""


class Colour(NamedTuple):
    """A wire colour asked for; `stripe` is "" when one colour was named."""

    base: str
    stripe: str


class Spot(NamedTuple):
    """A token that may be a name ("X2"), a plug ("X2") or plug and cavity ("A4")."""

    word: str
    plug: str
    cavity: str


class Fact(NamedTuple):
    """One thing asked of a car. Empty parts do not narrow it."""

    said: str
    functions: tuple[Function, ...] = ()
    channels: tuple[str, ...] = ()
    colours: tuple[Colour, ...] = ()
    plugs: tuple[str, ...] = ()
    cavities: tuple[str, ...] = ()
    spots: tuple[Spot, ...] = ()


ItemKind = MeaningKind | Literal["name", "years", "plug", "cavity", "spot"]
"""What a word of a question is."""


class Item(NamedTuple):
    """One word or phrase of a question. `fact` numbers the facts asked for with "and"."""

    kind: ItemKind
    said: str
    fact: int
    value: tuple[str, ...] = ()
    years: Years | None = None
    typed: str = ""  # what was typed, where it was taken for `said`


class Question(NamedTuple):
    """What was asked. Without facts, the main answers are."""

    names: tuple[str, ...]
    years: Years | None
    facts: tuple[Fact, ...]


def items_of(tokens: Tokens) -> tuple[Item, ...]:
    """Return the words and phrases of a question; noise is dropped."""
    items: list[Item] = []
    at = fact = 0
    while at < len(tokens.words):
        rule, caught = first_rule(tokens, at)
        said = " ".join(tokens.words[at : at + caught.span])
        at += caught.span
        fact += rule.kind == "and"
        items += _item(rule, caught, said, fact)
    return tuple(items)


def _item(rule: Rule, caught: Caught, said: str, fact: int) -> Iterator[Item]:
    """What these tokens are; nothing for noise and for what parts two facts."""
    value = filled(rule, caught)
    if rule.kind in ("known", "begun"):
        yield known_item(caught.texts[0], fact, said if rule.kind == "begun" else "")
    elif rule.kind == "years":
        yield Item("years", said, fact, years=years_in(value))
    elif rule.kind in ("colour", "cavity", "plug", "spot", "name"):
        yield Item(rule.kind, said, fact, value)


def known_item(word: str, fact: int, typed: str = "") -> Item:
    """A word of the table as an item; `typed` is what was taken for it, when that differs."""
    known = KNOWN[word]
    value = (known.means[0], "") if known.kind == "colour" else known.means
    return Item(known.kind, word, fact, value, typed=typed)


def question_of(items: Iterable[Item]) -> Question:
    """Put items together: names and years belong to the question, the rest to its facts."""
    names: list[str] = []
    years: Years | None = None
    facts: dict[int, list[Item]] = {}
    for item in items:
        if item.kind == "name":
            names.append(item.said)
        elif item.kind == "years":
            years = item.years
        else:
            facts.setdefault(item.fact, []).append(item)
    return Question(tuple(names), years, tuple(_fact(facts[number]) for number in sorted(facts)))


def _fact(items: Sequence[Item]) -> Fact:
    functions = tuple(one for one in _values(items, "function") if one in SINGULAR_NAMES)
    channels = _values(items, "channel")
    if channels and not functions:
        functions = ("speaker", "line")
    colours = tuple(Colour(*item.value) for item in items if item.kind == "colour")
    spots = tuple(Spot(item.said, *item.value) for item in items if item.kind == "spot")
    said = " ".join(item.said for item in items).replace(" / ", "/")
    places = _values(items, "plug"), _values(items, "cavity")
    return Fact(said, functions, channels, colours, *places, spots)


def _values(items: Sequence[Item], kind: ItemKind) -> tuple[str, ...]:
    """The values of a kind in the order they were asked for, each once."""
    return tuple(dict.fromkeys(v for item in items if item.kind == kind for v in item.value))
