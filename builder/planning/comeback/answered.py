"""What somebody typed for a reading of a comeback, judged like any figure of the bay sheet."""

from __future__ import annotations

from typing import Final

from builder.planning.work_pack import BayTest
from builder.proof.band import Where, where_in

SKIP: Final = frozenset({"skip", "s", "unknown", "?"})
"""Words for a reading that nobody can take."""
_OPEN = frozenset({"open"})
_YES = frozenset({"yes", "y", "in"})
_NO = frozenset({"no", "n", "low"})
_WHERE: dict[str, Where] = {"in": "in", "low": "low", "high": "high"}


class AnswerError(ValueError):
    """What was typed is no answer; the text says what would be."""


def read_answer(text: str, test: BayTest) -> Where | None:
    """Return where a figure lies, "in" for yes and "low" for no, None for a reading not taken.

    Args:
        text: A figure in the unit of the line, "open" for ohms without end, yes or no for what is
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
    return where_in(test.band, None if word in _OPEN else _figure(word, test), None)


def _looked_at(word: str, test: BayTest) -> Where:
    if word in _YES:
        return "in"
    if word in _NO:
        return "low"
    raise AnswerError(f"{test.id}: answer yes or no, or skip when nobody can tell")


def _figure(word: str, test: BayTest) -> float:
    number = word.removesuffix(test.unit.lower()).strip().replace(",", ".")
    try:
        return float(number)
    except ValueError:
        said = f"a figure in {test.unit}, or in, low or high, or skip when it cannot be read"
        raise AnswerError(f"{test.id}: type {said}") from None
