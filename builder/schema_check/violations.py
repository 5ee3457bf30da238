"""What the validator found, with the condition of the schema that asked for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final, Literal, NamedTuple, cast

import jsonschema_rs

from builder.findings import DataPath, value_at
from builder.model.words import SchemaKind
from builder.schema_check.schemas import Schema, read_schema, resolve

MOST_VIOLATIONS = 300
"""The explanation of a file stops here; nobody reads on. The rest is counted."""
FIRST_ITEMS = 1000
"""So many items of a list are looked at first. The validator words every fault that it finds, at
once: a list of 30,000 faulty items took half a minute of which nobody saw the end."""

Keyword = Literal[
    "unknown",
    "required",
    "type",
    "enum",
    "minimum",
    "exclusiveMinimum",
    "maximum",
    "pattern",
    "not",
    "format",
    "minLength",
    "maxLength",
    "minItems",
    "maxItems",
    "minProperties",
    "uniqueItems",
    "falseSchema",
]
"""The keywords of a schema that a value can break, as the validator calls them; "unknown" stands
for a key that is too many."""
_TOO_MANY: Final = "additionalProperties"
_BRANCHES = ("then", "else")
_INWARD = ("properties", "items")
_NAMED = ("properties", "allOf")


@dataclass(frozen=True, slots=True)
class Condition:
    """An if/then of a schema that applied to the object at `at`.

    `watches` are the keys of that object which the condition looks at, `because` the
    schema's own sentence for it.
    """

    at: DataPath
    because: str
    watches: frozenset[str]


@dataclass(frozen=True, slots=True)
class Violation:
    """One broken keyword.

    `path` is the place of the value; for "unknown" and "required" that of the key that is
    too many or missing. `limit` is what the keyword asks for.
    """

    keyword: Keyword
    path: DataPath
    value: Any
    limit: Any
    condition: Condition | None


class Violations(NamedTuple):
    """What is wrong with a record's shape: the first of it, and how much more there is.

    With `at_least` the end of a long list has not been looked at.
    """

    found: list[Violation]
    more: int
    at_least: bool = False


def find_violations(
    kind: SchemaKind, validator: jsonschema_rs.Draft202012Validator, data: Any
) -> Violations:
    """What the validator has to say, one entry for each key that is too many.

    Of long lists no more is looked at than it takes to find enough.
    """
    longest, items = _longest_list(data), FIRST_ITEMS
    while items < longest:
        looked = _violations_of(kind, validator, _cut(data, items), data)
        if looked.more:
            return looked._replace(at_least=True)
        items += max(FIRST_ITEMS, items // 8)
    return _violations_of(kind, validator, data, data)


def _longest_list(data: Any) -> int:
    inner = data.values() if isinstance(data, dict) else data if isinstance(data, list) else ()
    own = len(data) if isinstance(data, list) else 0
    return max(own, max(map(_longest_list, inner), default=0))


def _cut(data: Any, items: int) -> Any:
    """The same data with the first items of each list."""
    if isinstance(data, dict):
        return {key: _cut(value, items) for key, value in data.items()}
    return [_cut(each, items) for each in data[:items]] if isinstance(data, list) else data


def _violations_of(
    kind: SchemaKind, validator: jsonschema_rs.Draft202012Validator, part: Any, whole: Any
) -> Violations:
    """The violations in a part of the data, with the values of the whole."""
    found: list[Violation] = []
    more = 0
    for error in validator.iter_errors(part):
        most = MOST_VIOLATIONS - len(found)
        if most <= 0:
            more += _count(error)
            continue
        found += _violations(kind, error, whole, most)
        more += max(0, _count(error) - most)
    return Violations(found, more)


def _count(error: jsonschema_rs.ValidationError) -> int:
    if error.kind.name != _TOO_MANY:
        return 1
    return len(error.kind.as_dict()["unexpected"])


def _violations(
    kind: SchemaKind, error: jsonschema_rs.ValidationError, data: Any, most: int
) -> list[Violation]:
    """What one error stands for, of keys that are too many at most so many."""
    path = tuple(error.instance_path)
    keyword, details = cast(Keyword, error.kind.name), error.kind.as_dict()
    condition = _condition(kind, path, error.evaluation_path)
    if error.kind.name == _TOO_MANY:
        return [
            Violation("unknown", (*path, key), None, None, condition)
            for key in details["unexpected"][:most]
        ]
    if keyword == "required":
        missing = (*path, details["property"])
        return [Violation(keyword, missing, None, None, condition)]
    limit = next(iter(details.values()), None)
    return [Violation(keyword, path, value_at(data, path), limit, condition)]


def _condition(kind: SchemaKind, path: DataPath, evaluation: list[str | int]) -> Condition | None:
    """The last if/then on the way to the error that has a `because`."""
    found = None
    schema, depth, index = read_schema(kind), 0, 0
    while index < len(evaluation):
        step = evaluation[index]
        if step in _BRANCHES and "because" in schema:
            found = Condition(path[:depth], schema["because"], _watched(schema["if"]))
        inner, used = _step_into(schema, evaluation[index:])
        if inner is None:
            return found
        depth += step in _INWARD
        schema, index = inner, index + used
    return found


def _step_into(schema: Schema, steps: list[str | int]) -> tuple[Schema | None, int]:
    """The schema one keyword further on, and how many steps of the path that took."""
    keyword = steps[0]
    if keyword == "$ref":
        return resolve({"$ref": schema["$ref"]}), 1
    if keyword in _NAMED and len(steps) > 1:
        inner, used = schema[str(keyword)][steps[1]], 2
    else:
        inner, used = schema.get(str(keyword)), 1
    return (inner, used) if isinstance(inner, dict) else (None, used)


def _watched(condition: Schema) -> frozenset[str]:
    inner = condition.get("not", condition)
    return frozenset(inner.get("properties", ())) | frozenset(inner.get("required", ()))
