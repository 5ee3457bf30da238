"""The schema files of the kinds whose keys are declared."""

from __future__ import annotations

import json

from builder.declared_files.json_text import json_text
from builder.declaring import schema_of
from builder.model.house_defaults import HouseDefaults
from builder.model.kinds import DECLARED
from builder.model.words import RecordKind

_ADDRESS = "https://loombook.example/schema/{}.schema.json"


def schema_file(kind: RecordKind) -> str:
    """Return the text of `schema/<kind>.schema.json`."""
    cls = DECLARED[kind]
    head = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": _ADDRESS.format(kind),
        "title": cls.__name__,
    }
    return json_text(head | schema_of(cls))


def book_file(text: str) -> str:
    """Return the schema of a book's settings, its house defaults as they are declared.

    The other settings stand in the file by hand.
    """
    schema = json.loads(text)
    defaults = schema_of(HouseDefaults)
    del defaults["minProperties"]  # a book may list none of them
    before = schema["properties"]["house_defaults"]
    schema["properties"]["house_defaults"] = defaults | {"examples": before["examples"]}
    return json_text(schema)
