"""Who begins a part is asked what its declarations ask, and nothing that has no sense."""

from __future__ import annotations

import re

import pytest

from builder.declaring import fields_of
from builder.editing.drafts import (
    DRAFTED_KINDS,
    AnswerError,
    draft,
    questions_of,
    read_one,
)
from builder.editing.drafts.declared_questions import figures_in
from builder.model.kinds import PARTS
from builder.schema_check import check_shape
from builder.source_map import SourceMap

GIVEN = {"schema", "id", "min_ohm"}  # the command's own; the least load is that of the power
CONVERTER = {
    "name": ["ZEC 9"], "maker": ["Odmarsh"], "kind": ["passive"], "inputs": ["2"], "outputs": ["2"],
    "input-type": ["floating"], "input-max": ["20"], "input-ohm": ["10000"], "sum": ["any"],
    "gain": ["0.2"], "output-max": ["2"],
}  # fmt: skip


def unasked(cls: type, asked: set[tuple], path: tuple = ()) -> list[tuple]:
    """The keys that a record must have and nobody asks for, parts by their keys."""
    missing = []
    for each in fields_of(cls):
        place = (*path, each.key)
        if each.spec.optional or each.key in GIVEN or place in asked:
            continue
        inner = (*place, 0) if each.item else place
        missing += unasked(each.inner, asked, inner) if each.inner else [place]
    return missing


@pytest.mark.parametrize("kind", PARTS)
def test_whatever_a_record_must_say_is_asked(kind):
    asked = {question.path for question in questions_of(kind)}
    assert unasked(PARTS[kind], asked) == []


def test_a_passive_converter_is_asked_for_no_supply_and_no_turn_on():
    senseless = {
        question.name for question in questions_of("converter") if not question.when(CONVERTER)
    }
    assert senseless == {"supply", "remote-in", "offset-wake", "signal-wake", "remote-out"}
    active = CONVERTER | {"kind": ["active"]}
    assert all(question.when(active) for question in questions_of("converter"))


def test_the_record_of_a_passive_converter_is_whole():
    data = draft("converter", CONVERTER)
    assert data["gain"] == {"kind": "fixed", "value": 0.2}
    assert "supply" not in data and data["bass_rolloff_correction"] == "no"
    assert check_shape("converter", data, SourceMap(None), "x") == []


def test_a_part_is_read_from_its_first_figure_or_the_word_for_none():
    active = {"kind": ["active"], "supply": ["9 0.15 2"], "remote-in": ["8 mA"]}
    data = draft("converter", CONVERTER | active | {"remote-out": ["none"]})
    assert data["turn_on"] == {
        "remote_in": {"draw_ma": 8},
        "offset_wake": "no",
        "signal_wake": "no",
    }
    assert data["remote_out"] == "none"
    assert check_shape("converter", data, SourceMap(None), "x") == []


LOOM = {
    "name": ["8-way"], "made": ["bench"], "wire": ["1-8, black, 0.75 mm2"],
    "end": [f"{name} end, two-row-20-latch-top, {name}, wire_side" for name in ("radio", "car")],
}  # fmt: skip
INTERFACE = {
    "name": ["BR"], "maker": ["Odmarsh"], "bus": ["two_wire"], "plugs": ["two-row-20-latch-top"],
    "supply": ["9 3 2"], "output": ["accessory 500 mA, after 1.5 s", "reverse 100"],
}  # fmt: skip


def test_a_list_takes_a_line_for_each_of_its_parts_and_none_is_a_list_without_any():
    data = draft("loom", LOOM)
    assert [end["plugs_into"] for end in data["ends"]] == ["radio", "car"]
    assert data["branches"] == [] and "maker" not in data
    outputs = draft("interface", INTERFACE)["outputs"]
    assert [output["max_ma"] for output in outputs] == [500, 100]


def test_a_part_of_several_figures_is_read_key_by_key():
    assert draft("interface", INTERFACE)["supply"] == {"min_v": 9, "idle_ma": 3, "fuse_a": 2}
    bass = {"kind": ["active"], "supply": ["9 0.15 2"], "bass-correction": ["12 dB at 40 Hz"]}
    more = {"remote-in": ["no"], "remote-out": ["none"]}
    data = draft("converter", CONVERTER | bass | more)
    assert data["bass_rolloff_correction"] == {"max_db": 12, "hz": 40}


@pytest.mark.parametrize(
    ("kind", "given", "option"),
    [
        ("interface", INTERFACE | {"supply": ["9 3"]}, "supply"),
        ("interface", INTERFACE | {"output": ["accessory"]}, "output"),
        ("loom", LOOM | {"end": ["radio end"]}, "end"),
        ("loom", LOOM | {"wire": ["_"]}, "wire"),
    ],
)
def test_who_says_too_little_is_asked_the_whole_question_again(kind, given, option):
    asked = next(question for question in questions_of(kind) if question.name == option)
    with pytest.raises(AnswerError) as refused:
        draft(kind, given)
    assert str(refused.value) == f'--{option}: "{given[option][0]}" is not complete. {asked.prompt}'


def _filled(example: str) -> str:
    """The words that stand in the places of figures, so that none is copied, made figures."""
    return re.sub(r"\b(METRES|OHMS|WATTS|MILLIAMPERES|SECONDS|VALUE|VOLTS)\b", "2", example)


def test_an_example_in_a_question_is_an_answer_that_is_taken():
    for kind in DRAFTED_KINDS:
        for question in questions_of(kind):
            example = question.prompt.partition("a line: ")[2]
            for line in _filled(example).split(" / ") if example else ():
                assert read_one(kind, question, line), question.name


@pytest.mark.parametrize(
    "text",
    [
        "9 3 2",
        "9, 3, 2",
        "9 V, 3 mA, 2 A",
        "9 V 3 mA 2 A",
        "9V 3mA 2A",
        "9 V / 3 mA / 2 A",
        "9; 3; 2",
    ],
)
def test_three_figures_are_read_with_whatever_people_put_between(text: str) -> None:
    (question,) = [each for each in questions_of("interface") if each.name == "supply"]
    assert question.read is not None
    assert question.read(text) == {"min_v": 9, "idle_ma": 3, "fuse_a": 2}


@pytest.mark.parametrize(("text", "read"), [
    ("0.25-4", ["0.25", "4"]), ("0.25 - 4", ["0.25", "4"]), ("0.25 to 4", ["0.25", "4"]),
    ("9 -3 2", ["9", "-3", "2"]), ("9 unknown 2", ["9", "unknown", "2"]),
])  # fmt: skip
def test_a_dash_is_a_span_or_a_sign(text: str, read: list[str]) -> None:
    assert figures_in(text) == read
