"""What somebody typed for a reading of a comeback, judged like any figure of the bay sheet."""

from __future__ import annotations

import re
from math import isfinite
from typing import Final

from builder.planning.work_pack import BayTest
from builder.proof.band import Where, where_in

SKIP: Final = frozenset({"skip", "s", "unknown", "?"})
"""Words for a reading that nobody can take."""
_OPEN = frozenset({"open"})
_UNITS = frozenset({"v", "a", "ma", "ω", "ohm", "hz"})
_YES = frozenset({"yes", "y", "in"})
_NO = frozenset({"no", "n", "low"})
_WHERE: dict[str, Where] = {"in": "in", "low": "low", "high": "high"}


class AnswerError(ValueError):
    """What was typed is no answer; the text says what would be."""


def read_answer(text: str, test: BayTest) -> Where | None:
    """Return where a figure lies, "in" for yes and "low" for no, None for a reading not taken.

    Args:
        text: A figure in the unit of the line, with a second behind a blank or a stroke where the
            line takes two (`two_figures`), "open" for ohms without end, yes or no for what is
            looked at, or in, low, high as somebody judged it.
        test: The line.
    Raises:
        AnswerError: it is none of these.
    """
    word = text.strip().lower()
    if word in SKIP:
        return None
    if test.quantity == "check":
        return _looked_at(word, test)
    if word in _WHERE:
        return _WHERE[word]
    if word in _OPEN:
        return where_in(test.band, None, None)
    return _judged(word, test)


def two_figures(test: BayTest) -> str:
    """Return what the second figure of a line is, that is typed behind the first; "" for a line
    that takes one."""
    if test.band.moves:
        return "what the battery reads beside it"
    return "what the clamp reads" if test.band_by_current else ""


def _judged(word: str, test: BayTest) -> Where:
    """A figure with what was read beside it: volts against the battery's, or over amperes."""
    parts = [each for each in re.split(r"[\s/;]+", word) if each not in _UNITS]
    figures, beside = [_figure(each, test) for each in parts or [word]], two_figures(test)
    least, most = 1 + test.band.moves, 1 + bool(beside)
    if not least <= len(figures) <= most:
        said = f"two figures, as 11.95/12.50: {beside} is the second" if beside else "one figure"
        raise AnswerError(f"{test.id}: type {said}")
    by_current = test.band_by_current
    if by_current is not None and figures[1:]:
        return where_in(by_current, *figures)
    return where_in(test.band, figures[0], figures[1] if figures[1:] else None)


def _looked_at(word: str, test: BayTest) -> Where:
    if word in _YES:
        return "in"
    if word in _NO:
        return "low"
    raise AnswerError(f"{test.id}: answer yes or no, or skip when nobody can tell")


def _figure(word: str, test: BayTest) -> float:
    try:
        number = float(re.sub(r"[^\d.]+$", "", word).replace(",", "."))
        if isfinite(number):
            return number
    except ValueError:
        pass
    said = f"a figure in {test.unit}, or in, low or high, or skip when it cannot be read"
    raise AnswerError(f"{test.id}: type {said}")
