"""House style: other white space and order, the same data and comments, and then no change."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shipped_book import FULL_RECORDS
from shipped_cars import typed_text

from builder.editing import UneditableError
from builder.editing.tidying import steps_for, style_faults, tidied
from builder.loading import load_text

TEMPLATE = (FULL_RECORDS / "vehicle.yaml").read_text("utf-8")
TANSY = typed_text("ostrel-tansy-2017-hatch-base")
STEPS = steps_for("vehicle", "../../../schema/vehicle.schema.json")


def wide(text: str) -> str:
    """Four spaces a level, and three more behind each dash."""
    return re.sub(r"(?m)^( *)(- )?", lambda m: m[1] * 2 + ("-   " if m[2] else ""), text)


DISORDER = {
    "crlf": lambda text: text.replace("\n", "\r\n"),
    "mark": lambda text: "\ufeff" + text,
    "no last end": lambda text: text.rstrip("\n"),
    "many last ends": lambda text: text + "\n\n",
    "trailing spaces": lambda text: re.sub(r"(?m)$(?=\n)", "  ", text),
    "wide": wide,
    "spaces behind colons": lambda text: re.sub(r"(?m)^( +\w+): (?=\w)", r"\1:   ", text),
    "no schema line": lambda text: text.split("\n", 1)[1],
    "empty lines": lambda text: text.replace("\n\n", "\n\n\n\n"),
    "spaces in brackets": lambda text: re.sub(r"(?m)^([^#\n]*: )\[(\w+)\]", r"\1[ \2 ]", text),
}


def comments(text: str) -> list[str]:
    found = re.findall(r"(?m)(?:^|\s)(#.*?)\s*$", text)
    return sorted(comment for comment in found if "yaml-language-server" not in comment)


@pytest.mark.parametrize("disorder", DISORDER.values(), ids=list(DISORDER))
def test_disorder_is_put_right(disorder):
    messy = disorder(TANSY)
    assert messy != TANSY
    assert style_faults(messy, STEPS)
    assert tidied(messy, STEPS) == TANSY


@settings(max_examples=15, deadline=None)
@given(st.lists(st.sampled_from(sorted(DISORDER)), unique=True, max_size=4))
def test_tidying_keeps_data_and_comments_and_ends(names):
    messy = TEMPLATE
    for name in sorted(names, key=["crlf", "mark"].count):  # these two last: the others see lines
        messy = DISORDER[name](messy)
    new = tidied(messy, STEPS)
    assert load_text(new, "x").data == load_text(TEMPLATE, "x").data
    assert comments(new) == comments(TEMPLATE)
    assert tidied(new, STEPS) == new
    assert not style_faults(new, STEPS)


def test_a_key_moves_with_the_comments_that_speak_of_it():
    text = (
        "# yaml-language-server: $schema=../../../schema/vehicle.schema.json\n"
        "schema: 1\n"
        "# the model of it\n"
        "model: B   # as printed\n"
        "\n"
        "# the make of it\n"
        "make: A\n"
        "scope:\n"
        "  trims: [base]\n"
        "  # first year\n"
        "  year_from: 2001\n"
    )
    new = tidied(text, STEPS)
    assert list(load_text(new, "x").data) == ["schema", "make", "model", "scope"]
    assert "# the model of it\nmodel: B   # as printed\n" in new
    assert "# the make of it\nmake: A\n" in new
    assert "  # first year\n  year_from: 2001\n  trims: [base]\n" in new


def test_faults_name_their_lines():
    messy = TANSY.replace("make: Ostrel", "make: Ostrel  ").replace(
        "  feed: none", "    feed: none"
    )
    lines = messy.split("\n")
    at = {lines[fault.line - 1].strip() for fault in style_faults(messy, STEPS)}
    assert at == {"make: Ostrel", "feed: none"}


@pytest.mark.parametrize(
    "text",
    [
        "note: |\n    a  \n\n\n    b\n",
        'note: "a   b"\n',
        "note: 'x\n\n\n  y'\n",
        "note: >-\n   a\n   b\n",
    ],
)
def test_text_inside_values_is_never_touched(text):
    new = tidied("schema: 1\n" + text, STEPS)
    assert load_text(new, "x").data == load_text("schema: 1\n" + text, "x").data


@pytest.mark.parametrize("text", ["a: [", "a: 1\na: 2\n", "- 1\n", ""])
def test_what_cannot_be_read_is_refused(text):
    with pytest.raises(UneditableError):
        tidied(text, STEPS)


def test_a_line_of_another_schema_is_corrected_and_a_path_elsewhere_may_stay():
    other = TANSY.replace("vehicle.schema.json", "cable.schema.json", 1)
    assert tidied(other, STEPS) == TANSY
    elsewhere = TANSY.replace("../../../schema/", "../../book/schema/", 1)
    lenient = steps_for("vehicle", "../../../schema/vehicle.schema.json", correct_ref=False)
    assert tidied(elsewhere, lenient) == elsewhere
    assert tidied(elsewhere, STEPS) == TANSY
