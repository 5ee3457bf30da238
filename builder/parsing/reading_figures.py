"""Figures as installers type them: "12.4 V", "3,3 ohm", "open"; and slips with what to type."""

from __future__ import annotations

import re
from typing import NamedTuple

from builder.model.said.units import MINUS_SIGNS
from builder.model.said.units import READ_UNITS as UNITS
from builder.model.words import Quantity
from builder.parsing.reading_words import OPEN
from builder.speller import nearest

_WORD = re.compile(r"[^\s,;=:]+(?:[,:][^\s,;=:]+)*")
NUMBER = re.compile(rf"([{MINUS_SIGNS}+]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))([^0-9.,]*)")
"""A number, then what is written against it."""
POINT_AND_MINUS = str.maketrans({",": ".", **dict.fromkeys(MINUS_SIGNS, "-")})


class Slip(NamedTuple):
    """What is wrong with a line: where it starts (from 1), which words, and what to type."""

    column: int
    written: str
    message: str
    help: str


class ReadingTextError(Exception):
    """A line that is no reading; `slip` says why."""

    def __init__(self, slip: Slip) -> None:
        super().__init__(slip.message)
        self.slip = slip


class Word(NamedTuple):
    """A word of a line and the column it starts in, from 1."""

    text: str
    column: int


class Figure(NamedTuple):
    """A figure off a meter; `value` is None for an open circuit."""

    value: float | None
    quantity: Quantity | None  # None: not said


def words_of(text: str) -> list[Word]:
    """Return the words of a line, in lower case, with their columns."""
    return [Word(found[0].lower(), found.start() + 1) for found in _WORD.finditer(text)]


def read_figure(text: str) -> Figure:
    """Return the figure that a text states, such as "12.4 V", "3,3 ohm" or "open".

    Raises:
        ReadingTextError: it is no figure, or more than one.
    """
    words = words_of(text)
    if not words or not is_figure(words[0].text):
        first = words[0] if words else Word("", 1)
        raise slip(
            first,
            f"{quoted(first)} is no figure",
            "type what the meter shows, with its unit: VALUE V",
        )
    value, unit, rest = split_figure(words)
    if rest:
        raise slip(
            rest[0], f"{quoted(rest[0])} does not belong here", "type one figure with its unit"
        )
    return in_unit(words[0], value, unit)


def is_figure(word: str) -> bool:
    """Whether a word is a number, with or without a unit, or says that the circuit is open."""
    return word in OPEN or NUMBER.fullmatch(word) is not None


def split_figure(words: list[Word]) -> tuple[float | None, str, list[Word]]:
    """Return the number, its unit as written ("" when there is none), and the words after them."""
    rest = words[1:]
    if words[0].text in OPEN:
        if rest and rest[0].text in UNITS and UNITS[rest[0].text][0] == "ohm":
            rest = rest[1:]
        return None, "ohm", rest
    found = NUMBER.fullmatch(words[0].text)
    assert found is not None
    unit = found[2]
    while rest and f"{unit}{rest[0].text}" in UNITS:
        unit, rest = f"{unit}{rest[0].text}", rest[1:]
    return float(found[1].translate(POINT_AND_MINUS)), unit, rest


def in_unit(word: Word, value: float | None, unit: str) -> Figure:
    """Return a number in the unit of its quantity; ReadingTextError when the unit is unknown."""
    if unit == "":
        return Figure(value, None)
    if unit not in UNITS:
        meant = nearest(unit, UNITS)
        help_text = f"type {meant}" if meant else "type V, V ac, ohm, Hz, mA or %"
        raise slip(word, f"{quoted(word)}: the unit is not known", help_text)
    quantity, factor = UNITS[unit]
    return Figure(None if value is None else value * factor, quantity)


def quoted(word: Word) -> str:
    """Return the word in quotes."""
    return f'"{word.text}"'


def slip(word: Word, message: str, help_text: str) -> ReadingTextError:
    """Return the error about a word: what is wrong and what to type."""
    return ReadingTextError(Slip(word.column, word.text, message, help_text))
