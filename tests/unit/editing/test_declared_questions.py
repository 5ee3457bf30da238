"""Who begins a part is asked what its declarations ask, and nothing that has no sense."""

from __future__ import annotations

import pytest

from builder.declaring import fields_of
from builder.editing.drafts import draft, questions_of
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
