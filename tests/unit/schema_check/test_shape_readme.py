"""The prose beside the schemas names every key and every word that they hold."""

from __future__ import annotations

from typing import Any

import pytest

from builder.data_files import schema_folder
from builder.schema_check.schemas import KINDS, SHARED, read_schema, resolve

README = (schema_folder() / "README.md").read_text(encoding="utf-8")


def tabled() -> list[Any]:
    """The objects that have a table of their own in the prose."""
    vehicle, shared = read_schema("vehicle")["properties"], read_schema(SHARED)["$defs"]
    plug, job = vehicle["plugs"]["items"], read_schema("job")["properties"]
    inner = {
        "scope": vehicle["scope"],
        "channel": vehicle["channels"]["items"],
        "session": vehicle["sessions"]["items"],
        "plug": plug,
        "pin": plug["properties"]["pins"]["items"],
        "reading": shared["reading"],
        "claim": shared["claim"],
        "accept": vehicle["accept"]["items"],
        "resolution": vehicle["resolutions"]["items"],
        "speaker": job["speakers"]["items"],
        "route": job["routes"]["items"],
        "supply": job["supply"],
        "turn-on load": job["other_turn_on_loads"]["items"],
        "result": job["results"]["items"],
    }
    every = {kind: read_schema(kind) for kind in KINDS} | inner
    return [pytest.param(schema, id=name) for name, schema in every.items()]


@pytest.mark.parametrize("schema", tabled())
def test_every_key_has_its_line(schema: dict[str, Any]) -> None:
    for key, inner in resolve(schema)["properties"].items():
        must = "yes" if key in schema.get("required", ()) else "no"
        assert f"| `{key}` | {must} | {inner['description']} |" in README
    for condition in map(resolve, schema.get("allOf", ())):
        for one in condition.get("allOf", [condition]):
            assert one["because"] in README


@pytest.mark.parametrize(
    "name", ["function", "channel", "state", "quantity", "load", "claim_method"]
)
def test_every_word_has_its_line(name: str) -> None:
    for word, meaning in read_schema(SHARED)["$defs"][name]["wordMeanings"].items():
        assert f"| `{word}` | {meaning} |" in README


def test_every_colour_is_named() -> None:
    for colour in read_schema(SHARED)["$defs"]["colour"]["enum"]:
        assert f"`{colour}`" in README
