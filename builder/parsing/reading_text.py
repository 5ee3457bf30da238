"""One line as an installer types it, such as "asleep 0.03 V battery 12.6 minutes 65", to a reading.

The line starts with the state of the car, then the figure with its unit, then in any order:
battery VOLTS, minutes N, load WHAT, against WHAT. Capitals, commas for points, and - or _ for
spaces do not matter.
"""

from __future__ import annotations

import re
from typing import Literal, NamedTuple, get_args

from builder.model.plugs import Reading
from builder.model.said import said
from builder.model.words import BATTERY_NEGATIVE, STATES, Load, Quantity, State
from builder.parsing.reading_figures import (
    NUMBER,
    POINT_AND_MINUS,
    Figure,
    Word,
    in_unit,
    is_figure,
    quoted,
    slip,
    split_figure,
    words_of,
)
from builder.parsing.reading_words import (
    AGAINST_SPELLINGS,
    CAVITY,
    DEAD_STATES,
    EXAMPLE,
    LIMITS,
    LOAD_SPELLINGS,
    STATE_SPELLINGS,
)
from builder.speller import nearest

Key = Literal["battery", "minutes", "load", "against"]
"""What may stand behind a figure, each with its value."""

_KEYS: tuple[Key, ...] = get_args(Key)
_LOADS: dict[str, Load] = {**{load: load for load in get_args(Load)}, **LOAD_SPELLINGS}
_STATES: dict[str, State] = {**{state: state for state in STATES}, **STATE_SPELLINGS}
"""Every spelling of a load and of a state, the words of the records among them."""
_ENDS = ("", "v", "min", "minutes")
"""Units that may stand behind a number that has only one."""


Extras = dict[Key, tuple[Word, str]]
"""What stands behind a figure: key to (the key's word, its value)."""


class Given(NamedTuple):
    """What stands in where a line does not say it: battery volts [V], minutes, other probe."""

    battery_v: float | None = None
    minutes: float | None = None
    against: str = BATTERY_NEGATIVE


NOTHING_GIVEN = Given()


def read_reading(text: str, given: Given = NOTHING_GIVEN) -> Reading:
    """Return the reading that a line states.

    Raises:
        ReadingTextError: the line is no reading.
    """
    words = words_of(text)
    at = _figure_at(words)
    state = _state(words[:at], at < len(words))
    if at == len(words):
        raise slip(
            Word("", len(text) + 1),
            "no figure",
            f"type what the meter shows, with its unit: {state} VALUE V",
        )
    figure, rest = _figure(words[at:], state)
    return _checked(words[at], state, figure, _extras(rest), given)


def _figure_at(words: list[Word]) -> int:
    """Where the figure stands; in "door open 0.1 V" and "vol 0 2.5 V" the second is it."""
    places = [i for i, word in enumerate(words) if is_figure(word.text)]
    behind_state = [at for at in places if _plain(" ".join(w.text for w in words[:at])) in _STATES]
    return behind_state[-1] if behind_state else places[0] if places else len(words)


def read_answer(text: str, state: State, quantity: Quantity, given: Given) -> Reading | None:
    """Return the reading that answers a question about one state and quantity.

    None when the text does not start with a figure. A unit may be left out; another unit than
    that of the quantity makes it a reading of what that unit measures.

    Raises:
        ReadingTextError: it starts with a figure and goes wrong after it.
    """
    words = words_of(text)
    if not words or not is_figure(words[0].text):
        return None
    value, unit, rest = split_figure(words)
    figure = in_unit(words[0], value, unit)
    asked = Figure(figure.value, figure.quantity or quantity)
    return _checked(words[0], state, asked, _extras(rest), given)


def _state(words: list[Word], has_figure: bool) -> State:
    first = words[0] if words else Word("", 1)
    typed = " ".join(word.text for word in words)
    if not typed:
        known = "the state of the car is missing"
        raise slip(first, known, f"begin with the state: {EXAMPLE}")
    plain = _plain(typed)
    if plain in _STATES:
        return _STATES[plain]
    whole = Word(typed, first.column)
    if (found := said("state", plain)).asked:
        names = " or ".join(found.choices)
        raise slip(whole, f"{quoted(whole)} could be {names}", f"type {names}")
    meant = nearest(plain, _STATES)
    meant = meant and STATE_SPELLINGS.get(meant, meant)
    help_text = f"type {meant}" if meant else f"type one of: {', '.join(STATES)}"
    if not has_figure and not meant:
        help_text = f"a reading is written like this: {EXAMPLE}"
    raise slip(whole, f"{quoted(whole)} is no state of the car", help_text)


def _figure(words: list[Word], state: State) -> tuple[Figure, list[Word]]:
    value, unit, rest = split_figure(words)
    figure = in_unit(words[0], value, unit)
    if figure.quantity is not None:
        return figure, rest
    if state in DEAD_STATES:
        help_text = f"type {words[0].text} ohm or {words[0].text} V"
        raise slip(words[0], f"{quoted(words[0])} of what?", help_text)
    return Figure(figure.value, "dc_v"), rest


def _extras(words: list[Word]) -> Extras:
    """What stands behind the figure: key to (the key's word, its value)."""
    found: Extras = {}
    at = 0
    while at < len(words):
        key = _key(words[at])
        end = at + 1
        while end < len(words) and words[end].text not in _KEYS:
            end += 1
        value = " ".join(word.text for word in words[at + 1 : end])
        if key in found:
            raise slip(words[at], f"{key} is said twice", f"say {key} once")
        if not value:
            raise slip(words[at], f"nothing stands behind {key}", f"type {_EXAMPLES[key]}")
        found[key] = (words[at], value)
        at = end
    return found


_EXAMPLES: dict[Key, str] = {
    "battery": "battery and its volts",
    "minutes": "minutes and how many",
    "load": "load lamp",
    "against": "against body",
}


def _key(word: Word) -> Key:
    if word.text in _EXAMPLES:
        return word.text
    meant = nearest(word.text, _KEYS)
    help_text = (
        f"type {_EXAMPLES[meant]}" if meant in _EXAMPLES else f"known are: {', '.join(_KEYS)}"
    )
    raise slip(word, f"{quoted(word)} is not known here", help_text)


def _checked(
    word: Word,
    state: State,
    figure: Figure,
    extras: Extras,
    given: Given,
) -> Reading:
    quantity = figure.quantity or "dc_v"
    _can_be(word, state, figure.value, quantity)
    minutes = _plain_number(extras, "minutes", 20_000, given.minutes)
    if state == "asleep" and minutes is None:
        raise slip(word, "asleep since when?", "add how long it was left alone: minutes MINUTES")
    return Reading(
        session="",
        state=state,
        quantity=quantity,
        value=figure.value,
        against=_against(extras, given.against),
        battery_v=_plain_number(extras, "battery", 60, given.battery_v),
        load=_load(extras),
        minutes=minutes,
        volume_step=None,
        tone_hz=None,
        note=None,
        path=(),
    )


def _can_be(word: Word, state: State, value: float | None, quantity: Quantity) -> None:
    if quantity == "ohm" and state not in DEAD_STATES:
        message = "ohms are read on dead circuits only"
        raise slip(word, message, "type unplugged or battery_off, if that is how it was read")
    low, high, unit = LIMITS[quantity]
    if value is not None and not low <= value <= high:
        message = f"{quoted(word)} cannot be: it lies between {low:g} and {high:g} {unit}"
        raise slip(word, message, "look for a slipped decimal point or another unit")


def _plain_number(extras: Extras, key: Key, most: float, given: float | None) -> float | None:
    if key not in extras:
        return given
    word, value = extras[key]
    found = NUMBER.fullmatch(value.replace(" ", ""))
    if found is None or found[2] not in _ENDS:
        raise slip(word, f'"{value}" is no number for {key}', f"type {_EXAMPLES[key]}")
    number = float(found[1].translate(POINT_AND_MINUS))
    if not 0 <= number <= most:
        raise slip(word, f"{key} lies between 0 and {most:g}", f"type {_EXAMPLES[key]}")
    return number


def _load(extras: Extras) -> Load:
    if "load" not in extras:
        return "none"
    word, value = extras["load"]
    plain = value.replace(" ", "")
    if plain not in _LOADS:
        help_text = "type load none, lamp, 1a, 50ma or 5ma"
        raise slip(word, f'"{value}" is no load of the table', help_text)
    return _LOADS[plain]


def _against(extras: Extras, otherwise: str) -> str:
    if "against" not in extras:
        return otherwise
    word, value = extras["against"]
    plain = _plain(value.removeprefix("cavity "))
    if plain in AGAINST_SPELLINGS:
        return AGAINST_SPELLINGS[plain]
    if CAVITY.fullmatch(plain):
        return plain.upper()
    help_text = "type against battery_negative, body, pair, or a cavity such as 4 or B.4"
    raise slip(word, f'"{value}" is no place for the other probe', help_text)


def _plain(text: str) -> str:
    return re.sub(r"[\s_-]+", "_", text.strip())
