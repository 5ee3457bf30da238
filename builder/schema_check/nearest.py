"""The legal spelling that somebody probably meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher, get_close_matches

_CLOSE_ENOUGH = 0.65

_SURE_ENOUGH = 0.8
_SURE_LEAD = 0.1
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


def nearest(written: object, legal: Iterable[str]) -> str | None:
    """The legal word nearest to what was written, or None when nothing is near."""
    by_plain = {_plain(word): word for word in reversed(list(legal))}
    plain = _plain(str(written))
    other = _OTHER_WORDS.get(str(written).strip().lower())
    if other is not None and _plain(other) in by_plain:
        return by_plain[_plain(other)]
    close = get_close_matches(plain, by_plain, n=1, cutoff=_CLOSE_ENOUGH)
    return by_plain[close[0]] if close else None


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
    ranked = sorted((_likeness(lower, word), word) for word in words)
    lead = ranked[-1][0] - (ranked[-2][0] if len(ranked) > 1 else 0.0)
    return near if ranked[-1][0] >= _SURE_ENOUGH and lead >= _SURE_LEAD else None


def _likeness(written: str, word: str) -> float:
    return SequenceMatcher(None, _plain(written), _plain(word)).ratio()


def _plain(word: str) -> str:
    return "".join(letter for letter in word.lower() if letter not in " -_.")
