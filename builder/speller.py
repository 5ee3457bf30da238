"""The known word or name that somebody probably meant: the one judge of near spellings.

Questions to the finder are judged by `finder/names.py`: there a word may be a part of a name, or
of several, and a page does the same letter by letter.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from difflib import SequenceMatcher, get_close_matches

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
