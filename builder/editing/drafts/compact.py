"""Compact lines for things with many parts: a pin, a plug, a pair, a route, a speaker.

Each reader takes one line and returns plain data; a line that does not fit is an `AnswerError`
with an example of one that does.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, NamedTuple

from builder.editing.drafts.pin_text import cavity_of, pin_of, read_pin
from builder.editing.drafts.pin_text import colours as known_colours
from builder.editing.drafts.question import AnswerError, read_as, read_text
from builder.model.said import LONGEST_SAID, said
from builder.model.said.wires import colours_said
from builder.schema_check.meant import colours_meant, figure_meant
from builder.schema_check.schemas import schema_at
from builder.schema_check.yaml_words import listed

_YEARS = re.compile(r"([12][0-9]{3})(?:\s*(?:-|–|/|to|until|through)\s*([12][0-9]{3}|[0-9]{2}))?")


class PinLine(NamedTuple):
    """One line of pins: its plug, its cavity, and the pin; None for an empty cavity."""

    plug: str
    cavity: int | str
    pin: dict[str, Any] | None


def pin_line(text: str) -> PinLine:
    """`PLUG CAVITY FUNCTION|CHANNEL± [COLOUR[/STRIPE]] [SIZE]`, or `PLUG CAVITY empty`."""
    found = read_pin(text, (), {})
    return PinLine(found.plug, found.cavity, pin_of(found))


def wire_of(text: str, line: str) -> dict[str, Any]:
    """Base and stripe, written `yellow/red`; `line` is what they stand in."""
    colours = colours_said(text)
    asked = next((each for each in colours if each.meant.asked), None)
    if asked is not None:
        choices = listed(list(asked.meant.choices))
        raise AnswerError(f'"{asked.written}" in "{line}" could be {choices}; write it out')
    found = colours_meant(text, known_colours())
    if found is None:
        raise AnswerError(f'"{text}" in "{line}" is no colour: {", ".join(known_colours())}')
    return {"base": found[0]} | ({"stripe": found[1]} if found[1] else {})


def range_of(text: str) -> tuple[float, float]:
    """Two figures with a dash or `to` between them: `0.05-2`."""
    parts = re.split(r"\s*(?:-|–|to)\s*", text.strip())
    figures = [figure_meant(part, "") for part in parts]
    if len(figures) != 2 or not all(figure and figure.sure for figure in figures):
        raise AnswerError(f'"{text}" is no range; type the least and the most: LEAST-MOST')
    low, high = (float(figure.text) for figure in figures if figure)
    return _whole(low), _whole(high)


def _whole(value: float) -> float:
    return int(value) if value == int(value) else value


def years_of(text: str) -> tuple[int, int]:
    """First and last model year: `2016-2019`, or one year."""
    found = _YEARS.fullmatch(text.strip())
    if found is None:
        raise AnswerError(f'"{text}" is no range of years; type 2016-2019')
    first, last = found[1], found[2] or found[1]
    last = first[:2] + last if len(last) == len("19") else last
    if int(first) > int(last):
        raise AnswerError(f"{first} is after {last}; type the first year first")
    return int(first), int(last)


def rows_of(text: str) -> list[list[int | str]]:
    """Rows of a housing: `1-10 / 11-20`, `1 2 3 _ 4 / 5-8`, `8-1 / 16-9` or `2x10`."""
    square = re.fullmatch(r" *([0-9]+) *[x×] *([0-9]+) *", text)
    if square:
        rows, columns = int(square[1]), int(square[2])
        return [[r * columns + c + 1 for c in range(columns)] for r in range(rows)]
    return [
        [cell for word in row.replace(",", " ").split() for cell in _cells(word)]
        for row in text.split("/")
    ]


def _cells(word: str) -> list[int | str]:
    ends = re.fullmatch(r"([0-9]{1,3})-([0-9]{1,3})", word)
    if ends is None:
        return [word if word == "_" else cavity_of(word)]
    first, last = int(ends[1]), int(ends[2])
    step = 1 if first <= last else -1
    return list(range(first, last + step, step))


def power_of(text: str) -> list[dict[str, Any]]:
    """Power into each load: `60 into 4, 85 into 2` [W into Ω]."""
    found = re.findall(r"([0-9.]+) *w? *(?:into|@|at) *([0-9.]+)", text.lower())
    if not found or len(found) != len(text.split(",")):
        raise AnswerError(f'"{text}" is no power; type watts into ohms: WATTS into OHMS')
    place = ("channels", 0, "power", 0)
    return [
        {
            "ohm": read_text("amplifier", (*place, "ohm"), ohm),
            "w_rms": read_text("amplifier", (*place, "w_rms"), watts),
        }
        for watts, ohm in found
    ]


def pairs_of(text: str) -> list[dict[str, Any]]:
    """Pairs of a cable: `brown brown/black, orange orange/black`."""
    pairs = []
    for pair in text.split(","):
        wires = pair.split()
        if len(wires) != 2:
            raise AnswerError(f'"{pair.strip()}" is no pair; type both wires: brown brown/black')
        pairs.append({"positive": wire_of(wires[0], text), "negative": wire_of(wires[1], text)})
    return pairs


def singles_of(text: str) -> list[dict[str, Any]]:
    """Single cores of a cable: `blue, red/white`."""
    return [wire_of(wire, text) for wire in text.split(",")]


def channels_of(text: str) -> list[str]:
    """Channels with commas or spaces between them: `FL FR`, `front left, rear-left`."""
    found = [_channel(name) for part in text.split(",") for name in _named(part.split())]
    schema = schema_at("job", ("speakers", 0, "from"))
    return [str(read_as(schema["items"], name)) for name in found]


def _named(words: list[str]) -> Iterator[str]:
    """The names in a row of words, as many words each as make one."""
    while words:
        spans = range(min(LONGEST_SAID, len(words)), 0, -1)
        whole = (n for n in spans if said("channel", " ".join(words[:n])).sure)
        taken = next(whole, 1)
        yield " ".join(words[:taken])
        words = words[taken:]


def _channel(word: str) -> str:
    meant = said("channel", word)
    return meant.means[0] if meant.sure else word
