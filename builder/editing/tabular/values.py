"""The text of a cell as the schema of its place asks for it, or what is wrong with it."""

from __future__ import annotations

import re
from typing import Any

from builder.editing.drafts.question import AnswerError, read_as
from builder.editing.tabular.colours import read_colour
from builder.editing.tabular.faults import CellError
from builder.editing.tabular.words import looks_like_date
from builder.findings import DataPath
from builder.model.said import Said, SaidKind, said
from builder.model.said.units import OPEN_WORDS
from builder.schema_check.key_wording import to_read
from builder.schema_check.meant import date_meant, figure_meant
from builder.schema_check.schemas import BLACK, LEG, VALUE, Schema, resolve, schema_at
from builder.schema_check.yaml_words import listed
from builder.spreadsheets import Cell
from builder.spreadsheets.cells import Kind

_ODD: dict[Kind, tuple[str, str, str]] = {
    "formula": ("TAB106", "holds a formula", "type the value that it shows"),
    "error": ("TAB106", "shows an error of the spreadsheet", "type what belongs there, as text"),
    "merged": ("TAB107", "is joined with other cells", "split the cells and fill each one"),
}
_AS_TEXT = "set the column to the format text, then type"
_NONE = frozenset({"none", "[]", "no", "-", "nothing"})
_FREE_LENGTH = 100
_LINE_LENGTH = 120


def refuse_odd(cell: Cell) -> None:
    """Refuse a cell whose content is not what was typed.

    Raises:
        CellError: it is a formula, an error or joined with others.
    """
    if cell.kind in _ODD:
        code, what, help = _ODD[cell.kind]
        raise CellError(code, f"{what} ({cell.text[:40]})", help)


def read_cell(cell: Cell, at: DataPath, unit: str = "") -> Any:
    """The value of a cell for a place in a vehicle record, in a unit where the schema has none.

    Raises:
        CellError: it cannot be taken.
    """
    refuse_odd(cell)
    schema = schema_at("vehicle", at)
    schema = {**schema, "unit": unit} if unit else schema
    text = cell.text.strip(" \t" if schema.get("type") == "array" else None)
    if _is_day(schema):
        return _day(cell, text, schema)
    if cell.kind == "date" or (not _is_free(schema) and looks_like_date(text)):
        raise _became_date(text, schema)
    if cell.kind == "percent":
        raise CellError("TAB106", f"holds {text} shown as a percentage", f"type {_like(schema)}")
    return _read(schema, text, at)


def _read(schema: Schema, text: str, at: DataPath) -> Any:
    if schema.get("type") == "array":
        return _read_list(schema, text, at)
    if at[-1] in _BY_TABLE and (word := _by_table(_BY_TABLE[at[-1]], text, schema)):
        return word
    if at[-1] == VALUE and text.lower() in OPEN_WORDS:
        return "open"
    if BLACK in schema.get("enum", ()):
        return read_colour(text)
    if _is_free(schema):
        return _free(schema, text)
    text = _capitals(text, schema)
    try:
        return read_as(schema, text)
    except AnswerError as error:
        raise _not_understood(error, schema, text) from error


_BY_TABLE: dict[object, SaidKind] = {
    LEG: "leg",
    "function": "function",
    "says": "function",
    "channel": "channel",
}
"""Places whose words stand in the word table."""


def _by_table(kind: SaidKind, text: str, schema: Schema) -> str | None:
    """The word of the table, asked back where it stands for several; None for no word of it."""
    meant = said(kind, text)
    if text in schema.get("enum", ()) or not meant.means:
        return None
    word = written_once(text, meant)
    return word if word in schema["enum"] else None


def written_once(text: str, meant: Said) -> str:
    """The one word of the records that a known word stands for.

    Raises:
        CellError: it stands for several.
    """
    if meant.asked:
        choices = listed(list(meant.choices))
        raise CellError("TAB109", f'"{text}" could be {choices}', f"type {choices}")
    return meant.means[0]


def _read_list(schema: Schema, text: str, at: DataPath) -> list[Any]:
    items, kind = _items(text, schema), resolve(schema["items"])
    words = kind.get("then", {}).get("enum", ())
    if "object" in kind.get("type", "") and not {*items} <= {*words}:
        raise CellError(
            *("TAB108", f'"{text[:40]}" is more than one cell holds'),
            "type none or unknown, or say it in rows like sound 1 name, sound 1 channels",
        )
    return [_read(kind, item, (*at, 0)) for item in items]


def _capitals(text: str, schema: Schema) -> str:
    """Capitals where the form takes no other, as of cavities and plugs; ids and `body` stay."""
    pattern, upper = schema.get("pattern", ""), text.upper()
    return upper if re.search(pattern, upper) and not re.search(pattern, text) else text


def _not_understood(error: AnswerError, schema: Schema, text: str) -> CellError:
    figure = figure_meant(text, schema.get("unit", ""))
    message, _, help = str(error).partition("; type ")
    if figure is not None and not figure.sure and "thousands" in figure.doubt:
        point = figure.text
        return CellError(
            *("TAB109", f'"{text}" could be {point} or {point.replace(".", "")}'),
            f"type {point}, or {point.replace('.', '')}",
        )
    message, _, words = message.partition(": ")
    return CellError(
        "TAB108", message, f"type {help}" if help else words or f"type {_like(schema)}"
    )


def _items(text: str, schema: Schema) -> list[str]:
    """The items of a list: a line each, else parted by semicolons, else by commas.

    Sentences have both in them, so these are a line each, or parted by upright strokes.
    """
    if text.strip().lower() in _NONE:
        return []
    marks = ("\n", "|") if is_sentence(schema) else ("\n", ";")
    mark = next((m for m in marks if m in text), marks[-1] if is_sentence(schema) else ",")
    bare = text[1:-1] if text.startswith("[") and text.endswith("]") else text
    items = (item.strip(" \r") for item in bare.split(mark))
    return [item for item in items if item]


def is_sentence(schema: Schema) -> bool:
    """Whether the items of a list are sentences, with commas in them."""
    return bool(resolve(schema.get("items", {})).get("maxLength", 0) > _LINE_LENGTH)


def _is_free(schema: Schema) -> bool:
    """Whether the place takes any text: notes, names, places."""
    return schema.get("type") == "string" and schema.get("maxLength", 0) >= _FREE_LENGTH


def _free(schema: Schema, text: str) -> str:
    longest = schema["maxLength"]
    if "\n" in text and "not" in schema:
        raise CellError("TAB108", "has several lines", "type it on one line")
    if len(text) > longest:
        raise CellError("TAB108", f"has {len(text)} characters", f"shorten it to {longest}")
    return text


def _is_day(schema: Schema) -> bool:
    return str(schema.get("formMeaning", "")).startswith("YYYY-MM")


def _day(cell: Cell, text: str, schema: Schema) -> str:
    month = "DD" not in schema["formMeaning"]
    text = text.removesuffix(" 00:00:00")
    if cell.kind == "date":
        return text[:7] if month else text
    meant = date_meant(text, month=month)
    if meant is not None and not meant.sure:
        raise CellError(
            "TAB109", meant.doubt or f"{text} is unclear", f"type {meant.text}, or turn it"
        )
    try:
        return str(read_as(schema, meant.text if meant else text))
    except AnswerError as error:
        raise CellError("TAB108", f'"{text}" is no day', f"type {schema['formMeaning']}") from error


def _became_date(text: str, schema: Schema) -> CellError:
    return CellError(
        "TAB105",
        f"holds a date ({text}): a spreadsheet program has made it of something like 1-2",
        f"{_AS_TEXT} what is meant, like {_like(schema)}",
    )


def _like(schema: Schema) -> str:
    examples = schema.get("examples", [])
    example = to_read(schema) or (examples[0] if examples else "a figure")
    if isinstance(example, list):
        return ", ".join(map(str, example)) or "none"
    return str(example)
