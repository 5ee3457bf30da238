"""The table to fill: headings, an example row, words to choose from, and what each one means."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.editing.tabular.car_fields import FIELDS, Field
from builder.editing.tabular.columns import COLUMNS, Column, words_at
from builder.editing.tabular.describing import column_meaning, field_meaning
from builder.editing.tabular.headings import WIDE, Wide
from builder.editing.tabular.parts import CAR, MARK, PINS
from builder.editing.tabular.writing import TableRows
from builder.schema_check.key_wording import to_read
from builder.schema_check.schemas import schema_at
from builder.spreadsheets import Laid, NewSheet

Cells = list[str | int | float | None]
_ROWS_LAID = 300
_TO_READ = "<what was read>"
_EXAMPLE: dict[str, str | int | float] = {
    **{"plug": "example A", "cavity": 1, "function": "constant", "wire base": "yellow"},
    **{"wire stripe": "red", "fuse place": "F31"},
    **{"who": "alder-pit-audio", "date": "2024-05-13", "car tag": "k7m2", "car year": 2018},
    **{"measured with": "meter", "read from": "wire_side", "against": "battery_negative"},
    **dict.fromkeys(["asleep (V)", "asleep battery (V)", "asleep (min)"], _TO_READ),
    **dict.fromkeys(["run 1 a (V)", "run 1 a battery (V)"], _TO_READ),
    "note": "an example: a row whose plug begins with this word is not read",
}
_HELP = (
    "Fill the sheet car (one field a row) and the sheet pins (one row a pin), save, and run: "
    "loombook import FILE --dry-run",
    "A blank cell says nothing. unknown: you could not tell. none, no: you looked, there is none.",
    "plug, channel and visit rows of the sheet car name one of many: copy plug A housing to "
    "plug B housing for a second plug, and so on; sounds, parts, passages, settled have numbers.",
    "Lists: parted by commas; by semicolons, or one a line, when an item has a comma. Cautions: "
    "one a line.",
    "A second row with the same plug and cavity adds readings (another visit): leave function, "
    "wire, fuse and note blank in it.",
    "Any reading may have a column of its own: STATE [LOAD] QUANTITY [to POINT], like run 1 a (V), "
    "unplugged (Ω) to 7, lights on (Hz); beside it STATE [LOAD] battery (V), (min), tone (Hz).",
    "Cavities, colours and days are kept as text, so that 1-2 does not become a date.",
)


class _Sheets(NamedTuple):
    car: list[Cells]
    pins: list[Cells]


def _headings() -> list[Column | Wide]:
    early = [c for c in COLUMNS if c.group in ("where", "pin", "visit", "row")]
    late = [c for c in COLUMNS if c.group in ("claim", "old note", "reading")]
    return [*early, *WIDE, *late]


def template_sheets(filled: TableRows | None = None) -> _Sheets:
    """The rows of both sheets with their headings: of a record, or with an example row alone."""
    said = dict(filled.car) if filled else {}
    car: list[Cells] = [["field", "value", "example", "what it means"]]
    for entry in FIELDS:
        if not entry.group or not filled:
            car.append([entry.heading, said.pop(entry.heading, None), *_about(entry)])
    car += [[label, value] for label, value in said.items()]
    headings = [column.heading for column in _headings()]
    rows = filled.pins if filled else [_EXAMPLE]
    return _Sheets(car, [list(headings), *([row.get(h) for h in headings] for row in rows)])


def _about(entry: Field) -> tuple[str, str]:
    schema = schema_at("vehicle", entry.at)
    example = to_read(schema) or schema.get("examples", [""])[0]
    text = ", ".join(map(str, example)) or "none" if isinstance(example, list) else str(example)
    return text, field_meaning(entry)


def xlsx_sheets(filled: TableRows | None = None) -> list[NewSheet]:
    """The workbook: car, pins with drop-downs, and a sheet of help."""
    car, pins = template_sheets(filled)
    last = max(len(pins), 1) + _ROWS_LAID
    return [
        NewSheet(CAR, car, _car_laid(car), widths={1: 34, 2: 30, 3: 24, 4: 70}),
        NewSheet(PINS, pins, [_laid(n, c, last) for n, c in enumerate(_headings(), 1)]),
        NewSheet("help", _help_rows(), widths={1: 30, 2: 90, 3: 60}),
    ]


def _laid(number: int, column: Column | Wide, last: int) -> Laid:
    if isinstance(column, Wide):
        return Laid(2, last, number)
    words = ("+", "-") if column.key == ("leg",) else column.words
    return Laid(2, last, number, words, _is_text(column), column.meaning)


def _is_text(column: Column) -> bool:
    """Whether a program must not make a number or a day of what is typed."""
    schema = schema_at("vehicle", column.at)
    return not column.at or "pattern" in schema or "enum" in schema


def _car_laid(rows: Sequence[Cells]) -> list[Laid]:
    """Drop-downs of the values, one for each field with a closed list of words."""
    by_heading = {entry.heading: entry for entry in FIELDS}
    laid = [Laid(2, len(rows) + 40, 2, (), True)]
    for number, row in enumerate(rows, 1):
        entry = by_heading.get(str(row[0]))
        if entry and words_at(entry.at):
            laid.append(Laid(number, number, 2, words_at(entry.at)))
    return laid


def _help_rows() -> list[Cells]:
    rows: list[Cells] = [["heading", "what it means", "words"]]
    for line in _HELP:
        rows.append(["", line])
    for column in _headings():
        words = "" if isinstance(column, Wide) else ", ".join(column.words)
        rows.append([column.heading, column_meaning(column), words])
    return rows


def csv_rows(filled: TableRows | None = None) -> list[list[str]]:
    """The rows of a csv file: the car's fields behind a #, then the headings and the pins."""
    car, pins = template_sheets(filled)
    notes = [[f"{MARK * 2} {line}"] for line in _HELP] if filled is None else []
    marked: list[Cells] = [[f"{MARK}{row[0]}", *row[1:]] for row in car[1:]]
    return [*notes, *([_typed(cell) for cell in row] for row in (*marked, *pins))]


def _typed(cell: str | int | float | None) -> str:
    return "" if cell is None else str(cell)
