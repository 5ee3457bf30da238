"""What to say of keys: too many, missing, or in a place where they mean nothing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final, NamedTuple

from builder.findings import DataPath, Fix, value_at
from builder.model.words import UNKNOWN, SchemaKind
from builder.schema_check.schemas import Schema, places_of_key, schema_at
from builder.schema_check.single_faults import ShapeFault
from builder.schema_check.violations import Violation
from builder.schema_check.yaml_words import listed, quoted, typed
from builder.speller import nearest, surely

_LONGEST_EXAMPLE = 80


class Words(NamedTuple):
    """What is wrong, what to type, and the fix when nobody needs to be asked."""

    message: str
    help: str
    fix: Fix | None = None


def unknown_key(kind: SchemaKind, fault: ShapeFault, data: Any) -> Words:
    """A key that the schema does not know in this place."""
    *place, key = fault.violation.path
    comma = _decimal_comma(value_at(data, tuple(place)), str(key))
    if comma is not None:
        return comma
    colon = _missing_space(kind, tuple(place), value_at(data, tuple(place)), str(key))
    if colon is not None:
        return colon
    message = f"key {quoted(key)} is not known in {name_of(tuple(place), kind)}"
    if fault.meant is not None and not _belongs_elsewhere(kind, str(key), fault.meant):
        fix = _rename(fault.violation.path, fault.meant, kind, data)
        return Words(message, f"did you mean {quoted(fault.meant)}?", fix)
    elsewhere = _nearest_place(kind, str(key), tuple(place))
    if elsewhere is not None:
        return Words(message, f"{quoted(key)} belongs {elsewhere}.")
    present = value_at(data, tuple(place))
    legal = schema_at(kind, tuple(place)).get("properties", {})
    free = [name for name in legal if name not in present]
    return Words(message, f"delete it, or use one of: {', '.join(free)}." if free else "delete it.")


def _decimal_comma(present: dict[str, Any], key: str) -> Words | None:
    """`value: 0,01` in braces is read as the value 0 and an empty key 01."""
    if not key.isdecimal() or present[key] is not None:
        return None  # asked first: a file may have a hundred thousand other keys
    keys = list(present)
    before = keys[keys.index(key) - 1] if key in keys[1:] else None
    whole = present[before] if before is not None else None
    if type(whole) is not int:
        return None
    number, written = f"{whole}.{key}", quoted(f"{whole},{key}")
    message = f"{written} is read as a number and a key, because of its comma"
    if whole and len(key) == 3:
        return Words(message, f"type {number} if it is a decimal comma, {whole}{key} if not.")
    fix = Fix("retype", text=number, written=key, before=f"{whole},")
    return Words(message, f"type {number}: a decimal point.", fix)


def _missing_space(
    kind: SchemaKind, place: DataPath, present: dict[str, Any], key: str
) -> Words | None:
    """`draw_ma:8` or `draw_ma 8` in braces is read as one key with nothing behind it."""
    found = re.fullmatch(r"(\w+)(?: ?:| )(\S.*)", key)
    if found is None or present[key] is not None:
        return None
    name, value = found[1], found[2]
    if name in present or name not in schema_at(kind, place).get("properties", {}):
        return None
    text = f"{name}: {value}"
    return Words(
        f"{quoted(key)} is read as one key without a value",
        f"type {text}: a colon, and a space behind it.",
        Fix("retype", text=text, written=key),
    )


def _rename(path: DataPath, meant: str, kind: SchemaKind, data: Any) -> Fix | None:
    """The right spelling of a key, when it is a mere slip and the right one is not there yet."""
    present = value_at(data, path[:-1])
    legal = schema_at(kind, path[:-1]).get("properties", {})
    free = [name for name in legal if name not in present]
    # A key with nothing behind it holds its value as well: renaming it would lose that.
    if present[path[-1]] is None or not re.fullmatch(r"[\w -]+", str(path[-1])):
        return None
    return Fix("rename_key", path, meant) if surely(path[-1], free) == meant else None


def missing_key(kind: SchemaKind, fault: ShapeFault) -> Words:
    """A key that every record of the kind has."""
    *place, key = fault.violation.path
    message = f"key {quoted(key)} is missing in {name_of(tuple(place), kind)}"
    schema = schema_at(kind, fault.violation.path)
    legal = schema.get("enum", ())
    # A key that has one legal value, such as the number of the record format, means that value.
    fix = Fix("add_key", fault.violation.path, typed(legal[0])) if len(legal) == 1 else None
    return Words(message, f"add {example_line(str(key), schema)}", fix)


def needed_here(kind: SchemaKind, fault: ShapeFault) -> Words:
    """Keys that other values of the same object ask for."""
    paths = [violation.path for violation in fault.together]
    keys = [quoted(path[-1]) for path in paths]
    are = "is" if len(keys) == 1 else "are"
    lines = [example_line(str(path[-1]), schema_at(kind, path), dot=False) for path in paths]
    message = f"{listed(keys, 'and')} {are} needed here: {because(fault.violation)}"
    return Words(message, f"add {' and '.join(lines)}.")


def not_allowed_here(kind: SchemaKind, fault: ShapeFault, data: Any) -> Words:
    """Keys that mean nothing beside the other values of the same object.

    They are named in the order of the file, and missing ones in that of the schema, whatever
    order the validator found them in.
    """
    refused = in_file_order([v.path for v in fault.together if v.keyword == "falseSchema"], data)
    missing = [v.path[-1] for v in fault.together if v.keyword == "required"]
    keys = listed([quoted(path[-1]) for path in refused], "and")
    are = "is" if len(refused) == 1 else "are"
    help_text = f"delete {keys}"
    if missing:
        known = list(schema_at(kind, refused[0][:-1]).get("properties", {}))
        missing.sort(key=known.index)
        help_text += f" and add {listed([quoted(key) for key in missing], 'and')}"
    condition = fault.violation.condition
    if condition is not None:
        watched = listed([quoted(key) for key in sorted(condition.watches)])
        help_text += f", or correct {watched}"
    return Words(f"{keys} {are} not allowed here: {because(fault.violation)}", help_text + ".")


def in_file_order(paths: list[DataPath], data: Any) -> list[DataPath]:
    """Several keys of one object in the order in which they stand in the record."""
    order = list(value_at(data, paths[0][:-1]))
    return sorted(paths, key=lambda path: order.index(path[-1]))


_WHOLE: Final[Mapping[SchemaKind, str]] = {
    "book": "the settings of a book",
    "lock": "the list of borrowed books",
}


def name_of(path: DataPath, kind: SchemaKind) -> str:
    """A place as a person names it: `"wire"`, `item 2 of "pins"`, `a vehicle record`."""
    if not path:
        return _WHOLE.get(kind) or f"{_article(kind)} record"
    if isinstance(path[-1], str):
        return quoted(path[-1])
    return f"item {path[-1] + 1} of {name_of(path[:-1], kind)}"


def example_line(key: str, schema: Schema, dot: bool = True) -> str:
    """What a key looks like in a record, with what it means."""
    left_open = _left_open(schema)
    asked = left_open or to_read(schema)
    examples = [asked] if asked else [typed(example) for example in schema.get("examples", [])]
    short = next((text for text in examples if len(text) <= _LONGEST_EXAMPLE), None)
    line = f"{key}: {short}" if short is not None else f"{key}:"
    line += ", or what you found" if left_open else ""
    meaning = str(schema.get("description", "")).rstrip(".")
    line = f"{line}  ({meaning})" if meaning else line
    return line + "." if dot else line


def _left_open(schema: Schema) -> str:
    """How a key says that nobody looked, "" where it cannot: an example would be typed for a fact.

    A list of what can hurt takes that word among its entries; its own description says so.
    """
    if UNKNOWN in schema.get("enum", ()):
        return UNKNOWN
    listed_so = f"[{UNKNOWN}]" in schema.get("description", "")
    return f"[{UNKNOWN}]" if listed_so and {"array"}.intersection(_types(schema)) else ""


def to_read(schema: Schema) -> str:
    """What stands in the place of a figure that somebody reads or measures, "" for any other key.

    Somebody would copy a plausible figure; this is no number and is refused when it is left in.
    """
    if not {"number", "integer"}.intersection(_types(schema)):
        return ""
    shown = any(isinstance(one, int | float) for one in schema.get("examples", []))
    if not schema.get("unit"):
        return "" if shown else "<what was read>"
    return f"<what was read, in {schema['unit']}>"


def _types(schema: Schema) -> list[str]:
    said = schema.get("type", [])
    return [said] if isinstance(said, str) else list(said)


def because(violation: Violation) -> str:
    """The schema's own sentence for the condition, ready to stand behind a colon."""
    condition = violation.condition
    sentence = condition.because.rstrip(".") if condition is not None else ""
    return sentence[:1].lower() + sentence[1:]


def _belongs_elsewhere(kind: SchemaKind, key: str, meant: str) -> bool:
    """Whether the key is a real one of another place and no mere misspelling of `meant`."""
    return bool(places_of_key(kind, key)) and nearest(key, [meant]) is None


def _nearest_place(kind: SchemaKind, key: str, place: DataPath) -> str | None:
    here = [step for step in place if isinstance(step, str)]
    places = sorted(places_of_key(kind, key), key=lambda at: -_shared(list(at), here))
    if not places:
        return None
    return f"under {quoted(places[0][-1])}" if places[0] else "at the top of the record"


def _shared(one: list[str], other: list[str]) -> int:
    return sum(a == b for a, b in zip(one, other, strict=False))


def _article(kind: SchemaKind) -> str:
    return f"an {kind}" if kind[0] in "aeiou" else f"a {kind}"
