"""What to say of a value of the wrong type, and what was probably meant by it."""

from __future__ import annotations

import re
from typing import Any

from builder.findings import Fix
from builder.model.said.units import OPEN, OPEN_WORDS
from builder.model.words import SchemaKind
from builder.schema_check.key_wording import Words, name_of, to_read
from builder.schema_check.meant import colours_meant, figure_meant
from builder.schema_check.schemas import Schema, resolve
from builder.schema_check.violations import Violation
from builder.schema_check.yaml_words import listed, quoted, typed
from builder.speller import nearest, surely

_EXPECTED = {
    "object": "keys with values",
    "array": "a list",
    "string": "text",
    "integer": "a whole number",
    "number": "a number",
}
_FEW_WORDS = 6


def wrong_type(kind: SchemaKind, violation: Violation, schema: Schema) -> Words:
    """A value of another type than the schema asks for."""
    expected = listed([*_expected_types(schema), *_extra_words(schema)])
    message = f"{name_of(violation.path, kind)} is {_found(violation.value)}; expected {expected}"
    return Words(message, *_type_help(violation, schema))


def _expected_types(schema: Schema) -> list[str]:
    words = schema.get("enum", [])
    if 0 < len(words) <= _FEW_WORDS:
        return [typed(word) for word in words]
    types = schema.get("type", [])
    types = [types] if isinstance(types, str) else types
    only_words = "then" in schema
    return [_EXPECTED[name] for name in types if not (name == "string" and only_words)]


def _extra_words(schema: Schema) -> list[str]:
    return [f"the word {word}" for word in schema.get("then", {}).get("enum", [])]


def _found(value: Any) -> str:
    if isinstance(value, dict):
        return "keys with values"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, str):
        return f"the text {quoted(value)}"
    return f"{'a truth value' if isinstance(value, bool) else 'the number'} {quoted(value)}"


def _type_help(violation: Violation, schema: Schema) -> tuple[str, Fix | None]:
    types, value = schema.get("type", []), violation.value
    types = [types] if isinstance(types, str) else types
    if isinstance(value, str) and ("number" in types or "integer" in types):
        figure = _figure_help(violation, schema)
        if figure is not None:
            return figure
    if isinstance(value, bool) and "string" in types:
        return _truth_help(violation, schema, "yes" if value else "no")
    if isinstance(value, int | float) and not isinstance(value, bool) and "string" in types:
        # As it is written in the file: 1e3 is not to become 1000.0.
        shown = f': "{value}"' if isinstance(value, int) else ", as it is written"
        return f"put it in quotes{shown}.", Fix("quote", violation.path)
    if "array" in types and not isinstance(value, dict):
        return f"put it in brackets: [{typed(value)}].", _bracketed(violation, schema)
    if isinstance(value, str) and "base" in schema.get("properties", {}):
        return _wire_help(violation, schema)
    return _word_help(violation, schema)


def _word_help(violation: Violation, schema: Schema) -> tuple[str, Fix | None]:
    """The word that stands for a value: a meter's own sign for open, or one nearly typed."""
    value, words = violation.value, schema.get("then", {}).get("enum", [])
    if OPEN in words and str(value).strip().lower() in OPEN_WORDS:
        return _typed_help(violation, OPEN, "")
    near, sure = nearest(value, words), surely(value, words)
    fix = Fix("write", violation.path, sure) if sure else None
    return (f"did you mean {near}?" if near else f"{shown_example(schema)}."), fix


def _truth_help(violation: Violation, schema: Schema, word: str) -> tuple[str, Fix | None]:
    if word in schema.get("enum", []):
        return _typed_help(violation, word, "")
    return "put it in quotes, as it is written.", Fix("quote", violation.path)


def _typed_help(violation: Violation, text: str, why: str) -> tuple[str, Fix]:
    return f"type {text}{why}.", Fix("write", violation.path, text)


def _figure_help(violation: Violation, schema: Schema) -> tuple[str, Fix | None] | None:
    """A number with its unit or a decimal comma; None when the text is no figure."""
    figure = figure_meant(violation.value, schema.get("unit", ""))
    if figure is None:
        return None
    if figure.sure:
        return _typed_help(violation, figure.text, ": a point, no quotes, no unit")
    return f"type {figure.text} if that is meant: {figure.doubt}.", None


def _bracketed(violation: Violation, schema: Schema) -> Fix | None:
    word = violation.value
    if not isinstance(word, str) or not re.fullmatch(r"[A-Za-z][A-Za-z0-9_ -]*", word):
        return None
    return Fix("write", violation.path, f"[{typed(violation.value)}]")


def _wire_help(violation: Violation, schema: Schema) -> tuple[str, Fix | None]:
    """Colours in the place of a wire: base, and stripe when there are two."""
    legal = resolve(schema["properties"]["base"]).get("enum", [])
    colours = colours_meant(violation.value, legal)
    if colours is None:
        return f"{shown_example(schema)}.", None
    base, stripe = colours
    text = f"{{base: {base}, stripe: {stripe}}}" if stripe else f"{{base: {base}}}"
    return _typed_help(violation, text, "")


def shown_example(schema: Schema) -> str:
    """The help that shows what to type; a figure is asked for, never shown."""
    asked = to_read(schema)
    return f"type {asked}" if asked else f"for example {example_of(schema)}"


def example_of(schema: Schema) -> str:
    """What to type: the first example of a schema, or what is to be read; "" when it has none."""
    examples = schema.get("examples", [])
    return to_read(schema) or (typed(examples[0]) if examples else "")
