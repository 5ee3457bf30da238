"""The known word or name that somebody probably meant: the one judge of near spellings.

Questions to the finder are judged by `finder/names.py`: there a word may be a part of a name, or
of several, and a page does the same letter by letter.
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher, get_close_matches

_CLOSE_ENOUGH = 0.65

_SURE_ENOUGH = 0.8
_SURE_LEAD = 0.1
_SURE_NAME = 0.85
_SURE_NAME_LEAD = 0.05
_SHORTEST_GUESSED = 6
_DOUBTFUL = frozenset(
    {
        *("switched", "swtched", "memory", "battery", "remote", "volts", "start", "dimmer"),
        *("cream", "lilac", "n/a", "type", "pin", "ignition", "antenna"),
    }
)
"""Words of the trade that could stand for something else as well: proposed, never typed."""

_OTHER_WORDS = {
    "acc": "accessory",
    "switched": "accessory",
    "swtched": "accessory",
    "ignition": "run",
    "ign": "run",
    "battery": "constant",
    "permanent": "constant",
    "memory": "constant",
    "earth": "ground",
    "gnd": "ground",
    "dimmer": "illumination",
    "antenna": "aerial_on",
    "remote": "amplifier_on",
    "start": "crank",
    "volts": "dc_v",
    "ohms": "ohm",
    "fl": "front-left",
    "fr": "front-right",
    "rl": "rear-left",
    "rr": "rear-right",
    "center": "centre",
    "subwoofer": "sub",
    "plus": "positive",
    "minus": "negative",
    "gray": "grey",
    "purple": "violet",
    "lilac": "violet",
    "cream": "beige",
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
"""Words of the trade, or of another spelling, for words of the record."""


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
    other = _OTHER_WORDS.get(str(written).strip().lower())
    if other is not None and _plain(other) in by_plain:
        return [by_plain[_plain(other)]]
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
    if lower in _OTHER_WORDS or _plain(near) == _plain(lower):
        return near
    return near if _far_nearest(lower, words, _SURE_ENOUGH, _SURE_LEAD) else None


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
