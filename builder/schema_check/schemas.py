"""The schema files, compiled once a kind, and what a schema says of one place in a record."""

from __future__ import annotations

import json
from functools import cache
from typing import Any, Final, get_args

import jsonschema_rs

from builder.data_files import schema_folder
from builder.findings import DataPath
from builder.model.words import RecordKind, SchemaKind

KINDS: tuple[SchemaKind, ...] = (*get_args(RecordKind), "book", "lock", "readings", "sheet")
"""The kinds that have a schema."""

SHARED: Final = "defs"

Schema = dict[str, Any]

VALUE: Final = "value"
BASE: Final = "base"
LEG: Final = "leg"
"""Keys of records that are read in a way of their own: a reading's figure, a wire's first colour,
and the sign of a speaker wire."""
BLACK: Final = "black"
"""The word by which a list of colours is known."""


def schema_name(name: str) -> str:
    """The name of a schema's file, which references from the files beside it go by."""
    return f"{name}.schema.json"


@cache
def read_schema(name: str) -> Schema:
    """The schema of a kind, or the shared definitions, as data."""
    text = (schema_folder() / schema_name(name)).read_text(encoding="utf-8")
    schema: Schema = json.loads(text)
    return schema


@cache
def validator(kind: SchemaKind) -> jsonschema_rs.Draft202012Validator:
    """The compiled validator of a kind.

    Raises:
        ValueError: there is no such kind.
    """
    if kind not in KINDS:
        raise ValueError(f"no schema for the kind {kind!r}")
    shared = read_schema(SHARED)
    registry = jsonschema_rs.Registry([(schema_name(SHARED), shared)])
    return jsonschema_rs.Draft202012Validator(
        read_schema(kind), registry=registry, validate_formats=True
    )


def resolve(schema: Schema) -> Schema:
    """Follow `$ref`; what stands beside it goes before what it points at."""
    while "$ref" in schema:
        # Every reference of the project points at one shared definition.
        target = read_schema(SHARED)["$defs"][schema["$ref"].rpartition("/")[2]]
        schema = {**target, **{key: value for key, value in schema.items() if key != "$ref"}}
    return schema


def schema_at(kind: SchemaKind, path: DataPath) -> Schema:
    """What the schema of a kind says of the place at `path`, conditions left aside.

    Empty for a place that the schema does not know.
    """
    schema = resolve(read_schema(kind))
    for step in path:
        inner = (
            schema.get("items", {})
            if isinstance(step, int)
            else schema.get("properties", {}).get(step, {})
        )
        schema = resolve(inner)
    return schema


def places_of_key(kind: SchemaKind, key: str) -> list[tuple[str, ...]]:
    """Where a key is legal: the keys that lead to it, the key itself left out."""
    places = _key_places(kind)
    return places.get(key, [])


@cache
def _key_places(kind: SchemaKind) -> dict[str, list[tuple[str, ...]]]:
    found: dict[str, list[tuple[str, ...]]] = {}
    _collect_places(read_schema(kind), (), found)
    return found


def _collect_places(
    schema: Schema, at: tuple[str, ...], found: dict[str, list[tuple[str, ...]]]
) -> None:
    schema = resolve(schema)
    for key, inner in schema.get("properties", {}).items():
        found.setdefault(key, []).append(at)
        _collect_places(inner, (*at, key), found)
    if "items" in schema:
        _collect_places(schema["items"], at, found)
