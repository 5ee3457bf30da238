"""The shape of one record: nothing for a valid one, else one finding for each fault."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from builder.findings import DataPath, Finding, Severity, value_at
from builder.model.words import SchemaKind
from builder.schema_check import key_wording, type_wording, value_wording
from builder.schema_check.catalogue import SLUGS
from builder.schema_check.key_wording import Words
from builder.schema_check.meant import unit_of_quantity
from builder.schema_check.schemas import VALUE, Schema, schema_at, validator
from builder.schema_check.single_faults import ShapeFault, single_faults
from builder.schema_check.violations import Keyword, Violation, find_violations
from builder.source_map import SourceMap

_ValueWording = Callable[[SchemaKind, Violation, Schema], Words]

MOST_FINDINGS = 100
"""Of one file; a person mends the first of them and checks again."""

_FOR_KEYWORD: dict[Keyword, tuple[str, _ValueWording]] = {
    "type": ("SCH103", type_wording.wrong_type),
    "enum": ("SCH104", value_wording.not_in_list),
    "minimum": ("SCH105", value_wording.out_of_range),
    "exclusiveMinimum": ("SCH105", value_wording.out_of_range),
    "maximum": ("SCH105", value_wording.out_of_range),
    "pattern": ("SCH106", value_wording.wrong_form),
    "not": ("SCH106", value_wording.wrong_form),
    "format": ("SCH106", value_wording.wrong_form),
    "minLength": ("SCH111", value_wording.wrong_length),
    "maxLength": ("SCH111", value_wording.wrong_length),
    "minItems": ("SCH112", value_wording.wrong_count),
    "maxItems": ("SCH112", value_wording.wrong_count),
    "minProperties": ("SCH112", value_wording.wrong_count),
}


def check_shape(kind: SchemaKind, data: Any, source_map: SourceMap, file: str) -> list[Finding]:
    """Return what is wrong with the shape of a record, in the order of its lines.

    Args:
        kind: One of `KINDS`.
        data: The record as plain data, as the loader gives it.
        source_map: Where its keys and values stand.
        file: The file's name as findings show it.
    Raises:
        ValueError: there is no such kind.
    """
    check = validator(kind)
    if check.is_valid(data):
        return []
    found, more, at_least = find_violations(kind, check, data)
    faults = single_faults(kind, found)
    findings = [_finding(kind, fault, data, source_map, file) for fault in faults]
    findings = sorted(findings, key=Finding.sort_key)
    left_out = max(0, len(findings) - MOST_FINDINGS) + more
    shown = findings[:MOST_FINDINGS]
    rest = f"{'at least ' if at_least else ''}{left_out}"
    return [*shown, _count_of_rest(shown[-1], rest)] if left_out else shown


def _count_of_rest(last: Finding, count: str) -> Finding:
    """How much is not told: it stands at the last finding, so that it is read last."""
    return replace(
        last,
        rule_id="SCH115",
        slug=SLUGS["SCH115"],
        message=f"and {count} more: of this file only the first faults are told",
        help="mend the faults above and run the check again.",
        path=(),
        fix=None,
    )


def _finding(
    kind: SchemaKind, fault: ShapeFault, data: Any, source_map: SourceMap, file: str
) -> Finding:
    rule_id, words, path, at_key = _explain(kind, fault, data)
    place = source_map.key_position(path) if at_key else source_map.value_position(path)
    return Finding(
        file,
        place.line,
        place.column,
        Severity.STOP,
        rule_id,
        SLUGS[rule_id],
        words.message,
        words.help,
        path,
        fix=words.fix,
    )


def _explain(kind: SchemaKind, fault: ShapeFault, data: Any) -> tuple[str, Words, DataPath, bool]:
    """The id, the words, the path, and whether the place is the key's or the value's."""
    violation = fault.violation
    path = violation.path
    if violation.condition is not None:
        return _explain_condition(kind, fault, data)
    if violation.keyword == "unknown":
        return "SCH101", key_wording.unknown_key(kind, fault, data), path, True
    if violation.keyword == "required":
        return "SCH102", key_wording.missing_key(kind, fault), path[:-1], True
    return _explain_value(kind, violation, data)


def _explain_condition(
    kind: SchemaKind, fault: ShapeFault, data: Any
) -> tuple[str, Words, DataPath, bool]:
    refused = [v.path for v in fault.together if v.keyword == "falseSchema"]
    if refused:
        path = key_wording.in_file_order(refused, data)[0]
        return "SCH107", key_wording.not_allowed_here(kind, fault, data), path, True
    first = fault.violation
    if first.keyword == "required":
        return "SCH108", key_wording.needed_here(kind, fault), first.path[:-1], True
    return "SCH109", value_wording.wrong_here(kind, first), first.path, False


def _explain_value(
    kind: SchemaKind, violation: Violation, data: Any
) -> tuple[str, Words, DataPath, bool]:
    path, schema = violation.path, schema_at(kind, violation.path)
    if _is_empty(violation.value):
        # Nothing stands there to point at, so the key is the place.
        return "SCH110", value_wording.empty_value(kind, violation, schema), path, True
    if violation.keyword == "uniqueItems":
        index = _repeated_index(violation.value)
        words = value_wording.repeated_item(kind, violation, index)
        return "SCH113", words, (*path, index), False
    if path == ("schema",) and violation.keyword == "enum":
        return "SCH114", value_wording.wrong_version(violation), path, False
    keyword = violation.keyword
    if keyword == "enum" and isinstance(schema.get("type"), list):
        keyword, schema = (
            "type",
            _with_unit(schema, path, data),
        )  # a number, or one of few words: no list to look things up in
    rule_id, wording = _FOR_KEYWORD[keyword]
    return rule_id, wording(kind, violation, schema), path, False


def _with_unit(schema: Schema, path: DataPath, data: Any) -> Schema:
    """A reading's value has the unit of the quantity beside it."""
    if path[-1] != VALUE:
        return schema
    return {**schema, "unit": unit_of_quantity(value_at(data, path[:-1]).get("quantity"))}


def _is_empty(value: Any) -> bool:
    return value is None or (isinstance(value, str) and not value.strip())


def _repeated_index(items: list[Any]) -> int:
    """The first item that stands before too; alike are those that are written alike."""
    seen: set[str] = set()
    for index, key in enumerate(map(repr, items)):
        if key in seen:
            return index
        seen.add(key)
    return next(index for index, item in enumerate(items) if item in items[:index])
