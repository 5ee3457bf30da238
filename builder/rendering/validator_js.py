"""A validator in JavaScript, generated from the same JSON Schema files that `check` uses.

The pages forbid text to be turned into code at run time, so the functions are written at build
time: one for each part of a schema, each a row of calls into the hand-written keywords of
`record-maker-shape.js`. Only the keywords of JSON Schema 2020-12 that the project's schemas use
are known; any other is refused at build time instead of being passed over on the page.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from builder.schema_check.schemas import SHARED

Schema = dict[str, Any]

SAYS_NOTHING = frozenset(
    {
        *("$schema", "$id", "$defs", "$comment", "title", "description", "examples", "unit"),
        *("wordMeanings", "formMeaning", "because"),
    }
)
"""Keywords that explain and forbid nothing; `because` is read where a condition is written."""
_PLAIN = frozenset(
    {
        *("minimum", "maximum", "exclusiveMinimum", "minLength", "maxLength"),
        *("minItems", "maxItems", "minProperties"),
    }
)
_TYPES = frozenset({"object", "array", "string", "number", "integer", "boolean", "null"})
# Both engines read these alike; classes such as \d mean other letters in each of them.
_SAME_ESCAPES = re.compile(r"(?:[^\\]|\\[.nrt])*\Z")


_BRANCHES = ("then", "else")


class UnknownKeywordError(ValueError):
    """A schema says something that the generator does not know how to check."""


def validator_script(schemas: Mapping[str, Schema], kinds: Sequence[str]) -> str:
    """Return a script that defines a function for each kind on `window.loombookShape`.

    Args:
        schemas: The schemas of the kinds, and the shared definitions as "defs".
        kinds: The kinds that the page checks.
    Raises:
        UnknownKeywordError: a schema uses a keyword, type, format or pattern not known here.
    """
    writer = _Writer(schemas)
    names = {kind: writer.function(schemas[kind], kind) for kind in kinds}
    given = ",".join(f"{json.dumps(kind)}:{name}" for kind, name in names.items())
    body = "\n".join(writer.lines)
    return (
        f'(function(k){{"use strict";\n{body}\nk.define({{{given}}});\n}})(window.loombookShape);\n'
    )


class _Writer:
    """Writes a function for each part of the schemas, the same part once."""

    def __init__(self, schemas: Mapping[str, Schema]) -> None:
        self.lines: list[str] = []
        self._schemas = schemas
        self._names: dict[str, str] = {}

    def function(self, schema: Schema, where: str) -> str:
        """Return the name of the function for a schema; `where` names it in errors."""
        schema = _what_forbids(schema)
        key = json.dumps(schema, sort_keys=True)
        if key not in self._names:
            calls = [call for word in schema for call in self._calls(schema, word, where)]
            self._names[key] = name = f"s{len(self._names)}"
            body = "".join(f"k.{call};" for call in calls)
            self.lines.append(f"function {name}(v,p,o,c){{{body}}}")
        return self._names[key]

    def _calls(self, schema: Schema, word: str, where: str) -> list[str]:
        value = schema[word]
        if word in SAYS_NOTHING or word in _BRANCHES:
            return []
        if word in _PLAIN:
            return [_call(word, json.dumps(value))]
        if word not in _WRITERS:
            raise UnknownKeywordError(f"{where}: the keyword {word!r} is not known")
        return _WRITERS[word](self, schema, f"{where}.{word}")

    def type_(self, schema: Schema, where: str) -> list[str]:
        named = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
        if not _TYPES.issuperset(named):
            raise UnknownKeywordError(f"{where}: {named} is no type")
        return [_call("type", json.dumps(named))]

    def enum(self, schema: Schema, where: str) -> list[str]:
        if not all(isinstance(word, str | int) for word in schema["enum"]):
            raise UnknownKeywordError(f"{where}: only words and whole numbers are compared")
        return [_call("enum", json.dumps(schema["enum"]))]

    def pattern(self, schema: Schema, where: str) -> list[str]:
        if not _SAME_ESCAPES.match(schema["pattern"]):
            raise UnknownKeywordError(f"{where}: {schema['pattern']!r} means different things")
        return [_call("pattern", f'new RegExp({json.dumps(schema["pattern"])},"u")')]

    def format(self, schema: Schema, where: str) -> list[str]:
        if schema["format"] != "date":
            raise UnknownKeywordError(f"{where}: the format {schema['format']!r} is not known")
        return [_call("date")]

    def unique(self, schema: Schema, where: str) -> list[str]:
        return [_call("uniqueItems")] if schema["uniqueItems"] else []

    def required(self, schema: Schema, where: str) -> list[str]:
        return [_call("required", json.dumps(schema["required"]))]

    def properties(self, schema: Schema, where: str) -> list[str]:
        calls = []
        for key, inner in schema["properties"].items():
            told = json.dumps(key)
            if inner is False:
                calls.append(_call("never", told))
            else:
                calls.append(_call("key", told, self.function(inner, f"{where}.{key}")))
        return calls

    def only(self, schema: Schema, where: str) -> list[str]:
        if schema["additionalProperties"] is not False:
            raise UnknownKeywordError(f"{where}: only false is known")
        return [_call("only", json.dumps(list(schema.get("properties", {}))))]

    def items(self, schema: Schema, where: str) -> list[str]:
        return [_call("each", self.function(schema["items"], where))]

    def all_of(self, schema: Schema, where: str) -> list[str]:
        return [_call("also", self.function(part, where)) for part in schema["allOf"]]

    def not_(self, schema: Schema, where: str) -> list[str]:
        return [_call("not", self.function(schema["not"], where))]

    def if_(self, schema: Schema, where: str) -> list[str]:
        parts = [
            self.function(schema[word], where) if word in schema else "null"
            for word in ("if", "then", "else")
        ]
        said = [schema.get("because"), sorted(_watched(schema["if"]))]
        return [_call("when", *parts, *map(json.dumps, said))]

    def ref(self, schema: Schema, where: str) -> list[str]:
        file, _, name = schema["$ref"].partition("#/$defs/")
        if file not in ("", "defs.schema.json") or not name:
            raise UnknownKeywordError(f"{where}: {schema['$ref']} leads elsewhere")
        return [_call("also", self.function(self._schemas[SHARED]["$defs"][name], name))]


_WRITERS: dict[str, Callable[[_Writer, Schema, str], list[str]]] = {
    "type": _Writer.type_,
    "enum": _Writer.enum,
    "pattern": _Writer.pattern,
    "format": _Writer.format,
    "uniqueItems": _Writer.unique,
    "required": _Writer.required,
    "properties": _Writer.properties,
    "additionalProperties": _Writer.only,
    "items": _Writer.items,
    "allOf": _Writer.all_of,
    "not": _Writer.not_,
    "if": _Writer.if_,
    "$ref": _Writer.ref,
}


def _call(name: str, *arguments: str) -> str:
    return f"{name}({','.join(('v', 'p', 'o', 'c', *arguments))})"


def _what_forbids(schema: Any) -> Schema:
    """The schema without its explanations, so that equal parts become one function."""
    if not isinstance(schema, dict):
        raise UnknownKeywordError(f"{schema!r} stands where a schema is expected")
    kept = SAYS_NOTHING - ({"because"} if "if" in schema else set())
    return {word: value for word, value in schema.items() if word not in kept}


def _watched(condition: Schema) -> set[str]:
    """The keys that a condition looks at."""
    inner = condition.get("not", condition)
    return {*inner.get("properties", ()), *inner.get("required", ())}
