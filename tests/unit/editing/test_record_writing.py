"""New records: they read back as what was written, in the house style."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import many
from shipped_book import FULL_RECORDS, PINOUTS

from builder.book import open_book
from builder.editing import UneditableError, write_record
from builder.editing.tidying import steps_for, tidied
from builder.editing.writing import usual_schema_ref
from builder.loading import EventSource, load_text
from builder.loading.characters import hidden_characters
from builder.loading.scalars import SMALLEST_FRACTION

FILES = open_book(PINOUTS).files()


@pytest.mark.parametrize("file", FILES, ids=[file.path.stem + "-" + file.kind for file in FILES])
def test_every_shipped_record_is_written_and_read_back(file):
    data = load_text(file.path.read_bytes(), "x").data
    text = write_record(data, file.kind)
    assert load_text(text, "x").data == data
    assert text.startswith("# yaml-language-server: $schema=../../")
    assert text.endswith("\n") and "\t" not in text
    assert tidied(text, steps_for(file.kind, usual_schema_ref(file.kind))) == text


def test_a_small_number_is_written_as_a_person_types_it():
    assert "error_v: 0.000087\n" in write_record({"error_v": 8.7e-05}, "vehicle")


def visible(text: str) -> bool:
    return not any(hidden_characters(text)) and "\r" not in text


keys = st.text(min_size=1, max_size=12).filter(lambda t: bool(t.strip()) and visible(t))
texts = st.one_of(
    st.text(max_size=20).filter(visible),
    st.sampled_from(["yes", "no", "null", "~", "true", "it's", "2024-05-13", "x", "?", "a,b"]),
    st.sampled_from(["1_000", "12:30", "007", "1e3", "0x1F", ".5", "+1", "0o7", ".inf", "1.", "."]),
    st.sampled_from(["", " a", "a ", "a: b", "a #b", "- a", "[a", "{a", 'say "so"', "line\nline"]),
    st.sampled_from([":", "*a", "&a", "!a", "%a", "@a", "`a", "|", ">", "---", "...", "=", "<<"]),
)
scalars = st.one_of(
    texts,
    st.integers(-(2**53) + 1, 2**53 - 1),
    # Nothing that can be measured is nearer to 0 without being 0, and no record may say so.
    st.floats(allow_nan=False, allow_infinity=False).filter(
        lambda number: number == 0 or abs(number) >= SMALLEST_FRACTION
    ),
    st.booleans(),
    st.none(),
)
values = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4),
    max_leaves=12,
)
ours = st.sampled_from(["plugs", "pins", "readings", "scope", "sessions", "wire", "rows", "accept"])
records = st.dictionaries(st.one_of(keys, ours), values, min_size=1, max_size=5)


@settings(max_examples=many(150), deadline=None)
@given(data=records, kind=st.sampled_from(["vehicle", "housing", "job", "converter"]))
def test_any_data_is_read_back(data, kind):
    text = write_record(data, kind)
    for source in (None, EventSource.PYTHON):
        loaded = load_text(text, "x", source)
        assert loaded.data == data, (text, loaded.findings)


@settings(max_examples=many(60), deadline=None)
@given(data=st.dictionaries(keys, st.one_of(texts, st.lists(texts, max_size=3)), min_size=1))
def test_other_readers_of_yaml_see_the_same_text(data):
    """Words that an older reader takes for truth values apart: the records use them bare."""
    read = yaml.load(write_record(data, "cable"), yaml.BaseLoader)
    assert read == data


def test_numbers_and_dates_are_not_mistaken():
    text = write_record(
        {"id": "007", "note": "12:30", "name": "1_000", "edited": "2024-05-13", "x": "1.5"}, "cable"
    )
    for line in ('id: "007"', 'note: "12:30"', 'name: "1_000"', "edited: 2024-05-13", 'x: "1.5"'):
        assert line in text


@pytest.mark.parametrize(
    "value", [float("nan"), float("inf"), 2**60, "a\u200bb", "a\rb", {1, 2}, {"": 1}, {3: 4}]
)
def test_what_no_record_can_hold_is_refused(value):
    with pytest.raises(UneditableError):
        write_record({"note": value}, "cable")


def test_an_empty_record_and_an_unknown_kind_are_refused():
    with pytest.raises(UneditableError):
        write_record({}, "cable")
    with pytest.raises(ValueError, match="no schema"):
        write_record({"a": 1}, "boat")


def test_comments_say_what_sections_hold():
    data = load_text((FULL_RECORDS / "vehicle.yaml").read_bytes(), "x").data
    assert "# What can hurt a person.\nsafety:" in write_record(data, "vehicle")
