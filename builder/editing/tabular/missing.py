"""What a record must say and a table does not: named by the row or column to fill."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.editing.tabular.car_fields import FIELDS, GROUPS, Field
from builder.editing.tabular.columns import COLUMNS
from builder.editing.tabular.draft import Draft
from builder.editing.tabular.faults import Place
from builder.editing.tabular.parts import PINS
from builder.findings import DataPath
from builder.schema_check.key_wording import to_read
from builder.schema_check.schemas import schema_at

_MADE = ("id",)
"""Made of other fields when it is left out."""


def say_missing(draft: Draft, car: Place) -> None:
    """Add a fault for every required field that the table leaves out and no cell of it spoilt."""
    spoilt = {fault.place for fault in draft.faults}
    for field, path, name in _required(draft.data):
        if draft.get(path) is None:
            place = draft.places.get(path[:2]) if field.group else car
            heading = _heading(field, name, place)
            if not _is_refused(draft, heading) and place not in spoilt - {car}:
                draft.say(
                    *(place or car, "TAB111", f"{heading[0]} is not said"),
                    f"{heading[1]}, like {_example(field)}",
                )


def _required(data: dict[str, Any]) -> Iterator[tuple[Field, DataPath, str]]:
    """Each required field with its path in the record and the name of its plug or session."""
    for field in FIELDS:
        if not field.group:
            if field.path != _MADE and _is_required(field.path, ()):
                yield field, field.path, ""
            continue
        items, key, _ = GROUPS[field.group]
        for index, item in enumerate(data.get(items, ())):
            asked = _is_required(field.path, (items, 0)) or field.path == ("car", "tag")
            if asked and isinstance(item, dict):
                yield field, (items, index, *field.path), str(item.get(key, index + 1))


def _is_required(path: DataPath, base: DataPath) -> bool:
    """Whether every step of the path must be there."""
    return all(
        path[n] in schema_at("vehicle", (*base, *path[:n])).get("required", ())
        for n in range(len(path))
    )


def _heading(field: Field, name: str, place: Place | None) -> tuple[str, str]:
    """What is missing, and what to add: a row of the car or, of a visit, a column."""
    if not field.group:
        return field.label, _row(field.label, place)
    column = next((c for c in COLUMNS if c.group == field.group and c.key == field.path), None)
    said = f"{field.group} {name} {field.label}"
    if column is not None and place is not None and place.sheet == PINS:
        return said, f"fill the column {column.heading}, or the row {said}"
    return said, _row(said, place)


def _row(label: str, place: Place | None) -> str:
    """The row to fill: a csv has one sheet only, whose rows of the car begin with #."""
    if place is not None and not place.sheet:
        return f"fill the row #{label} above the pins, or add it"
    return f"fill the row {label} on the sheet car, or add it"


def _is_refused(draft: Draft, heading: tuple[str, str]) -> bool:
    return draft.refused_fields.get(heading[0].lower(), False)


def _example(field: Field) -> str:
    schema = schema_at("vehicle", field.at)
    if asked := to_read(schema):
        return asked
    example = schema.get("examples", ["unknown"])[0]
    return ", ".join(map(str, example)) or "none" if isinstance(example, list) else str(example)
