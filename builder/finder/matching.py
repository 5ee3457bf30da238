"""Runs the table of `grammar.py` over the tokens of a question; `finder-words.js` is its twin."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from builder.finder.grammar import RULES, Part, Rule, Test
from builder.finder.tokens import Tokens
from builder.finder.words import KNOWN, LONGEST_WORD, WORD_SETS, begun


class Caught(NamedTuple):
    """How many tokens fitted, and what was caught of them."""

    span: int
    texts: tuple[str, ...] = ()


_expression = cache(re.compile)
_SETS = {str(name): words for name, words in WORD_SETS.items()}


def first_rule(tokens: Tokens, at: int) -> tuple[Rule, Caught]:
    """Return the first rule that fits from a token on; the last of the table fits any."""
    found = ((rule, _fit(tokens, at, rule.pattern)) for rule in RULES)
    return next((rule, caught) for rule, caught in found if caught)


def filled(rule: Rule, caught: Caught) -> tuple[str, ...]:
    """Return the value of a rule with what was caught put in."""
    return tuple(text.format("", *caught.texts) for text in rule.value)


def years_in(ends: tuple[str, ...]) -> tuple[int, int]:
    """Return the first and the last year of two ends, each a sum of years."""
    first, last = sorted(sum(map(_year, end.split(" "))) for end in ends)
    return first, last


def _year(text: str) -> int:
    short = len(text) == 2 and text.isdecimal()
    return int(text) + (0 if not short else 2000 if int(text) < 50 else 1900)


def _fit(tokens: Tokens, at: int, pattern: Sequence[Part]) -> Caught | None:
    span, texts = 0, tuple[str, ...]()
    for part in pattern:
        caught = _one(tokens, at + span, part)
        if part.none:
            caught = None if caught else Caught(0)
        if not caught and not part.may:
            return None
        span, texts = (span + caught.span, texts + caught.texts) if caught else (span, texts)
    return Caught(span, texts)


def _one(tokens: Tokens, at: int, part: Part) -> Caught | None:
    """What one part catches of the tokens from `at` on, None where it does not fit."""
    words, test = tokens.words, part.test
    if test in ("end", "open"):
        return Caught(0) if (at == len(words) if test == "end" else tokens.typing) else None
    if at == len(words):
        return None
    if test in ("known", "phrase", "colour"):
        return _known(words, at, test)
    return _begun(tokens, at) if test == "begun" else _in_one(words[at], part)


def _in_one(word: str, part: Part) -> Caught | None:
    """What a part catches of one token that it looks at alone."""
    if part.test == "joined":
        return _joined(word)
    if part.test == "like":
        found = _expression(part.of).fullmatch(word)
        return Caught(1, tuple(filter(None, found.groups()))) if found else None
    return Caught(1) if word in _SETS[part.of] else None


def _known(words: Sequence[str], at: int, test: Test) -> Caught | None:
    """The longest word of the table at a token, as it stands or with blanks for its signs."""
    for span in range(min(LONGEST_WORD, len(words) - at), 0, -1):
        text = " ".join(words[at : at + span])
        word = text if text in KNOWN else text.replace("-", " ").replace(".", " ")
        if word in KNOWN:
            fits = _is_colour(word) if test == "colour" else span > 1 or test == "known"
            caught = KNOWN[word].means if test == "colour" else (word,)
            return Caught(span, caught) if fits else None
    return None


def _is_colour(word: str) -> bool:
    return word in KNOWN and KNOWN[word].kind == "colour"


def _joined(word: str) -> Caught | None:
    """Two colours in one token: "white-black"."""
    base, _, stripe = word.partition("-")
    both = _is_colour(base) and _is_colour(stripe)
    return Caught(1, (KNOWN[base].means[0], KNOWN[stripe].means[0])) if both else None


def _begun(tokens: Tokens, at: int) -> Caught | None:
    """The known words that the last words of a question begin ("hot at all").

    A last word that is known itself ("wheel key") begins nothing: it is never replaced.
    """
    words, rest = tokens.words, " ".join(tokens.words[at:])
    known = at + 1 == len(words) or rest in KNOWN or words[-1] in KNOWN
    word = "" if known or not tokens.typing else begun(rest)
    return Caught(len(words) - at, (word,)) if word else None
