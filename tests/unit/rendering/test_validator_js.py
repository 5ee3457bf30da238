"""The generated validator: what it refuses to be made of, and what it is made of."""

from __future__ import annotations

import json
from typing import Any

import pytest

from builder.pipeline.site.reference_pages import schemas
from builder.rendering.validator_js import UnknownKeywordError, validator_script

DEFS: dict[str, Any] = {"$defs": {"word": {"type": "string", "maxLength": 5}}}


def script(schema: dict[str, Any]) -> str:
    return validator_script({"thing": schema, "defs": DEFS}, ["thing"])


@pytest.mark.parametrize(
    ("schema", "said"),
    [
        ({"oneOf": [{"type": "string"}]}, "oneOf"),
        ({"properties": {"a": {"const": 3}}}, "const"),
        ({"type": "text"}, "no type"),
        ({"type": ["string", "file"]}, "no type"),
        ({"format": "email"}, "email"),
        ({"pattern": r"^\d+$"}, "different things"),
        ({"pattern": r"\bword"}, "different things"),
        ({"enum": [["a"]]}, "compared"),
        ({"additionalProperties": {"type": "string"}}, "only false"),
        ({"$ref": "other.schema.json#/$defs/word"}, "leads elsewhere"),
        ({"$ref": "#/properties/a"}, "leads elsewhere"),
        ({"items": True}, "schema is expected"),
        ({"allOf": [{"if": {"type": "string"}, "then": {"prefixItems": []}}]}, "prefixItems"),
        ({"not": {"anyOf": []}}, "anyOf"),
    ],
)
def test_what_is_not_known_is_refused_and_named(schema: dict[str, Any], said: str) -> None:
    with pytest.raises(UnknownKeywordError, match=said):
        script(schema)


def test_a_fault_deep_in_the_shared_definitions_is_found_too() -> None:
    defs = {"$defs": {"word": {"type": "string", "contentEncoding": "base64"}}}
    with pytest.raises(UnknownKeywordError, match="contentEncoding"):
        validator_script({"thing": {"items": {"$ref": "#/$defs/word"}}, "defs": defs}, ["thing"])


def test_equal_parts_are_one_function_whatever_is_said_about_them() -> None:
    one = {"type": "string", "description": "one", "examples": ["a"]}
    other = {"type": "string", "description": "other", "unit": "V"}
    text = script({"properties": {"a": one, "b": other}})
    assert text.count("function s") == 2


def test_the_script_holds_functions_and_no_text_that_becomes_code() -> None:
    text = validator_script(schemas(), ("vehicle", "housing"))
    assert "eval" not in text
    assert "Function(" not in text
    assert '"vehicle":' in text
    assert '"housing":' in text


def test_text_of_a_schema_cannot_end_its_string() -> None:
    key = 'a"; alert(1); "'
    assert json.dumps(key) in script({"required": [key]})
