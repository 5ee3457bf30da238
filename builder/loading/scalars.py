"""What an unquoted word means: the core schema of YAML 1.2, with one stated deviation.

Null is `null Null NULL ~` and nothing at all; true and false are spelt in lower, title or
upper case; integers are decimal, `0o17` or `0x1F`; floats are decimal. Everything else is
text: `no`, `on`, `yes`, `12:30`, `1_000`, `2024-05-13` and `2016-03` among it.

The deviation: a decimal number whose whole part has more than one digit and begins with a
zero (`007`, `-01`, `00`, `01.5`, `0012e3`) stays text. Part numbers and fuse positions are
written that way, and the zeros would be lost. `0`, `-0`, `0.5` and `0e3` are numbers.

Source: YAML 1.2.2, section 10.3.2 (core schema, tag resolution); read.
"""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import Literal, cast

Scalar = str | int | float | bool | None

LARGEST_INTEGER = 2**53 - 1
"""Beyond it a reader of JSON may change the number silently (RFC 8259, section 6)."""

SMALLEST_FRACTION = 1e-12
"""Far below what any meter shows of any quantity of a car; what is divided by less overflows."""

_WORDS: dict[str, bool | None] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL")),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}
_NUMBER_STARTS = frozenset("-+.0123456789")
_WHOLE = r"(?:0|[1-9][0-9]*)"
_NUMBER = re.compile(
    rf"(?P<integer>[-+]?{_WHOLE})"
    r"|(?P<octal>0o[0-7]+)"
    r"|(?P<hexadecimal>0x[0-9a-fA-F]+)"
    rf"|(?P<real>[-+]?(?:\.[0-9]+|{_WHOLE}(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?)"
    r"|(?P<not_finite>[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))"
)


class UnusableNumberError(ValueError):
    """A number by its spelling that no quantity can have."""


class NotFiniteError(UnusableNumberError):
    """Infinity, not-a-number, or a number too large to be held."""


class OutOfRangeError(UnusableNumberError):
    """An integer that would lose digits."""


class TooSmallError(UnusableNumberError):
    """A fraction that is not nothing, and smaller than anything that can be measured."""


def resolve_plain(text: str) -> Scalar:
    """Return the value an unquoted scalar stands for.

    Raises:
        NotFiniteError: `.inf`, `.nan`, or a float that overflows.
        OutOfRangeError: an integer beyond ±(2^53 − 1).
        TooSmallError: a float nearer to 0 than `SMALLEST_FRACTION` that is written as another.
    """
    if text in _WORDS:
        return _WORDS[text]
    return _resolve_number(text) if text[0] in _NUMBER_STARTS else text


_Form = Literal["integer", "real", "not_finite", "octal", "hexadecimal"]
"""How a number is written: the names of the groups of `_NUMBER`."""


@lru_cache(maxsize=4096)  # a record repeats its cavities and voltages; ten times as quick
def _resolve_number(text: str) -> str | int | float:
    match = _NUMBER.fullmatch(text)
    if match is None:
        return text
    form = cast(_Form, match.lastgroup)
    if form == "integer":
        return _integer(text, 10)
    if form == "real":
        return _real(text)
    if form == "not_finite":
        raise NotFiniteError(text)
    return _integer(text[2:], 8 if form == "octal" else 16)


def _integer(digits: str, base: int) -> int:
    # The length is looked at first: Python refuses to convert thousands of decimal digits.
    if base == 10 and len(digits) > 17:
        raise OutOfRangeError(digits)
    value = int(digits, base)
    if abs(value) > LARGEST_INTEGER:
        raise OutOfRangeError(digits)
    return value


def _real(text: str) -> float:
    value = float(text)
    if math.isinf(value):
        raise NotFiniteError(text)
    if abs(value) < SMALLEST_FRACTION and re.match(r"[-+.0]*[1-9]", text):
        raise TooSmallError(text)
    return value
