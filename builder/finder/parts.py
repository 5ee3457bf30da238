"""Parts that a question names beside a car: converters, looms and what else has a record.

Mirrored line by line in the page's `finder-pages.js`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from builder.finder.entries import Entry
from builder.finder.forgiven import ReadAs
from builder.finder.names import BEGINNING, BEGUN, Names, is_known
from builder.finder.tokens import split
from builder.finder.words import KNOWN, WORD_SETS, begun
from builder.model.words import RecordKind

MOST_PARTS = 6
_LONGEST_NAME = 6  # words of a part's name
_SHORTEST_NAME = 4  # letters and digits; what is shorter may be a cavity
_BETWEEN = re.compile(r"[^a-z0-9\u00c0-\uffff]+")
_NO_WORD = re.compile(r"[^a-z0-9\u00c0-\uffff-]+")


class Part(NamedTuple):
    """A part as the finder knows it: what it is, its id, what it is called."""

    kind: RecordKind
    id: str
    name: str

    def has_plan_with(self, car: Entry) -> bool:
        """Whether this is a converter that a vehicle has a plan with."""
        return self.kind == "converter" and self.id in car.plans


class PartsSaid(NamedTuple):
    """The parts that a question names, the question without them, and what was forgiven."""

    parts: tuple[Part, ...]
    rest: str
    read_as: tuple[ReadAs, ...] = ()


def plain(text: str) -> str:
    """Letters and digits alone, so that "CVN 2A" and "cvn-2a" are the same."""
    return _BETWEEN.sub("", text.lower())


def parts_said(text: str, parts: Sequence[Part], names: Sequence[Names]) -> PartsSaid:
    """Take the parts out of a question that stand in it with their whole id or name.

    A word that names a car of the book, or that asks for something, is never taken for a part. A
    last word that may not be finished, and begins nothing else, stands for the converters that it
    begins.
    """
    words = [word for word in split(text.lower()) if word]
    found: list[Part] = []
    left: list[str] = []
    at = 0
    while at < len(words):
        span, named = _named_at(words, at, parts, names)
        found += named
        left += [] if named else [words[at]]
        at += span
    if not found and split(text)[-1] and left and (begins := _begun(left[-1], parts, names)):
        told = ReadAs(left[-1], tuple(part.id for part in begins))
        return PartsSaid(begins, " ".join([*left[:-1], ""]), (told,))
    rest = " ".join([*left, ""]) if found else text
    return PartsSaid(tuple(dict.fromkeys(found)), rest)


def plans_asked(text: str, said: Iterable[Part], parts: Iterable[Part]) -> tuple[Part, ...]:
    """Return the converters whose plans a question asks for: those that it names; or all, when it
    asks for a plan or for what is measured first and names none.
    """
    named = tuple(part for part in said if part.kind == "converter")
    asks = any(word in WORD_SETS["planned"] for word in split(text.lower()))
    return named or tuple(part for part in parts if asks and part.kind == "converter")


def _named_at(
    words: Sequence[str], at: int, parts: Sequence[Part], names: Sequence[Names]
) -> tuple[int, list[Part]]:
    """The parts whose whole name begins at a word, and how many words it has; else one and none."""
    for span in range(min(_LONGEST_NAME, len(words) - at), 0, -1):
        said = plain("".join(words[at : at + span]))
        known = span == 1 and (words[at] in KNOWN or is_known(words[at], names))
        if len(said) >= _SHORTEST_NAME and not known:
            named = [part for part in parts if said in (plain(part.id), plain(part.name))]
            if named:
                return span, named
    return 1, []


def _begun(word: str, parts: Sequence[Part], names: Sequence[Names]) -> tuple[Part, ...]:
    said = plain(word)
    if len(said) < BEGINNING or begun(word) or any(one.fit(word, BEGUN) for one in names):
        return ()
    return tuple(p for p in parts if p.kind == "converter" and plain(p.id).startswith(said))


def fitting(text: str, parts: Iterable[Part]) -> tuple[Part, ...]:
    """Return the parts of whose words each word of a text is one or begins one, best first: the
    whole name, then more whole words, then their order.
    """
    asked, whole = [word for word in _NO_WORD.split(text.lower()) if word], plain(text)
    if not asked or len(whole) < 2:
        return ()
    scored = [
        (plain(part.id) != whole, -exact, at, part)
        for at, part in enumerate(parts)
        if (exact := _whole_words(asked, _words_of(part))) is not None
    ]
    return tuple(part for *_, part in sorted(scored, key=lambda one: one[:3])[:MOST_PARTS])


def _words_of(part: Part) -> list[str]:
    said = f"{part.name} ({part.kind}) {part.id}  {part.kind}"
    words = _NO_WORD.split(said.lower())
    return [*words, *map(plain, words)]


def _whole_words(asked: Sequence[str], own: Sequence[str]) -> int | None:
    """How many words are whole ones; None when one is not even the beginning of any."""
    exact = [word in own or plain(word) in own for word in asked]
    begins = [any(one.startswith(word) for one in own) for word in asked]
    fits = all(one or other for one, other in zip(exact, begins, strict=True))
    return sum(exact) if fits else None
