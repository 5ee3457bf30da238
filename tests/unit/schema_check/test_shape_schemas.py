"""The schema files themselves: valid, closed, described, in step with the words of the model."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from dataclasses import fields
from functools import cache
from operator import itemgetter
from typing import Any, Literal, get_args, get_origin

import jsonschema_rs
import pytest
from each_case import each
from jsonschema import Draft202012Validator

from builder.data_files import schema_folder, templates_folder
from builder.model import words
from builder.model.house_defaults import HouseDefaults
from builder.schema_check.key_wording import to_read
from builder.schema_check.schemas import (
    KINDS,
    SHARED,
    read_schema,
    resolve,
    schema_name,
    validator,
)

NAMES = (*KINDS, SHARED)

WORD_LISTS = {
    "tri": words.Tri,
    "face": words.Face,
    "edge": words.Edge,
    "cost": words.Cost,
    "side": words.Side,
    "radio_outputs": words.RadioOutputs,
    "amplifier_feed": words.AmplifierFeed,
    "unit": words.Unit,
    "function": words.Function,
    "channel": words.Channel,
    "leg": words.Leg,
    "band": words.Band,
    "state": words.State,
    "quantity": words.Quantity,
    "load": words.Load,
    "claim_method": words.ClaimMethod,
    "data": words.Origin,
    "driver_seat": words.DriverSeat,
    "treatment": words.Treatment,
}
_CHANNELS = "vehicle/properties/channels/items/properties"
_SESSIONS = "vehicle/properties/sessions/items/properties"
WORDS_IN_PLACE = {
    "housing/properties/seen_from": words.View,
    "book/properties/roots/items/properties/visibility": words.Visibility,
    "data-index/properties/records/items/properties/kind": words.RecordKind,
    "data-file/properties/computed/properties/grades/items/properties/grade": words.GradeBand,
    "vehicle/properties/power/properties/charging/properties/by": words.ChargingBy,
    "job/properties/converter_supply": words.ConverterSupply,
    f"{_CHANNELS}/driven_by": words.DrivenBy,
    "defs/$defs/recorded_sound/properties/made_by": words.MadeBy,
    "defs/$defs/recorded_sound/properties/pairs/items/properties/recorded_on": words.RecordedOn,
    f"{_CHANNELS}/polarity": words.Polarity,
    f"{_CHANNELS}/volume": words.Volume,
    f"{_CHANNELS}/in_line/items": words.InLine,
    f"{_SESSIONS}/method": words.Instrument,
    f"{_SESSIONS}/against": words.Reference,
    "sheet/properties/session/properties/method": words.Instrument,
    "sheet/properties/session/properties/against": words.Reference,
    "job/properties/routes/items/properties/carries": words.Carries,
    "job/properties/supply/properties/fuse_family": words.FuseShape,
    "job/properties/supply/properties/material": words.Material,
    "job/properties/supply/properties/ground_point": words.GroundPoint,
    "job/properties/supply/properties/listening": words.Listening,
}
"""Word lists that stand where they are used, by schema and path, in whatever order."""

Schema = dict[str, Any]


def subschemas(schema: Any, where: str) -> Iterator[tuple[str, Schema]]:
    """Every object of a schema file, with where it stands, what `examples` hold left aside."""
    if isinstance(schema, dict):
        yield where, schema
        for key, inner in schema.items():
            if key not in ("examples", "enum", "wordMeanings"):
                yield from subschemas(inner, f"{where}/{key}")
    elif isinstance(schema, list):
        for index, inner in enumerate(schema):
            yield from subschemas(inner, f"{where}/{index}")


def conditional(where: str) -> bool:
    return any(step in where.split("/") for step in ("if", "then", "else", "not"))


def all_subschemas() -> Iterator[tuple[str, Schema]]:
    for name in NAMES:
        yield from subschemas(read_schema(name), name)


@cache
def properties() -> list[tuple[str, Schema]]:
    """Every property of every schema file, with where it stands."""
    found = []
    for where, schema in all_subschemas():
        if isinstance(schema.get("properties"), dict) and not where.endswith("/properties"):
            if conditional(where):
                continue
            for key, inner in schema["properties"].items():
                found.append((f"{where}/{key}", inner))
    return found


def in_place(schema: Schema) -> Schema:
    """A part of a schema as a schema of its own, its references still resolvable."""
    text = json.dumps(schema).replace('"#/$defs/', '"defs.schema.json#/$defs/')
    inner: Schema = json.loads(text)
    return inner


@pytest.mark.parametrize("name", NAMES)
def test_each_file_is_valid_json_schema(name: str) -> None:
    Draft202012Validator.check_schema(read_schema(name))
    jsonschema_rs.meta.validate(read_schema(name))


@pytest.mark.parametrize("name", NAMES)
def test_each_file_has_its_own_address_for_an_id(name: str) -> None:
    schema = read_schema(name)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert "$id" not in schema  # it would lead references away from the files beside it


def test_no_file_is_forgotten() -> None:
    on_disk = {path.name for path in schema_folder().glob("*.schema.json")}
    # What the command prints has a schema too; it is held against real packs elsewhere.
    assert on_disk == {
        f"{name}.schema.json" for name in (*NAMES, "work-pack", "data-file", "data-index")
    }
    assert templates_folder().is_dir()


def test_every_reference_points_at_a_shared_definition() -> None:
    shared = read_schema(SHARED)["$defs"]
    for where, schema in all_subschemas():
        if "$ref" in schema:
            before, _, name = schema["$ref"].rpartition("#/$defs/")
            assert before == ("" if where.startswith(SHARED) else "defs.schema.json"), where
            assert name in shared, where


def test_every_shared_definition_is_used() -> None:
    used = {schema["$ref"].rpartition("/")[2] for _, schema in all_subschemas() if "$ref" in schema}
    assert used == set(read_schema(SHARED)["$defs"])


@each("placed", properties, ids=itemgetter(0))
def test_every_property_is_described_in_a_sentence(placed: tuple[str, Schema]) -> None:
    _, schema = placed
    assert schema["description"][0].isupper()
    assert schema["description"].endswith(".")


def asks_for_a_figure(schema: Schema) -> bool:
    """Whether it is a figure that somebody reads, or has none to do without: none can be shown."""
    full = resolve(schema)
    if to_read(full):
        return True
    if "items" in full:
        return asks_for_a_figure(full["items"])
    keys = full.get("properties", {})
    must = [keys[key] for key in full.get("required", ())] or list(keys.values())
    return any(map(asks_for_a_figure, must))


@each("placed", properties, ids=itemgetter(0))
def test_every_property_has_examples_that_are_valid(placed: tuple[str, Schema]) -> None:
    _, schema = placed
    shared = read_schema(SHARED)
    registry = jsonschema_rs.Registry([(schema_name(SHARED), shared)])
    check = jsonschema_rs.Draft202012Validator(
        in_place(schema), registry=registry, validate_formats=True
    )
    assert schema.get("examples") or asks_for_a_figure(schema)
    for example in schema.get("examples", ()):
        assert [error.message for error in check.iter_errors(example)] == []


def test_every_object_is_closed() -> None:
    for where, schema in all_subschemas():
        if "object" in schema.get("type", ()) and "type" in schema and not conditional(where):
            assert schema["additionalProperties"] is False, where


def test_every_value_is_bounded() -> None:
    for where, schema in all_subschemas():
        if conditional(where) or "type" not in schema or not isinstance(schema["type"], str | list):
            continue
        full = resolve(schema)
        types = [full["type"]] if isinstance(full["type"], str) else full["type"]
        if "array" in types:
            assert "maxItems" in full, where
        if "string" in types and "enum" not in full and "then" not in full:
            assert "maxLength" in full, where
        if "number" in types and not where.endswith(
            ("number_or_unknown", "reading/properties/value", "old_notes/items/properties/value")
        ):
            assert "maximum" in full, where
            assert "minimum" in full or "exclusiveMinimum" in full, where


def test_units_stand_in_the_description_too() -> None:
    spelled = {
        "V": "volt", "A": "ampere", "mA": "milliampere", "Ω": "ohm", "W": "watt", "Hz": "hertz",
        "min": "minute", "s": "second", "ms": "millisecond", "m": "metre", "mm": "millimetre",
        "dB": "decibel", "Ah": "ampere-hour", "MΩ": "megohm", "mm²": "square millimetre",
    }  # fmt: skip
    for where, schema in all_subschemas():
        unit = schema.get("unit")
        if isinstance(unit, str) and unit in spelled:
            text = schema["description"].lower()
            assert spelled[unit] in text or f"in {unit.lower()}" in text, where


def test_every_word_of_a_list_is_explained() -> None:
    for where, schema in all_subschemas():
        if "enum" in schema and isinstance(schema["enum"], list) and not where.endswith("/if"):
            if "because" in where or "/if/" in where or "/allOf/" in where:
                continue
            if where.endswith("/not"):
                continue
            assert [str(word) for word in schema["enum"]] == list(schema["wordMeanings"]), where
            assert all(text.endswith(".") for text in schema["wordMeanings"].values()), where


def test_every_condition_says_why() -> None:
    conditions = [
        (where, inner)
        for where, schema in all_subschemas()
        for inner in schema.get("allOf", ())
        if isinstance(schema.get("allOf"), list) and "$ref" not in inner
    ]
    assert len(conditions) > 20
    for where, condition in conditions:
        assert condition["because"].endswith("."), where
        assert "then" in condition or "else" in condition, where


def test_no_alternatives_without_a_deciding_key() -> None:
    for where, schema in all_subschemas():
        for keyword in ("oneOf", "anyOf", "patternProperties"):
            assert not isinstance(schema.get(keyword), list | dict), where


def test_patterns_use_plain_ascii_classes() -> None:
    for where, schema in all_subschemas():
        pattern = schema.get("pattern")
        if isinstance(pattern, str):
            assert not any(escape in pattern for escape in ("\\d", "\\w", "\\s", "\\b")), where


def test_patterns_that_end_in_a_dollar_also_refuse_a_line_end() -> None:
    # One engine lets $ stand before a last line end, the other does not.
    for where, schema in all_subschemas():
        if str(schema.get("pattern", "")).endswith("$") and where != "defs/$defs/size_awg":
            assert schema["not"]["pattern"] == "[\\n\\r\\t]", where


@pytest.mark.parametrize("name", WORD_LISTS)
def test_word_lists_are_those_of_the_model(name: str) -> None:
    assert tuple(read_schema(SHARED)["$defs"][name]["enum"]) == get_args(WORD_LISTS[name])


@pytest.mark.parametrize("place", WORDS_IN_PLACE)
def test_words_in_place_are_those_of_the_code(place: str) -> None:
    name, *steps = place.split("/")
    found: Any = read_schema(name)
    for step in steps:
        found = found[step]
    assert sorted(found["enum"]) == sorted(words_of(WORDS_IN_PLACE[place]))


def test_what_stands_beside_a_figure_is_a_key_of_a_reading() -> None:
    assert set(words_of(words.Beside)) <= set(read_schema(SHARED)["$defs"]["reading"]["properties"])


def words_of(kind: Any) -> list[str]:
    """The words of a list, of the lists that it is put together from, too."""
    return [
        word
        for part in get_args(kind)
        for word in ([part] if isinstance(part, str) else words_of(part))
    ]


def test_no_word_list_of_the_model_is_left_out() -> None:
    literals = {name for name, value in vars(words).items() if get_origin(value) is Literal}
    known = [*WORD_LISTS.values(), *WORDS_IN_PLACE.values(), words.Beside]
    assert {name for name in literals if getattr(words, name) in known} == literals


def test_house_defaults_are_those_of_the_model() -> None:
    known = read_schema("book")["properties"]["house_defaults"]["properties"]
    assert list(known) == [field.name for field in fields(HouseDefaults)]
    for name, default, unit, _ in HouseDefaults.described():
        assert known[name]["examples"] == [default]
        assert known[name].get("unit", "") == unit


def test_jacket_colours_are_the_colours_and_none() -> None:
    colours = read_schema(SHARED)["$defs"]["colour"]["enum"]
    assert read_schema("cable")["properties"]["jacket"]["enum"] == [*colours, "none"]


def test_an_unknown_kind_is_refused() -> None:
    with pytest.raises(ValueError, match="no schema for the kind 'boat'"):
        validator("boat")


def test_a_reading_of_an_unknown_wire_is_a_reading_without_its_session() -> None:
    shared = read_schema(SHARED)["$defs"]
    full, loose = copy.deepcopy(shared["reading"]), copy.deepcopy(shared["loose_reading"])
    del full["properties"]["session"]
    full["required"].remove("session")
    full |= {"type": "object"}  # one of a record may also be a line of text
    del full["maxLength"]
    for schema in (full, loose):
        del (
            schema["description"],
            schema["properties"]["against"]["description"],
        )
    assert full == loose


def test_a_reading_of_a_sheet_is_one_of_a_record_with_its_place() -> None:
    shared = read_schema(SHARED)["$defs"]
    placed, loose = shared["placed_reading"], shared["loose_reading"]
    place = {"plug", "cavity", "pair", "fuse_position"}
    own = {key: value for key, value in placed["properties"].items() if key not in place}
    assert own == {**loose["properties"], "against": shared["reading"]["properties"]["against"]}
    assert placed["allOf"][3:] == loose["allOf"] == [{"$ref": "#/$defs/reading_rules"}]
    sessions = read_schema("vehicle")["properties"]["sessions"]["items"]["properties"]
    session = read_schema("sheet")["properties"]["session"]["properties"]
    assert {"id": sessions["id"], **session} == sessions
