"""A key that is named for a unit says which, so that a page and an editor can show it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args

import pytest
from template_places import full, schema_of

from builder.model.words import RecordKind
from builder.schema_check.key_wording import to_read

SUFFIXES = {
    "v": "V", "ma": "mA", "a": "A", "ohm": "Ω", "w": "W", "hz": "Hz", "s": "s", "ms": "ms",
    "m": "m", "mm": "mm", "mm2": "mm²", "db": "dB", "ah": "Ah", "mohm": "MΩ", "f": "F",
}  # fmt: skip
KINDS = (*get_args(RecordKind), "book", "lock", "readings")
Schema = dict[str, Any]


def unit_of(key: str) -> str | None:
    """The unit that a key is named for: `length_m`, `level_v_rms`, `slope_db_per_octave`."""
    key, _, per = key.removesuffix("_rms").partition("_per_")
    name, _, suffix = key.rpartition("_")
    if not name or suffix not in SUFFIXES:
        return None
    return f"{SUFFIXES[suffix]}/{SUFFIXES.get(per, per)}" if per else SUFFIXES[suffix]


def quantities(schema: Schema, where: str) -> Iterator[tuple[str, str, Schema]]:
    """Every key with a unit's name at its end, in the schema and what it refers to."""
    whole = full(schema)
    for key, inner in whole.get("properties", {}).items():
        unit = unit_of(key)
        if unit is not None:
            told = full(inner)
            yield f"{where}.{key}", unit, full(told["items"]) if "items" in told else told
        yield from quantities(inner, f"{where}.{key}")
    if "items" in whole:
        yield from quantities(whole["items"], f"{where}[]")


def is_asked_for(schema: Schema) -> bool:
    """Whether an example stands there or the figure is asked for, in a record each of its own."""
    inner = [full(each) for each in schema.get("properties", {}).values()]
    return bool(schema.get("examples") or to_read(schema) or (inner and all(map(to_read, inner))))


@pytest.mark.parametrize("kind", KINDS)
def test_a_key_named_for_a_unit_states_it_and_gives_an_example(kind):
    for where, unit, schema in quantities(schema_of(kind), kind):
        if "enum" in schema:
            continue  # a list of standard sizes, each word explained
        assert schema.get("unit") == unit, where
        assert is_asked_for(schema), where
