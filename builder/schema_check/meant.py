"""What was probably meant: figures with units and commas, dates, and colours run together.

Each answer says whether a second meaning is possible; only an answer without one is typed by
`loombook mend`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import NamedTuple

from builder.model.said.units import MINUS_SIGNS, UNIT_WORDS
from builder.model.said.wires import colours_said

_NUMBER = re.compile(
    rf"\s*([{MINUS_SIGNS}+]?)([0-9]+)(?:([.,])([0-9]+))?\s*([^\W\d_²]+[²2]?\.?|%|)\s*\Z"
)
_KIND_OF_VOLTS = re.compile(r"\b(v|volts?)\s+(dc|ac)\b", re.I)
"""What stands behind a figure in two words."""
_PREFIXES = {"": Decimal(1), "m": Decimal("0.001"), "k": Decimal(1000), "M": Decimal(1000000)}
_UNITS = {word: unit for unit, words in UNIT_WORDS.items() for word in words}
_WITHOUT_PREFIX = frozenset({"min", "mm²", "dB", "AWG", "%", "Ah"})
_QUANTITY_UNITS = {
    "dc_v": "V",
    "ac_v": "V",
    "ohm": "Ω",
    "hz": "Hz",
    "ma": "mA",
    "duty_percent": "%",
}
_YEAR_FIRST = re.compile(r"([12][0-9]{3})[-/. ]([0-9]{1,2})(?:[-/. ]([0-9]{1,2}))?\Z")
_YEAR_LAST = re.compile(r"(?:([0-9]{1,2})([-/. ]))?([0-9]{1,2})[-/. ]([12][0-9]{3})\Z")


class Meant(NamedTuple):
    """What to type; `sure` when nothing else can have been meant. `doubt` says why not."""

    text: str
    sure: bool
    doubt: str = ""


def figure_meant(written: str, unit: str) -> Meant | None:
    """The number of a text such as "12,4 V", in the unit asked for; None when it is no figure.

    Args:
        written: What stands in the file.
        unit: The unit of the key, "" when it has none.
    """
    found = _NUMBER.match(_KIND_OF_VOLTS.sub(r"\1\2", written))
    if found is None:
        return None
    sign, whole, mark, part, unit_written = found.groups(default="")
    number = ("-" if sign and sign in MINUS_SIGNS else "") + whole + (f".{part}" if mark else "")
    if mark == "," and len(part) == 3 and whole.strip("0") and len(whole) <= 3:
        return Meant(number, False, f"{whole},{part} could be thousands")
    if len(whole) > 1 and whole.startswith("0"):
        return Meant(number, False, "it starts with a zero")
    return _in_unit(number, unit_written.rstrip("."), unit)


def unit_of_quantity(quantity: object) -> str:
    """The unit of a reading's value, by its quantity; "" for a quantity nobody knows."""
    return _QUANTITY_UNITS.get(str(quantity), "")


def _in_unit(number: str, written: str, unit: str) -> Meant:
    if not written or written == unit:
        return Meant(number, True)
    read, asked = _split(written), _split(unit)
    if read is None or asked is None or read[1] != asked[1]:
        return Meant(number, False, f"{written} is not {unit or 'a unit of this key'}")
    if read[0] == asked[0]:
        return Meant(number, True)
    value = (Decimal(number) * read[0] / asked[0]).normalize()
    return Meant(f"{value:f}", True)


_PARTS_OF_A_METRE = {"mm": Decimal("0.001"), "cm": Decimal("0.01")}


def _split(unit: str) -> tuple[Decimal, str] | None:
    """A unit as a factor and the plain unit, for example (0.001, "V") of mV."""
    plain = _UNITS.get(unit.lower().replace("Ω".lower(), "ω"))
    if plain is not None:
        return Decimal(1), plain
    if unit.lower() == "k":
        return Decimal(1000), "Ω"
    if unit in _PARTS_OF_A_METRE:
        return _PARTS_OF_A_METRE[unit], "m"
    prefix, rest = unit[:1], _UNITS.get(unit[1:].lower())
    if prefix in _PREFIXES and rest is not None and rest not in _WITHOUT_PREFIX:
        return _PREFIXES[prefix], rest
    return None


def date_meant(written: str, *, month: bool) -> Meant | None:
    """A day as YYYY-MM-DD, or a month as YYYY-MM, of a date written otherwise."""
    text = written.strip()
    first = _YEAR_FIRST.match(text)
    if first is not None:
        return _date(first[1], first[2], first[3], month)
    last = _YEAR_LAST.match(text)
    if last is None:
        return None
    day, mark, middle, year = last.groups()
    if month or day is None:
        return _date(year, middle, day, month)
    if int(middle) > 12:  # the month was written first
        return _date(year, day, middle, month)
    # Only with points does everybody who writes so put the day first.
    doubtful = mark != "." and int(day) <= 12 and day != middle
    meant = _date(year, middle, day, month)
    doubt = f"{text} could be a day in two months"
    return Meant(meant.text, False, doubt) if meant and doubtful else meant


def _date(year: str, month_text: str, day: str | None, month: bool) -> Meant | None:
    if not 1 <= int(month_text) <= 12 or (day is None) is not month:
        return None
    text = f"{year}-{int(month_text):02}"
    return Meant(text if day is None else f"{text}-{int(day):02}", True)


def colours_meant(written: str, legal: Iterable[str]) -> tuple[str, str | None] | None:
    """Base and stripe of colours run together, such as "Yellow/Red"; None when one is no colour."""
    found = colours_said(written)
    words = [each.meant.means[0] for each in found if each.meant.sure]
    if len(words) != len(found) or len(words) not in (1, 2) or not set(legal).issuperset(words):
        return None
    return words[0], words[1] if len(words) == 2 else None
