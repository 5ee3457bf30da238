"""What spreadsheet programs make of a cell, and how a heading is read without its signs."""

from __future__ import annotations

import re

_MONTH = (
    "jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|sept|oct|okt|nov|dec|dez|january|february|march|"
    "april|june|july|august|september|october|november|december|januar|februar|märz|juni|juli|"
    "oktober|dezember"
)
_BECAME_DATE = re.compile(
    rf"(?:[0-9]{{1,4}}[-. /]*\s*(?:{_MONTH})\.?(?:[-. /]*[0-9]{{2,4}})?"
    rf"|(?:{_MONTH})\.?[-. /]*[0-9]{{1,4}}"
    r"|[0-9]{1,2}[-./][0-9]{1,2}[-./][0-9]{2,4}|[0-9]{4}-[0-9]{2}-[0-9]{2}(?: 00:00:00)?)\Z",
    re.I,
)


def looks_like_date(text: str) -> bool:
    """Whether a text is what a spreadsheet program makes of 1-2 when it takes it for a day."""
    return _BECAME_DATE.match(text.strip()) is not None


SPELT = {"color": "colour", "colors": "colours", "shell": "housing"}
"""Words of headings that are spelt otherwise, or were once."""


def plain(text: str) -> str:
    """A heading without case, brackets and signs: `Fuse (A)` and `fuse_a` are `fuse a`."""
    text = text.lower().replace("²", "2").replace("Ω".lower(), "ohm").replace("Ω", "ohm")
    words = re.findall(r"[\w%+.]+", text.replace("_", " "))
    return " ".join(SPELT.get(word, word) for word in words).strip(". ")
