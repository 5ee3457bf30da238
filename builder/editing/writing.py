"""A record, or a part of one, written in the house style."""

from __future__ import annotations

import textwrap
from typing import Any

from builder.editing.edits import UneditableError
from builder.editing.house_style import SECTIONS, WIDTH, may_run_over, ordered, stays_open
from builder.editing.spelling import flow_text, key_text, scalar_text
from builder.findings import DataPath
from builder.model.words import SchemaKind
from builder.schema_check.schemas import KINDS, schema_at

SCHEMA_LINE = "# yaml-language-server: $schema="
INVENTED_LINE = "# Invented data: no such thing exists, and nobody took a reading."


def usual_schema_ref(kind: SchemaKind) -> str:
    """The relative path of a kind's schema from where its records usually stand."""
    up = "../../../" if kind in ("vehicle", "visit") else "../../"
    return f"{up}schema/{kind}.schema.json"


def write_record(data: dict[str, Any], kind: SchemaKind, schema_ref: str | None = None) -> str:
    """Return a new record in the house style, each section with what it holds above it; it reads
    back as `data`.

    Args:
        data: The record as plain data; its keys are put in the order of the schema.
        kind: One of the kinds that have a schema.
        schema_ref: Relative path of the schema for editors; by default of the usual place.
    Raises:
        UneditableError: the record is empty, or a value in it is one that no record can hold.
        ValueError: there is no such kind.
    """
    if kind not in KINDS:
        raise ValueError(f"no schema for the kind {kind!r}")
    if not data:
        raise UneditableError("a record without a key is none")
    lines = [SCHEMA_LINE + (schema_ref or usual_schema_ref(kind))]
    if data.get("data") == "invented":
        lines.append(INVENTED_LINE)
    lines.append("")
    for key, value in ordered(data, kind, ()).items():
        if key in SECTIONS.get(kind, ()):
            lines += ["", *_explanation(kind, key, value)]
        lines += key_lines(key, value, kind, (key,))
    return "\n".join(lines) + "\n"


def key_lines(key: str, value: Any, kind: SchemaKind | None, path: DataPath) -> list[str]:
    """The lines of a key with its value; `path` is the value's, the first column is 0."""
    head = f"{key_text(key)}:"
    inline = _inline(value, kind, path, len(head) + 1)
    if inline is not None:
        return [f"{head} {inline}"]
    return [head, *(f"  {line}" if line else "" for line in _block(value, kind, path))]


def item_lines(value: Any, kind: SchemaKind | None, path: DataPath) -> list[str]:
    """The lines of a list item with its dash; `path` is the item's, the first column is 0."""
    inline = _inline(value, kind, path, 2)
    if inline is not None:
        return [f"- {inline}"]
    first, *rest = _block(value, kind, path)
    return [f"- {first}", *(f"  {line}" if line else "" for line in rest)]


def one_line(value: Any, kind: SchemaKind | None, path: DataPath) -> str:
    """A value on one line, the keys of all its mappings in the order of the schema."""
    return flow_text(_all_ordered(value, kind, path))


def _inline(value: Any, kind: SchemaKind | None, path: DataPath, before: int) -> str | None:
    """The value on one line, or None when it is to be opened."""
    if not isinstance(value, dict | list):
        return scalar_text(value, flow=False)
    if stays_open(kind, path, value):
        return None
    text = one_line(value, kind, path)
    indent = 2 * (len(path) - 1)
    fits = indent + before + len(text) <= WIDTH
    return text if fits or not value or may_run_over(path) else None


def _block(value: Any, kind: SchemaKind | None, path: DataPath) -> list[str]:
    if isinstance(value, dict):
        items = ordered(value, kind, path).items()
        return [line for key, v in items for line in key_lines(key, v, kind, (*path, key))]
    lines: list[str] = []
    for index, item in enumerate(value):
        if index and path == ("plugs",):
            lines.append("")
        lines += item_lines(item, kind, (*path, index))
    return lines


def _all_ordered(value: Any, kind: SchemaKind | None, path: DataPath) -> Any:
    if isinstance(value, dict):
        items = ordered(value, kind, path).items()
        return {key: _all_ordered(inner, kind, (*path, key)) for key, inner in items}
    if isinstance(value, list):
        return [_all_ordered(v, kind, (*path, index)) for index, v in enumerate(value)]
    return value


def _explanation(kind: SchemaKind, key: str, value: Any) -> list[str]:
    said = str(schema_at(kind, (key,)).get("description", ""))
    if not said or not isinstance(value, dict | list):
        return []
    return [f"# {line}" for line in textwrap.wrap(said, WIDTH - 2)]
