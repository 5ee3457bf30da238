"""The house defaults that acted on a result, as the note that is printed beside it."""

from __future__ import annotations

from collections.abc import Iterable

from builder.declaring import fields_of
from builder.model.house_defaults import HouseDefaults
from builder.model.words import State
from builder.proof.signatures.shapes import Expected

_UNITS = {each.key: each.spec.unit for each in fields_of(HouseDefaults)}


def house_words(names: Iterable[str], defaults: HouseDefaults) -> tuple[str, ...]:
    """Return each default once with its value in this book: "asleep_min 20 min"."""
    return tuple(
        f"{name} {getattr(defaults, name):g} {_UNITS[name]}".rstrip()
        for name in dict.fromkeys(names)
    )


def house_note(names: Iterable[str], defaults: HouseDefaults) -> str:
    """Return the note beside a result, "" when no default acted on it."""
    return note_of(house_words(names, defaults))


def note_of(words: Iterable[str]) -> str:
    """Return the note of defaults that are in words already, each once."""
    said = tuple(dict.fromkeys(words))
    if not said:
        return ""
    return f"house default{'s' if len(said) > 1 else ''} (book.yaml): {', '.join(said)}"


def house_of_rows(rows: Iterable[Expected]) -> tuple[str, ...]:
    """Return the names of the defaults that set limits and minutes of some lines, each once."""
    return tuple(dict.fromkeys(name for row in rows for name in (*row.house, *row.waits)))


def house_in(row: Expected, state: State) -> tuple[str, ...]:
    """Return the names of the defaults that act on a reading in one state of the car."""
    return (*row.house, *row.waits) if state == "asleep" else row.house
