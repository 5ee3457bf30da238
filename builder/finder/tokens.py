"""A question as tokens, and the tokens that are years or places in a plug.

Mirrored line by line in the page's `finder-words.js`; no expression here means something else
there: white space is spelt out, and signs beyond the basic plane only part words.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, NamedTuple

from builder.finder.words import YEAR_WORDS, YEARS_BETWEEN, YEARS_ONWARD, YearWord

LONGEST_QUESTION = 160  # code points; the rest is not read
LAST_YEAR = 9999
_ON: Final = "on"  # "2016 on": only where nothing follows

Years = tuple[int, int]

_DASH = re.compile(r"([0-9]) *[-–—] *(?=[0-9])")
_BREAK = re.compile(
    r"[\x00- \x7f-\xa0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff,;:?!()\[\]\"“”"
    r"\ud800-\udfff\U00010000-\U0010ffff]+"
)
_YEAR = re.compile(r"(?:my)?((?:19|20)[0-9]{2})")
_SHORT_YEAR = re.compile(r"(?:my|')([0-9]{2})")
_ONWARD = re.compile(r"((?:19|20)[0-9]{2})\+")
_SPAN = re.compile(r"((?:19|20)[0-9]{2})-((?:19|20)?[0-9]{2})")
_SHORT_SPAN = re.compile(r"([0-9]{2})-([0-9]{2})")
_UNFINISHED_YEAR = re.compile(r"(?:19|20)[0-9]?")
_SPOT = re.compile(r"([a-z]{1,3}[0-9]{0,2})[.-]([0-9]{1,3})|([a-z]{1,2})([0-9]{1,3})")


class Tokens(NamedTuple):
    """The words of a question; `typing` while the last one may not be finished."""

    words: tuple[str, ...]
    typing: bool


def tokens_of(text: str) -> Tokens:
    """Return the tokens of a question, in lower case; strokes stand alone, ids fall apart."""
    short = text[:LONGEST_QUESTION].lower().replace("/", " / ")
    parts = split(_DASH.sub(r"\1-", short))
    words = [word for part in parts for word in (part.split("-") if _is_id(part) else [part])]
    return Tokens(tuple(word for word in words if word), parts[-1] != "")


def split(text: str) -> list[str]:
    """Split a text at white space, brackets and signs that belong to no word."""
    return _BREAK.split(text)


def _is_id(part: str) -> bool:
    """Whether a token looks like the id of a record: "maker-model-2018-base"."""
    return part.count("-") > 1


def years_at(tokens: Tokens, at: int) -> tuple[int, Years] | None:
    """Return how many tokens from `at` on speak of years, and which; None when they do not."""
    words = tokens.words
    kind = YEAR_WORDS.get(words[at])
    if kind and (year := _year(words, at + 1)):
        span, years = _from(words, at + 1, year) if kind == "from" else (1, _side(kind, year))
        return span + 1, (years[0], years[1] if span > 1 or kind != "from" else LAST_YEAR)
    if year := _year(words, at):
        return _from(words, at, year)
    if found := _in_one(words[at]):
        return 1, found
    if tokens.typing and at == len(words) - 1 and _UNFINISHED_YEAR.fullmatch(words[at]):
        width = 10 ** (4 - len(words[at]))
        return 1, (int(words[at]) * width, int(words[at]) * width + width - 1)
    return None


def _year(words: Sequence[str], at: int) -> int | None:
    if at >= len(words):
        return None
    if found := _YEAR.fullmatch(words[at]):
        return int(found[1])
    found = _SHORT_YEAR.fullmatch(words[at])
    return _century(int(found[1])) if found else None


def _century(short: int) -> int:
    """A year of two digits, as a person means it."""
    return short + (2000 if short < 50 else 1900)


def _from(words: Sequence[str], at: int, year: int) -> tuple[int, Years]:
    """A year, with what follows it: another year, or "onwards"."""
    after = words[at + 1] if at + 1 < len(words) else ""
    other = _year(words, at + 2) if after in YEARS_BETWEEN else None
    if other:
        return 3, (min(year, other), max(year, other))
    if after in YEARS_ONWARD or (after == _ON and at + 2 == len(words)):
        return 2, (year, LAST_YEAR)
    return 1, (year, year)


def _side(kind: YearWord, year: int) -> Years:
    if kind == "after":
        return year + 1, LAST_YEAR
    return 0, year if kind == "until" else year - 1


def _in_one(word: str) -> Years | None:
    """Years in one token: "2016-2018", "2016-18", "16-18", "2018+"."""
    if found := _ONWARD.fullmatch(word):
        return int(found[1]), LAST_YEAR
    if found := _SPAN.fullmatch(word):
        first, last = int(found[1]), int(found[2])
        last += first - first % 100 if last < 100 else 0
    elif found := _SHORT_SPAN.fullmatch(word):
        first, last = _century(int(found[1])), _century(int(found[2]))
    else:
        return None
    return min(first, last), max(first, last)


def spot(word: str) -> tuple[str, str] | None:
    """Plug and cavity in one token ("a4", "x2.3"); it may be a name or a plug's id as well."""
    found = _SPOT.fullmatch(word)
    return (found[1] or found[3], found[2] or found[4]) if found else None
