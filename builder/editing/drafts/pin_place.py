"""Where a line says that a pin is: `A 4`, `A4`, `A.4`, `plug A pin four`, or the cavity alone."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

NUMBERS: tuple[str, ...] = (
    *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen"),
    *("eighteen", "nineteen", "twenty"),
)
_NAMED = r"(?:pin|cavity|cav|way|terminal|term|no|nr)\b"
_CAVITY = (
    r"(?:(?:pin|cavity|cav|way|terminal|term|no|nr)\b\.?\s*|#\s*)?([0-9]{1,3}|[a-z][0-9]{0,2})"
)
_END = r"(?=[\s:.)=,|;]|$|[-–]\s)[\s:.)=,|;]*(?:[-–]\s+)?"
WITH_PLUG = (
    rf"(?:(?:plug|connector|conn|block)\s*)?(?!{_NAMED})"
    rf"([a-z][a-z0-9]{{0,3}})(?:\s*[.:#,;|-]\s*|\s+){_CAVITY}{_END}"
)
RUN_ON = rf"(?:(?:plug|connector|conn)\s*)?([a-z]{{1,3}})([0-9]{{1,3}}){_END}"
ALONE = rf"{_CAVITY}{_END}"
"""How a line may begin; the page's script reads by the same patterns."""
_WITH_PLUG, _RUN_ON, _ALONE = (re.compile(each, re.I) for each in (WITH_PLUG, RUN_ON, ALONE))


class Place(NamedTuple):
    """A plug, "" where none is said, a cavity as written, and the rest of the line."""

    plug: str
    cavity: str
    rest: str


def place_of(text: str, plugs: Sequence[str]) -> Place | None:
    """Return the place that a line begins with; None when it begins with none.

    `plugs` are those of the car: with none given, any letter may be one.
    """
    line = _in_digits(text.strip().lstrip("*•-–").strip())
    for pattern in (_WITH_PLUG, _RUN_ON):
        found = pattern.match(line)
        numbered = found and pattern is _WITH_PLUG and found[2].isdigit()
        if found and (numbered or not plugs or found[1].upper() in plugs or not _alone(line)):
            return Place(found[1].upper(), found[2].upper(), line[found.end() :])
    return _alone(line)


def _alone(line: str) -> Place | None:
    found = _ALONE.match(line)
    return Place("", found[1].upper(), line[found.end() :]) if found else None


def _in_digits(line: str) -> str:
    """A line whose number among its first words is spelt out: "pin four" is "pin 4"."""
    words = line.split(maxsplit=4)
    at = next((i for i, word in enumerate(words[:4]) if word.lower().strip(":,") in NUMBERS), None)
    if at is None or any(any(c.isdigit() for c in word) for word in words[:at]):
        return line
    words[at] = str(NUMBERS.index(words[at].lower().strip(":,")) + 1)
    return " ".join(words)
