"""How a record is written: what stands on one line, what is opened, where a section begins.

The shipped records are written this way. All of it is chosen by this project.
"""

from __future__ import annotations

from typing import Any

from builder.findings import DataPath
from builder.model.words import SchemaKind
from builder.schema_check.schemas import schema_at

WIDTH = 100
"""Columns of a line; lists of one-line items may run over."""

ONE_LINE_ITEMS = frozenset(
    {
        *("readings", "claims", "accept", "resolutions", "photos", "results", "notes", "follow_up"),
        *("ticked", "old_notes"),
        *("routes", "answers", "other_turn_on_loads", "rows", "branches", "wires"),
        *("passages", "passes", "joints"),
        *("volume_steps", "bass_by_step"),
    }
)
"""Lists with one item a line, however long the line becomes."""
ONE_LINE_LISTS = frozenset(
    {"power", "bass_table", "fasteners", "shape", "sum", "in_step", "group_delay", "crossovers"}
)
"""Lists of mappings that stand behind their key while they fit."""
OPEN_LISTS = frozenset({"pins"})
"""Lists that stay open although their items are lines of text."""
OPEN_ITEMS = frozenset({"sessions", "plugs", "fuse_positions", "how_to_tell", "access"})
OPEN_MAPPINGS = frozenset(
    {
        *("scope", "radio", "factory_amplifier", "features", "power", "safety", "removal"),
        "input",
    }
)
_OPEN_IN = {("converter", "turn_on"), ("job", "supply")}

SECTIONS: dict[SchemaKind, tuple[str, ...]] = {
    "vehicle": (
        *("make", "scope", "how_to_tell", "radio", "factory_amplifier", "features"),
        *("protected_sounds", "power", "safety", "access", "passages"),
        *("fuse_positions", "channels", "sessions"),
        *("plugs", "accept"),
    ),
    "job": ("car", "wanted", "converter", "routes", "supply", "accept"),
    "visit": ("sessions", "places", "recordings", "turned", "withdrawn"),
}
"""Keys of the top with an empty line before them."""


def key_order(kind: SchemaKind | None, path: DataPath) -> list[str]:
    """The keys of the mapping at a path in the order of the schema; empty without a kind."""
    return list(schema_at(kind, path).get("properties", {})) if kind else []


def ordered(data: dict[str, Any], kind: SchemaKind | None, path: DataPath) -> dict[str, Any]:
    """The same mapping with its keys in the order of the schema, unknown ones last."""
    places = {key: place for place, key in enumerate(key_order(kind, path))}
    return dict(sorted(data.items(), key=lambda item: places.get(item[0], len(places))))


def stays_open(kind: SchemaKind | None, path: DataPath, value: Any) -> bool:
    """Whether a mapping or list is written over several lines even when one would hold it."""
    if not value:
        return False
    key = _key_of(path)
    if isinstance(value, list):
        return key in OPEN_LISTS or (_holds_structures(value) and key not in ONE_LINE_LISTS)
    if isinstance(path[-1], int):
        if key in ONE_LINE_ITEMS:
            return False
        return key in OPEN_ITEMS or _holds_item_lists(value)
    return key in OPEN_MAPPINGS or (kind, key) in _OPEN_IN or _holds_item_lists(value)


def may_run_over(path: DataPath) -> bool:
    """Whether the value at a path stays on one line that is too long."""
    return isinstance(path[-1], int) and _key_of(path) in ONE_LINE_ITEMS


def _key_of(path: DataPath) -> str:
    return next((step for step in reversed(path) if isinstance(step, str)), "")


def _holds_structures(items: list[Any]) -> bool:
    return any(isinstance(item, dict | list) for item in items)


def _holds_item_lists(value: dict[str, Any]) -> bool:
    return any(
        isinstance(inner, list) and _holds_structures(inner) and key not in ONE_LINE_LISTS
        for key, inner in value.items()
    )
