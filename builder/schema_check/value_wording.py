"""What to say of values: of the wrong type, not in the list, out of range, in the wrong form."""

from __future__ import annotations

import re
from typing import Any

from builder.schema_check.key_wording import Words, because, name_of
from builder.schema_check.nearest import nearest
from builder.schema_check.schemas import Schema
from builder.schema_check.violations import Violation
from builder.schema_check.yaml_words import listed, quoted, typed

_EXPECTED = {
    "object": "keys with values",
    "array": "a list",
    "string": "text",
    "integer": "a whole number",
    "number": "a number",
}
_FEW_WORDS = 6
_NUMBER_IN_TEXT = re.compile(r"\s*([-+]?[0-9]+(?:[.,][0-9]+)?)\s*[A-Za-zΩ²%°µ]*\s*\Z")


def wrong_type(kind: str, violation: Violation, schema: Schema) -> Words:
    """A value of another type than the schema asks for."""
    expected = listed([*_expected_types(schema), *_extra_words(schema)])
    message = f"{name_of(violation.path, kind)} is {_found(violation.value)}; expected {expected}"
    return Words(message, _type_help(violation, schema))


def not_in_list(kind: str, violation: Violation, schema: Schema) -> Words:
    """A word that is not in the closed list."""
    legal = [str(word) for word in violation.limit]
    message = f"{quoted(violation.value)} is not a word for {name_of(violation.path, kind)}"
    near = nearest(violation.value, legal)
    hint = f"did you mean {near}? " if near else ""
    return Words(message, f"{hint}allowed: {', '.join(legal)}.")


def wrong_version(violation: Violation) -> Words:
    """A record format that this version does not read."""
    return Words(
        f"the record format {quoted(violation.value)} is not one that this version reads",
        f"type schema: {violation.limit[0]}, or use a newer version of the program.",
    )


def out_of_range(kind: str, violation: Violation, schema: Schema) -> Words:
    """A number outside what is physically sane."""
    low = schema.get("minimum", schema.get("exclusiveMinimum"))
    high, unit = schema.get("maximum"), _unit(schema)
    how = "more" if violation.keyword == "maximum" else "less"
    if violation.keyword == "exclusiveMinimum":
        how = "not more"
    limit = f"{typed(violation.limit)}{unit}"
    message = (
        f"{name_of(violation.path, kind)} is {typed(violation.value)}{unit}, {how} than {limit}"
    )
    above = "above " if "exclusiveMinimum" in schema else "from "
    return Words(message, f"type a number {above}{typed(low)} to {typed(high)}{unit}.")


def wrong_form(kind: str, violation: Violation, schema: Schema) -> Words:
    """Text that is not written as the schema asks for."""
    where, value = name_of(violation.path, kind), violation.value
    if violation.keyword == "format":
        return Words(f"{where} is {quoted(value)}, which is no day of the calendar", _form(schema))
    if "formMeaning" not in schema:
        return Words(f"{where} goes over more than one line", "write it on one line.")
    message = f"{where} is {quoted(value)}; it should be {schema['formMeaning']}"
    mended = _mended(str(value), schema)
    return Words(message, f"did you mean {mended}?" if mended else _form(schema))


def empty_value(kind: str, violation: Violation, schema: Schema) -> Words:
    """A key with nothing behind it, or text of spaces only."""
    where = name_of(violation.path, kind)
    example = _example(schema)
    write = f"write a value, for example {example}" if example else "write a value"
    return Words(f"{where} is empty", f"{write}, or delete the line if you have nothing to say.")


def wrong_length(kind: str, violation: Violation, schema: Schema) -> Words:
    """Text that is too long or too short."""
    length, limit = len(violation.value), violation.limit
    long = violation.keyword == "maxLength"
    message = (
        f"{name_of(violation.path, kind)} has {length} characters, "
        f"{'more' if long else 'less'} than {limit}"
    )
    return Words(message, "shorten it." if long else f"say more, for example {_example(schema)}.")


def wrong_count(kind: str, violation: Violation, schema: Schema) -> Words:
    """A list with too many or too few entries."""
    many = violation.keyword.startswith("max")
    where, limit = name_of(violation.path, kind), violation.limit
    message = (
        f"{where} has {len(violation.value)} entries, {'more' if many else 'less'} than {limit}"
    )
    if many:
        return Words(message, "shorten the list.")
    return Words(message, f"write at least {limit}, for example {_example(schema)}.")


def repeated_item(kind: str, violation: Violation, index: int) -> Words:
    """An entry that stands in a list twice."""
    value = quoted(violation.value[index])
    return Words(f"{value} stands twice in {name_of(violation.path, kind)}", "keep one of the two.")


def wrong_here(kind: str, violation: Violation) -> Words:
    """A value that is legal elsewhere but not beside the other values of the same object."""
    condition = violation.condition
    message = f"{name_of(violation.path, kind)} is {quoted(violation.value)}: {because(violation)}"
    if violation.keyword == "enum":
        allowed = [typed(word) for word in violation.limit]
        return Words(message, f"allowed here: {', '.join(allowed)}.")
    watched = condition.watches if condition is not None else frozenset()
    others = listed([quoted(key) for key in sorted(watched)])
    return Words(message, f"correct {quoted(violation.path[-1])}, or correct {others}.")


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


def _type_help(violation: Violation, schema: Schema) -> str:
    types, value = schema.get("type", []), violation.value
    number = _NUMBER_IN_TEXT.match(value) if isinstance(value, str) else None
    if number and ("number" in types or "integer" in types):
        return f"type {number[1].replace(',', '.')}: a point, no quotes, no unit."
    if isinstance(value, bool) and "string" in types:
        return f"type {'yes' if value else 'no'}."
    if isinstance(value, int | float) and not isinstance(value, bool) and "string" in types:
        return f'put it in quotes: "{typed(value)}".'
    if "array" in types and not isinstance(value, dict):
        return f"put it in brackets: [{typed(value)}]."
    near = nearest(value, schema.get("then", {}).get("enum", []))
    return f"did you mean {near}?" if near else f"for example {_example(schema)}."


def _form(schema: Schema) -> str:
    example = _example(schema)
    return f"for example {example}." if example else f"type {schema['formMeaning']}."


def _example(schema: Schema) -> str:
    examples = schema.get("examples", [])
    return typed(examples[0]) if examples else ""


def _mended(value: str, schema: Schema) -> str | None:
    """The value written as asked for, when small letters and hyphens are all it takes."""
    words = re.findall(r"[a-z0-9]+", value.lower())
    mended = "-".join(words)
    return mended if words and re.fullmatch(schema["pattern"], mended) else None


def _unit(schema: Schema) -> str:
    unit = schema.get("unit")
    return f" {unit}" if unit and unit != "year" else ""
