"""A question taken apart: which cars, which years, and which facts of them.

Mirrored line by line in the page's `finder-words.js`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from builder.finder.entries import FUSE
from builder.finder.meaning import MeaningKind
from builder.finder.tokens import Tokens, Years, spot, years_at
from builder.finder.words import (
    AND_WORDS,
    CAVITY_WORDS,
    FUSE_WORDS,
    JOINING_WORDS,
    KNOWN,
    LONGEST_WORD,
    NOISE,
    PLUG_WORDS,
    STRIPE_WORDS,
    begun,
)
from builder.model.names import SINGULAR_NAMES
from builder.model.words import Function


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
        if tokens.words[at] in AND_WORDS:
            fact, span = fact + 1, 1
        else:
            span, item = _item(tokens, at, fact)
            items += [item] if item else []
        at += span
    return tuple(items)


def _item(tokens: Tokens, at: int, fact: int) -> tuple[int, Item | None]:
    """The item at a token and how many tokens it takes; None for noise."""
    words, said = tokens.words, tokens.words[at]
    if years := years_at(tokens, at):
        return years[0], Item("years", said, fact, (), years[1])
    if phrase := _begun_phrase(tokens, at):
        return len(words) - at, known_item(phrase, fact, " ".join(words[at:]))
    if colour := _colour(words, at):
        return colour[0], Item("colour", " ".join(words[at : at + colour[0]]), fact, colour[1])
    span, known = _known(words, at)
    if span < 2 and (place := _place(words, at)):
        return 2, Item(place, f"{said} {words[at + 1]}", fact, (words[at + 1],))
    if known:
        return span, known_item(known, fact)
    return 1, _unknown_item(said, fact)


def _begun_phrase(tokens: Tokens, at: int) -> str:
    """The known words that the last words of a question begin ("hot at all"), or "".

    A last word that is known itself ("wheel key") begins nothing: it is never replaced.
    """
    rest = " ".join(tokens.words[at:])
    known = rest in KNOWN or tokens.words[-1] in KNOWN
    if not tokens.typing or at + 1 == len(tokens.words) or known:
        return ""
    return begun(rest)


def _unknown_item(said: str, fact: int) -> Item | None:
    """A word of no table: a place in a fuse panel or a plug, a name, or noise."""
    if said in FUSE_WORDS:
        return Item("cavity", said, fact, (FUSE,))
    if place := spot(said):
        return Item("spot", said, fact, place)
    return None if said in NOISE else Item("name", said, fact)


def known_item(word: str, fact: int, typed: str = "") -> Item:
    """A word of the table as an item; `typed` is what was taken for it, when that differs."""
    known = KNOWN[word]
    value = (known.means[0], "") if known.kind == "colour" else known.means
    return Item(known.kind, word, fact, value, typed=typed)


def _known(words: Sequence[str], at: int) -> tuple[int, str]:
    """The longest word of the table at a token: how many tokens it spans, and itself or ""."""
    for span in range(min(LONGEST_WORD, len(words) - at), 0, -1):
        for word in (" ".join(words[at : at + span]), _spaced(words[at : at + span])):
            if word in KNOWN:
                return span, word
    return 1, ""


def _spaced(words: Sequence[str]) -> str:
    return " ".join(words).replace("-", " ").replace(".", " ")


def _place(words: Sequence[str], at: int) -> Literal["plug", "cavity", ""]:
    """Whether "plug A" or "pin 4" stands at a token: "plug", "cavity" or ""."""
    after = words[at + 1] if at + 1 < len(words) else ""
    digits = after.isascii() and after.isdecimal()
    if words[at] in CAVITY_WORDS and digits and len(after) < 4:
        return "cavity"
    short = after.isascii() and after.isalnum() and len(after) < 4
    named = short and after not in KNOWN and (len(after) == 1 or after not in NOISE)
    return "plug" if words[at] in PLUG_WORDS and named else ""


def _colour(words: Sequence[str], at: int) -> tuple[int, tuple[str, str]] | None:
    """A colour, or base and stripe, at a token, and how many tokens it takes."""
    if not (base := _one_colour(words, at)):
        return _joined_colours(words[at])
    span, colour = base
    after = at + span
    for word_set in ({"/"}, JOINING_WORDS, {"a"}):
        after += after < len(words) and words[after] in word_set
    stripe = _one_colour(words, after) if after < len(words) else None
    if not stripe:
        return span, (colour, "")
    end = after + stripe[0]
    end += end < len(words) and words[end] in STRIPE_WORDS
    return end - at, (colour, stripe[1])


def _one_colour(words: Sequence[str], at: int) -> tuple[int, str] | None:
    span, word = _known(words, at)
    known = KNOWN.get(word)
    return (span, known.means[0]) if known and known.kind == "colour" else None


def _joined_colours(word: str) -> tuple[int, tuple[str, str]] | None:
    """Two colours in one token: "white-black"."""
    base, dash, stripe = word.partition("-")
    found = [KNOWN.get(part) for part in (base, stripe)]
    if dash and all(one and one.kind == "colour" for one in found):
        return 1, (KNOWN[base].means[0], KNOWN[stripe].means[0])
    return None


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
