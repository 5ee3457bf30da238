"""What each heading and field means, for the help sheet and the handbook."""

from __future__ import annotations

from collections.abc import Iterator

from builder.editing.tabular.car_fields import FIELDS, NOT_HELD, Field
from builder.editing.tabular.columns import COLUMNS, Column, Group
from builder.editing.tabular.headings import WIDE, Wide
from builder.model.said.colours import ALIKE_COLOURS
from builder.model.said.states import STATE_WORDS
from builder.schema_check.schemas import schema_at

_GROUPS: dict[Group, str] = {
    "where": "which pin",
    "pin": "the pin",
    "row": "the row",
    "visit": "who measured",
    "claim": "said without measuring",
    "old note": "from an old notebook, proves nothing",
    "reading": "one reading spelt out",
}


def field_meaning(field: Field) -> str:
    """What a field of the car means."""
    return field.meaning


def column_meaning(column: Column | Wide) -> str:
    """What a column of the pins means."""
    if isinstance(column, Column):
        return column.meaning
    if column.beside != "value":
        said = schema_at("vehicle", ("plugs", 0, "pins", 0, "readings", 0, column.beside))
        return f"Beside the reading before it. {said.get('description', '')}"
    state: str = schema_at("vehicle", ("plugs", 0, "pins", 0, "readings", 0, "state"))[
        "wordMeanings"
    ][column.state]
    return f"A reading. {state}"


def columns_markdown() -> str:
    """The tables of columns and fields for the handbook."""
    return "\n".join([*_pins(), *_car(), *_states(), *_colours(), *_lost()])


def _pins() -> Iterator[str]:
    yield from ("## The columns of a pin", "", "| heading | also read | about | meaning |")
    yield "|---|---|---|---|"
    for column in COLUMNS:
        others = ", ".join(column.others)
        about = _GROUPS[column.group]
        yield f"| {column.heading} | {others} | {about} | {column.meaning} |"
    for wide in WIDE:
        yield f"| {wide.heading} | | a reading in a state | {column_meaning(wide)} |"
    yield ""


def _car() -> Iterator[str]:
    yield from ("## The fields of the car", "", "| field | also read | meaning |", "|---|---|---|")
    for field in FIELDS:
        yield f"| {field.heading} | {', '.join(field.others)} | {field.meaning} |"
    yield ""


def _states() -> Iterator[str]:
    yield from ("## States in headings", "", "Common practice, no source.", "")
    yield from ("| state | written |", "|---|---|")
    for state, ways in STATE_WORDS.items():
        yield f"| `{state}` | {', '.join(ways)} |"
    yield ""


def _colours() -> Iterator[str]:
    yield from ("## Colours that are refused", "", "Common practice, no source.", "")
    yield from ("| written | could be |", "|---|---|")
    for word, meant in ALIKE_COLOURS.items():
        yield f"| {word} | {' or '.join(meant)} |"
    yield ""


def _lost() -> Iterator[str]:
    keys = (".".join(str(step) for step in path if isinstance(step, str)) for path in NOT_HELD)
    yield from ("## What a table has no place for", "")
    yield ", ".join(f"`{key}`" for key in keys) + ": type these into the record afterwards."
