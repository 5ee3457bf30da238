"""Names of vehicles: how well a word fits them, and what a word that fits none was meant to be.

Mirrored line by line in the page's `finder-book.js` and `finder-answers.js`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from builder.finder.entries import Entry
from builder.finder.tokens import split
from builder.finder.understanding import Item, known_item
from builder.finder.words import ASKED_BACK, KNOWN, NOISE, begun
from builder.model.said.meaning import MeaningKind

SAME, BEGUN, SLIP = 4, 3, 2
"""How well a word fits a name: the same, its beginning, one slip of the finger."""
BEGINNING = 3  # letters; a shorter beginning may be the start of anything
TYPO_LENGTH = 4  # words shorter than this must be spelt right

_YEAR = re.compile(r"(?:19|20)[0-9]{2}")


class Fit(NamedTuple):
    """How well a word fits a name, 0 when it does not, and the name's own word that it fits."""

    score: int
    own: str

    def __bool__(self) -> bool:
        return self.score > 0


_NO_FIT = Fit(0, "")


@dataclass(frozen=True, slots=True)
class Names:
    """The words by which a vehicle can be called."""

    words: tuple[str, ...]

    def fit(self, word: str, least: int) -> Fit:
        """Return how well a word fits, of the fits that are `least` or better."""
        fits = [Fit(_fit(word, own, least), own) for own in self.words]
        return max(fits, key=lambda fit: fit.score, default=_NO_FIT)


def least_fit(word: str, names: Iterable[Names], forgiving: bool) -> int:
    """Return which fits count for a word of a question.

    A word that names a vehicle of the book as it stands means that one: it is neither the
    beginning of another name nor a slip in one.
    """
    if is_known(word, names):
        return SAME
    return SLIP if forgiving else BEGUN


def is_known(word: str, names: Iterable[Names]) -> bool:
    """Whether a word stands so in the name of a vehicle of the book."""
    return any(word in one.words for one in names)


def names_of(entry: Entry) -> Names:
    """Return the words by which a vehicle can be called: its names and its id, without years."""
    text = f"{entry.make} {entry.model} {entry.variant} {entry.id.replace('-', ' ')}"
    return Names(tuple(dict.fromkeys(name_words(text))))


def name_words(text: str) -> Iterator[str]:
    """The words of a name, in lower case; "four-door" is that, "four" and "door"."""
    for word in split(text.lower().replace("/", " ")):
        for part in dict.fromkeys((word, *word.split("-"))):
            if part and not _YEAR.fullmatch(part):
                yield part


def named_makes(asked: Sequence[str], makes: Iterable[str]) -> frozenset[str]:
    """Return the makes whose whole name is among the words asked: then no other make answers,
    though it may have a variant of that name.
    """
    return frozenset(
        make
        for make in makes
        if all(word in asked for word in split(make.lower().replace("/", " ")) if word)
    )


def _fit(name: str, word: str, least: int) -> int:
    if name == word:
        return SAME
    if least <= BEGUN and word.startswith(name):
        return BEGUN
    slip = least <= SLIP and len(name) >= TYPO_LENGTH and one_slip(name, word)
    return SLIP if slip else 0


def one_slip(a: str, b: str) -> bool:
    """Whether one letter added, left out, changed, or swapped with its neighbour makes b of a."""
    if abs(len(a) - len(b)) > 1:
        return False
    start = 0
    while start < min(len(a), len(b)) and a[start] == b[start]:
        start += 1
    rest_a, rest_b = a[start:], b[start:]
    return (
        rest_a[1:] == rest_b[1:]
        or rest_a[1:] == rest_b
        or rest_a == rest_b[1:]
        or (rest_a[:2] == rest_b[1::-1] and rest_a[2:] == rest_b[2:])
    )


def complete(items: Sequence[Item], names: Sequence[Names]) -> tuple[Item, ...]:
    """Take the last word for the beginning of a known one, when it may be."""
    last = items[-1]
    kind: MeaningKind | None = None
    if len(items) > 1 and items[-2].kind == "colour":
        kind = "colour"
    asked_back = kind == "colour" and last.said in ASKED_BACK
    may_be = last.kind == "name" and len(last.said) > 1 and not is_known(last.said, names)
    may_be = may_be and not asked_back
    word = begun(last.said, kind) if may_be else ""
    return (*items[:-1], known_item(word, last.fact, last.said)) if word else tuple(items)


def may_be_dropped(last: Item, names: Sequence[Names]) -> bool:
    """Whether the last word, still being typed, may turn out to ask for nothing."""
    noise = any(word.startswith(last.said) for word in NOISE)
    short = len(last.said) < BEGINNING or noise
    return last.kind == "name" and short and not is_known(last.said, names)


def correct(items: Sequence[Item], names: Sequence[Names]) -> tuple[Item, ...]:
    """Take words that fit no vehicle for known words: for beginnings, else for slips."""
    return tuple(_corrected(item, names) for item in items)


def _corrected(item: Item, names: Sequence[Names]) -> Item:
    if item.kind != "name" or any(one.fit(item.said, BEGUN) for one in names):
        return item
    word = begun(item.said) if len(item.said) >= BEGINNING else ""
    word = word or slipped(item.said)
    if word:
        return known_item(word, item.fact, item.said)
    digits = item.said.isascii() and item.said.isdecimal() and len(item.said) < 4
    if not digits:
        return item
    return Item("cavity", item.said, item.fact, (item.said,), typed=item.said)


def slipped(word: str) -> str:
    """The first known word of one token that is one slip away, or ""."""
    if len(word) < TYPO_LENGTH:
        return ""
    fitting = (one for one in KNOWN if len(one) >= TYPO_LENGTH and " " not in one)
    return next((one for one in fitting if one_slip(word, one)), "")
