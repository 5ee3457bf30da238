"""Every key and value of a record's text: where it stands, and what its schema says there."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml
from shipped_book import ROOT
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

Schema = dict[str, Any]


@dataclass(frozen=True)
class Place:
    """One key with its value; lines and columns count from 0."""

    path: str
    key: ScalarNode
    value: Node
    schema: Schema


def schema_of(kind: str) -> Schema:
    """The schema file of a kind of record."""
    schema: Schema = json.loads((ROOT / "schema" / f"{kind}.schema.json").read_text("utf-8"))
    return schema


_SHARED = schema_of("defs")["$defs"]


def full(schema: Schema) -> Schema:
    """A part of a schema with what it refers to; what it says itself stands."""
    name = schema.get("$ref", "").rpartition("/")[2]
    return {**full(_SHARED[name]), **schema} if name else schema


def places(text: str, kind: str) -> list[Place]:
    """Every key of a record, in order."""
    node = yaml.compose(text, Loader=yaml.BaseLoader)
    return list(_walk(node, full(schema_of(kind)), ""))


def _walk(node: Node, schema: Schema, path: str) -> Iterator[Place]:
    if isinstance(node, SequenceNode):
        for index, item in enumerate(node.value):
            yield from _walk(item, full(schema["items"]), f"{path}[{index}]")
    if isinstance(node, MappingNode):
        for key, value in node.value:
            inner = full(schema["properties"][key.value])
            here = f"{path}.{key.value}".lstrip(".")
            yield Place(here, key, value, inner)
            yield from _walk(value, inner, here)


def template(folder: Path, kind: str) -> Path:
    """The template of a kind of record in a book."""
    return folder / f"{kind}s" / "TEMPLATE.yaml"
