"""One line as an installer types it, such as "asleep 0.03 V battery 12.6 minutes 65", to a reading.

The line starts with the state of the car, then the figure with its unit, then in any order:
battery VOLTS, minutes N, load WHAT, against WHAT. Capitals, commas for points, and - or _ for
spaces do not matter.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches
from typing import NamedTuple, get_args

from builder.model.vehicle import Reading
from builder.model.words import STATES, Load, Quantity
from builder.parsing.reading_words import (
    AGAINST_SPELLINGS,
    CAVITY,
    DEAD_STATES,
    EXAMPLE,
    LIMITS,
    LOAD_SPELLINGS,
    STATE_SPELLINGS,
    UNITS,
)

_WORD = re.compile(r"[^\s,;=:]+(?:[,:][^\s,;=:]+)*")
_NUMBER = re.compile(r"([-+−]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))([^0-9.,]*)")
_KEYS = ("battery", "minutes", "load", "against")
_QUANTITIES: tuple[str, ...] = get_args(Quantity)
_LOADS: tuple[str, ...] = get_args(Load)
_CLOSE_ENOUGH = 0.6


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


class _Word(NamedTuple):
    text: str
    column: int


class Figure(NamedTuple):
    """A figure off a meter; `value` is None for an open circuit. `quantity` "" was not said."""

    value: float | None
    quantity: str


def read_reading(text: str, battery_v: float | None = None) -> Reading:
    """Return the reading that a line states.

    Args:
        text: The line.
        battery_v: Battery volts to take where the line names none. [V]
    Raises:
        ReadingTextError: the line is no reading.
    """
    words = [_Word(m[0].lower(), m.start() + 1) for m in _WORD.finditer(text)]
    at = next((i for i, word in enumerate(words) if _is_figure(word.text)), len(words))
    state = _state(words[:at], at < len(words))
    if at == len(words):
        raise _slip(_Word("", len(text) + 1), "no figure", f"type a value: {state} 12.4 V")
    figure, rest = _figure(words[at:], state)
    extras = _extras(rest)
    return _checked(words[at], state, figure, extras, battery_v)


def read_figure(text: str) -> Figure:
    """Return the figure that a text states, such as "12.4 V", "3,3 ohm" or "open".

    Raises:
        ReadingTextError: it is no figure, or more than one.
    """
    words = [_Word(m[0].lower(), m.start() + 1) for m in _WORD.finditer(text)]
    if not words or not _is_figure(words[0].text):
        first = words[0] if words else _Word("", 1)
        raise _slip(first, f"{_quoted(first)} is no figure", "type a number with its unit: 12.4 V")
    value, unit, rest = _split(words)
    if rest:
        raise _slip(rest[0], f"{_quoted(rest[0])} does not belong here", "type one figure: 12.4 V")
    return _in_unit(words[0], value, unit)


def _is_figure(word: str) -> bool:
    return word in ("open", "ol") or _NUMBER.fullmatch(word) is not None


def _state(words: list[_Word], has_figure: bool) -> str:
    first = words[0] if words else _Word("", 1)
    said = " ".join(word.text for word in words)
    if not said:
        known = "the state of the car is missing"
        raise _slip(first, known, f"begin with the state: {EXAMPLE}")
    plain = _plain(said)
    if plain in STATES:
        return plain
    if plain in STATE_SPELLINGS:
        return STATE_SPELLINGS[plain]
    meant = _nearest(plain, (*STATES, *STATE_SPELLINGS))
    meant = STATE_SPELLINGS.get(meant, meant)
    help_text = f"type {meant}" if meant else f"type one of: {', '.join(STATES)}"
    if not has_figure and not meant:
        help_text = f"a reading is written like this: {EXAMPLE}"
    whole = _Word(said, first.column)
    raise _slip(whole, f"{_quoted(whole)} is no state of the car", help_text)


def _figure(words: list[_Word], state: str) -> tuple[Figure, list[_Word]]:
    value, unit, rest = _split(words)
    figure = _in_unit(words[0], value, unit)
    if figure.quantity:
        return figure, rest
    if state in DEAD_STATES:
        help_text = f"type {words[0].text} ohm or {words[0].text} V"
        raise _slip(words[0], f"{_quoted(words[0])} of what?", help_text)
    return Figure(figure.value, "dc_v"), rest


def _split(words: list[_Word]) -> tuple[float | None, str, list[_Word]]:
    """The number, its unit as written ("" when there is none), and the words after them."""
    rest = words[1:]
    if words[0].text in ("open", "ol"):
        if rest and UNITS.get(rest[0].text, ("", 0.0))[0] == "ohm":
            rest = rest[1:]
        return None, "ohm", rest
    found = _NUMBER.fullmatch(words[0].text)
    assert found is not None
    unit = found[2]
    while rest and f"{unit}{rest[0].text}" in UNITS:
        unit, rest = f"{unit}{rest[0].text}", rest[1:]
    return float(found[1].replace(",", ".").replace("−", "-")), unit, rest


def _in_unit(word: _Word, value: float | None, unit: str) -> Figure:
    if unit == "":
        return Figure(value, "")
    if unit not in UNITS:
        meant = _nearest(unit, UNITS)
        help_text = f"type {meant}" if meant else "type V, V ac, ohm, Hz, mA or %"
        raise _slip(word, f"{_quoted(word)}: the unit is not known", help_text)
    quantity, factor = UNITS[unit]
    return Figure(None if value is None else value * factor, quantity)


def _extras(words: list[_Word]) -> dict[str, tuple[_Word, str]]:
    """What stands behind the figure: key to (the key's word, its value)."""
    found: dict[str, tuple[_Word, str]] = {}
    at = 0
    while at < len(words):
        key = _key(words[at])
        end = at + 1
        while end < len(words) and words[end].text not in _KEYS:
            end += 1
        value = " ".join(word.text for word in words[at + 1 : end])
        if key in found:
            raise _slip(words[at], f"{key} is said twice", f"say {key} once")
        if not value:
            raise _slip(words[at], f"nothing stands behind {key}", f"type {_EXAMPLES[key]}")
        found[key] = (words[at], value)
        at = end
    return found


_EXAMPLES = {
    "battery": "battery 12.6",
    "minutes": "minutes 65",
    "load": "load lamp",
    "against": "against body",
}


def _key(word: _Word) -> str:
    if word.text in _KEYS:
        return word.text
    meant = _nearest(word.text, _KEYS)
    help_text = f"type {_EXAMPLES[meant]}" if meant else f"known are: {', '.join(_KEYS)}"
    raise _slip(word, f"{_quoted(word)} is not known here", help_text)


def _checked(
    word: _Word,
    state: str,
    figure: Figure,
    extras: dict[str, tuple[_Word, str]],
    battery_v: float | None,
) -> Reading:
    if figure.quantity == "ohm" and state not in DEAD_STATES:
        message = "ohms are read on dead circuits only"
        raise _slip(word, message, "type unplugged or battery_off, if that is how it was read")
    if figure.value is not None:
        _in_range(word, figure.value, figure.quantity)
    minutes = _plain_number(extras, "minutes", 20_000)
    if state == "asleep" and minutes is None:
        raise _slip(word, "asleep since when?", "add how long it was left alone: minutes 65")
    battery = _plain_number(extras, "battery", 60)
    return Reading(
        session="",
        state=state,  # type: ignore[arg-type]  # checked against the word list
        quantity=figure.quantity,  # type: ignore[arg-type]
        value=figure.value,
        against=_against(extras),
        battery_v=battery_v if battery is None else battery,
        load=_load(extras),  # type: ignore[arg-type]
        minutes=minutes,
        volume_step=None,
        tone_hz=None,
        note=None,
        path=(),
    )


def _in_range(word: _Word, value: float, quantity: str) -> None:
    low, high, unit = LIMITS[quantity]
    if not low <= value <= high:
        message = f"{_quoted(word)} cannot be: it lies between {low:g} and {high:g} {unit}"
        raise _slip(word, message, "look for a slipped decimal point or another unit")


def _plain_number(extras: dict[str, tuple[_Word, str]], key: str, most: float) -> float | None:
    if key not in extras:
        return None
    word, value = extras[key]
    found = _NUMBER.fullmatch(value.replace(" ", ""))
    if found is None or found[2] not in ("", "v", "min", "minutes"):
        raise _slip(word, f'"{value}" is no number for {key}', f"type {_EXAMPLES[key]}")
    number = float(found[1].replace(",", ".").replace("−", "-"))
    if not 0 <= number <= most:
        raise _slip(word, f"{key} lies between 0 and {most:g}", f"type {_EXAMPLES[key]}")
    return number


def _load(extras: dict[str, tuple[_Word, str]]) -> str:
    if "load" not in extras:
        return "none"
    word, value = extras["load"]
    plain = value.replace(" ", "")
    known = LOAD_SPELLINGS.get(plain, plain)
    if known not in _LOADS:
        help_text = "type load none, lamp, 1a, 50ma or 5ma"
        raise _slip(word, f'"{value}" is no load of the table', help_text)
    return known


def _against(extras: dict[str, tuple[_Word, str]]) -> str:
    if "against" not in extras:
        return "battery_negative"
    word, value = extras["against"]
    plain = _plain(value.removeprefix("cavity "))
    if plain in AGAINST_SPELLINGS:
        return AGAINST_SPELLINGS[plain]
    if CAVITY.fullmatch(plain):
        return plain.upper()
    help_text = "type against battery_negative, body, pair, or a cavity such as 4 or B.4"
    raise _slip(word, f'"{value}" is no place for the other probe', help_text)


def _plain(text: str) -> str:
    return re.sub(r"[\s_-]+", "_", text.strip())


def _nearest(word: str, legal: Iterable[str]) -> str:
    close = get_close_matches(word, list(legal), n=1, cutoff=_CLOSE_ENOUGH)
    return close[0] if close else ""


def _quoted(word: _Word) -> str:
    return f'"{word.text}"'


def _slip(word: _Word, message: str, help_text: str) -> ReadingTextError:
    return ReadingTextError(Slip(word.column, word.text, message, help_text))
