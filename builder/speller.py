"""The known word or name that somebody probably meant: the one judge of near spellings.

Questions to the finder are judged by `finder/names.py`: there a word may be a part of a name, or
of several, and a page does the same letter by letter.
"""

from __future__ import annotations

import re
import unicodedata
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence
from difflib import SequenceMatcher, get_close_matches
from functools import lru_cache
from itertools import combinations, starmap
from typing import Any

from builder.model.said import Said, kinds_of, said

_CLOSE_ENOUGH = 0.65

_SURE_ENOUGH = 0.8
_SURE_LEAD = 0.1
_SURE_NAME = 0.85
_SURE_NAME_LEAD = 0.05
_SHORTEST_GUESSED = 6
_DOUBTFUL = frozenset(
    {
        *("swtched", "volts", "start", "n/a", "type", "pin"),
    }
)
"""Words of the trade that could stand for something else as well: proposed, never typed."""

_OTHER_WORDS = {
    "volts": "dc_v",
    "ohms": "ohm",
    "swtched": "accessory",
    "cca": "copper_clad_aluminium",
    "ofc": "copper",
    "true": "yes",
    "false": "no",
    "n/a": "none",
    "?": "unknown",
    "color": "colour",
    "year_start": "year_from",
    "year_end": "year_to",
    "comment": "note",
    "remark": "note",
    "type": "kind",
    "pin": "cavity",
}
"""Words that stand in no word table: keys of records, and words of single lists."""


def nearest(written: object, legal: Iterable[str], least: float = _CLOSE_ENOUGH) -> str | None:
    """The legal word nearest to what was written, or None when nothing is near.

    `least` is how like it must be, from 0 to 1; case, blanks, dots and dashes do not count.
    """
    return next(iter(nearest_few(written, legal, 1, least)), None)


def nearest_few(
    written: object, legal: Iterable[str], most: int, least: float = _CLOSE_ENOUGH
) -> list[str]:
    """Up to `most` legal words that are near to what was written, the nearest first."""
    by_plain = {_plain(word): word for word in reversed(list(legal))}
    plain = _plain(str(written))
    others = [_plain(one) for one in _other_words(written, by_plain.values())]
    if known := [by_plain[one] for one in others if one in by_plain]:
        return known[:most]
    close = get_close_matches(plain, by_plain, n=most, cutoff=least)
    return [by_plain[each] for each in close]


def surely(written: object, legal: Iterable[str]) -> str | None:
    """The legal word that nothing but a slip keeps apart from what was written, or None.

    A word of the trade with one meaning, another spelling of the same letters, or a word far
    nearer than the next.
    """
    words = list(legal)
    near = nearest(written, words)
    lower = str(written).strip().lower()
    if near is None or lower in _DOUBTFUL:
        return None
    others = _other_words(written, words)
    if len(others) > 1 or could_be_else(written, words):
        return None
    if others or _plain(near) == _plain(lower):
        return near
    return near if _far_nearest(lower, words, _SURE_ENOUGH, _SURE_LEAD) else None


def choices(written: object, legal: Iterable[str]) -> list[str]:
    """The legal words between which a word of the trade has to be asked back; [] for none."""
    words = list(legal)
    found = _other_words(written, words)
    return found if len(found) > 1 or (found and could_be_else(written, words)) else []


def could_be_else(written: object, legal: Iterable[str]) -> bool:
    """Whether a word of the trade could stand for something of which there is no legal word."""
    words = frozenset(legal)
    return any(
        each.open_end or (each.asked and not words.issuperset(each.means))
        for each in _said_of(written, words)
    )


def _other_words(written: object, legal: Collection[str]) -> list[str]:
    """The legal words for which a word of the trade, or another spelling, stands."""
    other = _OTHER_WORDS.get(str(written).strip().lower())
    if other is not None and other in legal:
        return [other]
    means = dict.fromkeys(word for each in _said_of(written, legal) for word in each.means)
    return [word for word in means if word in legal]


def _said_of(written: object, legal: Iterable[str]) -> list[Said]:
    """What the word table says of a word, as a word of the kind that the legal ones are."""
    kinds = kinds_of(legal)
    return [each for kind in kinds if (each := said(kind, str(written))).means]


def speller_data() -> dict[str, Any]:
    """The figures and words of `nearest` and `surely`, for the script that does the same."""
    return {
        "close": _CLOSE_ENOUGH,
        "sure": _SURE_ENOUGH,
        "lead": _SURE_LEAD,
        "doubtful": sorted(_DOUBTFUL),
        "others": _OTHER_WORDS,
    }


def surely_named(written: str, names: Iterable[str]) -> str | None:
    """The name that nothing but a slip keeps apart from what was written, or None.

    Names of records are like each other, so they must be nearer than words, and may lead by less.
    Short ones (sessions, cavities, plugs) are never guessed: s1 is as near to s2 as to s3.
    """
    if len(written) < _SHORTEST_GUESSED:
        return None
    return _far_nearest(written, names, _SURE_NAME, _SURE_NAME_LEAD)


def _far_nearest(written: str, legal: Iterable[str], least: float, lead: float) -> str | None:
    """The nearest word, when it is `least` like what was written and far nearer than the next."""
    plain = _plain(written)
    ranked = sorted((SequenceMatcher(None, plain, _plain(word)).ratio(), word) for word in legal)
    if not ranked or ranked[-1][0] < least:
        return None
    second = ranked[-2][0] if len(ranked) > 1 else 0.0
    return ranked[-1][1] if ranked[-1][0] - second >= lead else None


def _plain(word: str) -> str:
    return "".join(letter for letter in word.lower() if letter not in " -_.")


_LONG_ENOUGH = 5
"""Letters of a name, or of each word with a slip, that one slip leaves alike. Chosen by this
project."""
_LOOKS_LIKE = str.maketrans({"0": "o", "1": "l", "5": "s", "8": "b"})
_NAMES_IN_MIND = 8192
"""Each name of a book is held against many others."""
_LISTS_IN_MIND = 1024
"""An edit leaves nearly every list of names, of makes and of each make's models, as it was."""
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def spelt_alike(one: str, other: str) -> bool:
    """Whether two names that differ could be one name, typed by two people or with a slip.

    Case, accents, blanks, dashes, doubled letters and the order of words do not count; a slip is a
    letter too many, left out, exchanged, or changed with its neighbour: one in a name, or one in
    each of two long words. Two numbers that differ tell names apart, a figure and its word do not.
    """
    if one == other or _numbers(one) != _numbers(other):
        return one != other and _letters(one) == _letters(other)
    first, second = _letters(one), _letters(other)
    if first == second or sorted(_words(one)) == sorted(_words(other)):
        return True
    return _one_slip(first, second) or _slips_in_words(_words(one), _words(other))


def _one_slip(first: str, second: str) -> bool:
    shorter, longer = sorted((len(first), len(second)))
    return longer >= _LONG_ENOUGH and longer - shorter <= 1 and _slips(first, second) <= 1


def _slips_in_words(one: Sequence[str], other: Sequence[str]) -> bool:
    if len(one) != len(other):
        return False
    apart = [(_letters(a), _letters(b)) for a, b in zip(one, other, strict=True) if a != b]
    return len(apart) <= 2 and all(starmap(_one_slip, apart))


@lru_cache(_LISTS_IN_MIND)
def alike_among(names: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """Return each two of the names that are spelt alike, once; quick for thousands of names."""
    return tuple(_alike_among(names))


def _alike_among(names: Iterable[str]) -> Iterator[tuple[str, str]]:
    seen: set[tuple[str, str]] = set()
    near: defaultdict[str, list[str]] = defaultdict(list)
    for name in dict.fromkeys(names):
        for trace in _traces(name):
            for other in near[trace]:
                if (other, name) not in seen and spelt_alike(other, name):
                    seen.add((other, name))
                    yield other, name
            near[trace].append(name)


def _traces(name: str) -> set[str]:
    """What a name shares with each that is spelt alike: itself without the letters of a slip."""
    plain = _letters(name)
    most = 0 if len(plain) < _LONG_ENOUGH else 1 if len(plain) < 2 * _LONG_ENOUGH else 2
    found = {plain, " ".join(sorted(_words(name)))}
    for count in range(1, most + 1):
        for left_out in combinations(range(len(plain)), count):
            found.add("".join(c for at, c in enumerate(plain) if at not in left_out))
    return found


@lru_cache(_NAMES_IN_MIND)
def _words(name: str) -> tuple[str, ...]:
    bare = unicodedata.normalize("NFKD", name.casefold())
    words = re.findall(r"[^\W_]+", "".join(c for c in bare if not unicodedata.combining(c)))
    return tuple(_NUMBERS[int(w) - 1] if w.isdecimal() and 0 < int(w) <= 10 else w for w in words)


def _numbers(name: str) -> list[str]:
    return re.findall(r"[0-9]+", " ".join(_words(name)))


@lru_cache(_NAMES_IN_MIND)
def _letters(name: str) -> str:
    """A name without what an eye passes over."""
    plain = "".join(_words(name)).translate(_LOOKS_LIKE).replace("rn", "m").replace("vv", "w")
    return re.sub(r"(.)\1+", r"\1", plain)


def _slips(first: str, second: str) -> int:
    """Letters added, left out, exchanged, or changed with a neighbour, between two words."""
    before: list[int] = []
    row = list(range(len(second) + 1))
    for i, a in enumerate(first, 1):
        before, last, row = row, before, [i]
        for j, b in enumerate(second, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 < j and a == second[j - 2] and first[i - 2] == b:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
    return row[-1]
