"""What a bay sheet and loose readings take over from the records that they end up in.

A sheet's visit, readings and results are those of a vehicle and a job without what the book adds,
its readings with their places. What is their own stands in the schema files by hand.
"""

from __future__ import annotations

import json

from builder.declared_files.json_text import json_text
from builder.declaring import schema_of
from builder.declaring.schema import Schema
from builder.model.job import BayNote, Result, StepTick
from builder.model.old_note import OldNote
from builder.model.plugs import Reading, Session


def sheet_file(text: str) -> str:
    """Return the schema of a bay sheet with the keys of a visit, a result, a note and a tick."""
    schema = json.loads(text)
    keys = schema["properties"]
    keys["session"] = _lent(keys["session"], schema_of(Session), "id")
    for key, declared in (("results", Result), ("notes", BayNote), ("ticked", StepTick)):
        keys[key]["items"] = _lent(keys[key]["items"], schema_of(declared), "by", "date")
    keys["old_notes"]["items"] = _lent(keys["old_notes"]["items"], schema_of(OldNote))
    return json_text(schema)


def lend_readings(shared: dict[str, Schema]) -> None:
    """Give the readings of a sheet and of an unknown wire the keys of a declared reading."""
    reading, loose = schema_of(Reading, defs=""), shared["loose_reading"]
    against = loose["properties"]["against"]  # with no visit, it is said otherwise when left out
    shared["placed_reading"] = _lent(shared["placed_reading"], reading, "session")
    shared["loose_reading"] = _lent(loose, reading, "session")
    shared["loose_reading"]["properties"]["against"] = against
    # What holds between the keys of any of them stands once.
    rules = {"allOf": reading["allOf"]}
    shared["reading_rules"] = {"$comment": "What holds between the keys of a reading.", **rules}
    for name in ("reading", "placed_reading", "loose_reading"):
        own = [rule for rule in shared[name]["allOf"] if rule not in reading["allOf"]]
        shared[name]["allOf"] = [*own, {"$ref": "#/$defs/reading_rules"}]


def _lent(by_hand: Schema, declared: Schema, *left_out: str) -> Schema:
    """A part with the keys and conditions of a declared one behind those of its own."""
    lent = {key: said for key, said in declared["properties"].items() if key not in left_out}
    own = {key: said for key, said in by_hand["properties"].items() if key not in lent}
    required = [key for key in by_hand["required"] if key in own]
    rules = [rule for rule in by_hand.get("allOf", ()) if _asks(rule.get("if", {})) & own.keys()]
    rules += declared.get("allOf", ())
    return {
        **by_hand,
        "required": required + [key for key in declared["required"] if key not in left_out],
        "properties": {**own, **lent},
        **({"allOf": rules} if rules else {}),
    }


def _asks(test: Schema) -> set[str]:
    """The keys that a condition looks at."""
    return {*test.get("properties", ()), *test.get("required", ()), *_none_of(test)}


def _none_of(test: Schema) -> list[str]:
    keys: list[str] = test.get("not", {}).get("required", [])
    return keys
