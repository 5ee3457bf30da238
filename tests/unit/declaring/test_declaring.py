"""Declarations: what contradicts itself is refused, what is said once is read and shown."""

from __future__ import annotations

from typing import Literal

import pytest

from builder.declaring import (
    Form,
    fields_of,
    figure,
    form_schema,
    given,
    listed,
    part,
    read,
    record,
    schema_of,
    text,
    when,
    without,
    word,
)
from builder.figures import plain_name

NAME = Form("", "A name.", {"type": "string", "maxLength": 9})


@record
class Inner:
    """What is inside.

    More of it, that no schema says.
    """

    volts: float = figure("Volts.", "V", 9.0, above=0)


@record
class Outer:
    """A thing with a part."""

    ohm: float | None = figure("Ohms.", "Ω", 47, "none", above=0, means={"none": "None."})
    pad: float | Literal["auto"] = figure("Pad.", "Ω", "auto", means={"auto": "Auto."})
    supply: Inner | None = part({"volts": 9.0}, "no", means={"no": "None."})
    kind: Literal["a", "b"] = word("Which.", "a", means={"a": "A.", "b": "B."}, default="a")
    class_: str = text("Its class.", "D", form=NAME, key="class", default="")
    cells: tuple[str, ...] = listed("Cells.", [1, "A2"], least=1, form=NAME, default=())
    inners: tuple[Inner, ...] = listed("Inners.", [{"volts": 1}, {"volts": 2}], default=())

    RULES = (
        when("A b has no supply.", "kind", "b").bars("supply", "cells").otherwise.needs("ohm"),
        given("Ohms ask for a supply.", "ohm").needs("supply.volts", "pad").limits("ohm", least=1),
        without("One of them.", "pad").needs("ohm"),
        without("Any of them.", "pad", "ohm").limits("kind", "a"),
    )


MUST = {"ohm": 47, "pad": 1, "supply": {"volts": 9}}


def test_a_word_in_the_place_of_a_figure_or_part_is_none_unless_its_type_names_it():
    made = read(Outer, {"ohm": "none", "pad": "auto", "supply": "no"})
    assert (made.ohm, made.pad, made.supply) == (None, "auto", None)


def test_what_is_counted_is_a_whole_number_however_it_was_typed():
    """A schema takes 2.0 for a whole number, and so does who counts with it."""

    @record
    class Counted:
        """What is counted and what is measured."""

        count: int = figure("How many.", "", 2)
        ohm: float = figure("Ohms.", "Ω", 2)

    made = read(Counted, {"count": 2.0, "ohm": 2})
    assert list(range(made.count)) == [0, 1]
    assert read(Counted, {"count": 2, "ohm": 2.5}).ohm == 2.5


def test_what_is_left_out_takes_its_default_and_parts_are_read_into_their_classes():
    made = read(Outer, MUST | {"class": "D", "cells": [1, 2.0, "A2"], "inners": [{"volts": 3}]})
    assert (made.supply, made.kind, made.class_) == (Inner(volts=9), "a", "D")
    assert (made.cells, made.inners) == (("1", "2", "A2"), (Inner(volts=3),))
    assert read(Outer, MUST).cells == ()


def test_a_key_must_be_there_unless_its_declaration_has_a_default():
    assert schema_of(Outer)["required"] == ["ohm", "pad", "supply"]
    assert schema_of(Outer)["properties"]["supply"]["required"] == ["volts"]


def test_a_schema_says_what_the_declaration_says():
    schema = schema_of(Outer)
    assert schema["description"] == "A thing with a part."
    assert schema["properties"]["supply"]["description"] == "What is inside."
    assert schema["properties"]["class"] == form_schema(NAME) | {
        "description": "Its class.",
        "examples": ["D"],
    }
    assert schema["properties"]["ohm"] == {
        "type": ["number", "string"],
        "description": "Ohms.",
        "unit": "Ω",
        "exclusiveMinimum": 0,
        "if": {"type": "string"},
        "then": {"enum": ["none"], "wordMeanings": {"none": "None."}},
        "examples": [47, "none"],
    }
    assert schema["properties"]["kind"]["enum"] == ["a", "b"]
    assert "examples" not in schema["properties"]["inners"]["items"]
    assert schema["properties"]["cells"]["minItems"] == 1


def test_conditions_say_what_follows_and_what_holds_otherwise():
    first, second, third, fourth = schema_of(Outer)["allOf"]
    assert first == {
        "because": "A b has no supply.",
        "if": {"properties": {"kind": {"enum": ["b"]}}, "required": ["kind"]},
        "then": {"properties": {"supply": False, "cells": False}},
        "else": {"required": ["ohm"]},
    }
    assert second["then"] == {
        "properties": {"supply": {"required": ["volts"]}, "ohm": {"minimum": 1}},
        "required": ["pad"],
    }
    assert third["if"] == {"not": {"required": ["pad"]}}
    assert fourth["if"] == {"properties": {"pad": False, "ohm": False}}


def test_words_that_contradict_their_type_are_refused_when_the_class_is_made():
    with pytest.raises(TypeError, match=r"kind: words .*'b'.*, meanings \('a',\)"):

        @record
        class Wrong:
            kind: Literal["a", "b"] = word("Which.", means={"a": "A."})


def test_what_no_declaration_knows_is_refused_when_the_class_is_made():
    with pytest.raises(TypeError, match="leest"):

        @record
        class Wrong:
            volts: float = figure("Volts.", "V", leest=0)


def test_a_field_tells_the_key_its_words_and_its_parts():
    by_key = {each.key: each for each in fields_of(Outer)}
    assert by_key["class"].attribute == "class_"
    assert by_key["kind"].words == ("a", "b")
    assert by_key["inners"].inner is Inner and by_key["inners"].item is not None
    assert by_key["ohm"].nullable and by_key["ohm"].scalar is float


@pytest.mark.parametrize("given", [4, 4.0, "4"])
def test_numbers_and_texts_of_a_name_are_one_name(given):
    assert plain_name(given) == "4"


@record
class Placed:
    """A thing that knows where it stands."""

    volts: float = figure("Volts.", "V", 9.0)
    path: tuple[str | int, ...] = ()


@record
class Shelf:
    """Things that know where they stand."""

    one: Placed = part({"volts": 1})
    more: tuple[Placed, ...] = listed("More.", default=())


def test_a_class_with_a_path_is_told_where_in_the_record_it_stands():
    made = read(Shelf, {"one": {"volts": 1}, "more": [{"volts": 2}, {"volts": 3}]})
    assert made.one.path == ("one",)
    assert [each.path for each in made.more] == [("more", 0), ("more", 1)]
    assert "path" not in schema_of(Placed)["properties"]
