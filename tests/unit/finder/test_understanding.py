"""Questions taken apart: years, colours, places, several facts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.finder.grammar import LAST_YEAR
from builder.finder.search import find
from builder.finder.tokens import LONGEST_QUESTION, cut, tokens_of
from builder.finder.understanding import Colour, Question, items_of, question_of


def understand(text: str) -> Question:
    return question_of(items_of(tokens_of(text)))


@pytest.mark.parametrize(
    ("text", "years"),
    [
        ("2018 ", (2018, 2018)),
        ("my2018", (2018, 2018)),
        ("my18", (2018, 2018)),
        ("'18", (2018, 2018)),
        ("'97", (1997, 1997)),
        ("2016-2018", (2016, 2018)),
        ("2016–2018", (2016, 2018)),
        ("2016 - 2018", (2016, 2018)),
        ("2016/2018", (2016, 2018)),
        ("2016 to 2018", (2016, 2018)),
        ("from 2016 to 2018", (2016, 2018)),
        ("between 2016 and 2018", (2016, 2018)),
        ("2016-18", (2016, 2018)),
        ("1998-02", (1902, 1998)),
        ("16-18", (2016, 2018)),
        ("98-02", (1998, 2002)),
        ("2018-2016", (2016, 2018)),
        ("from 2018", (2018, LAST_YEAR)),
        ("since 2018", (2018, LAST_YEAR)),
        ("2018+", (2018, LAST_YEAR)),
        ("2018 onwards", (2018, LAST_YEAR)),
        ("2018 on", (2018, LAST_YEAR)),
        ("after 2018", (2019, LAST_YEAR)),
        ("until 2018", (0, 2018)),
        ("before 2018", (0, 2017)),
        ("20", (2000, 2099)),
        ("201", (2010, 2019)),
        ("2100", None),
        ("1850", None),
    ],
)
def test_years(text, years):
    assert understand(text).years == years


def test_a_year_that_is_finished_is_no_decade():
    assert understand("201 ").years is None


@pytest.mark.parametrize(
    "text",
    [
        "white/black",
        "white / black",
        "white-black",
        "white black",
        "wht/blk",
        "WH/BK",
        "white with black stripe",
        "white with a black tracer",
    ],
)
def test_base_and_stripe(text):
    assert understand(text).facts[0].colours == (Colour("white", "black"),)


def test_colours_of_two_words():
    facts = understand("light blue/dark green").facts
    assert facts[0].colours == (Colour("light blue", "dark green"),)
    assert understand("purple").facts[0].colours == (Colour("violet", ""),)


@pytest.mark.parametrize(
    ("text", "plugs", "cavities"),
    [
        ("plug A", ("a",), ()),
        ("block B", ("b",), ()),
        ("connector C2", ("c2",), ()),
        ("pin 4", (), ("4",)),
        ("plug A pin 4", ("a",), ("4",)),
        ("cavity 12", (), ("12",)),
        ("fuse", (), ("fuse",)),
        ("plug is", (), ()),
        ("pin four", (), ()),
    ],
)
def test_places(text, plugs, cavities):
    facts = understand(text).facts
    found = (facts[0].plugs, facts[0].cavities) if facts else ((), ())
    assert found == (plugs, cavities)


def test_terminal_numbers_are_functions_and_pins_are_not():
    assert understand("terminal 30").facts[0].functions[0] == "constant"
    assert understand("kl.15").facts[0].functions[0] == "run"
    assert understand("pin 30").facts[0].functions == ()


def test_and_parts_facts_and_names_belong_to_all():
    question = understand("quern switched and ground & front left tweeter")
    assert question.names == ("quern",)
    assert [fact.functions[0] for fact in question.facts] == ["retained", "ground", "speaker"]
    assert question.facts[2].channels == ("front-left", "tweeter")


def test_an_id_falls_apart_into_names_and_year():
    question = understand("ostrel-tansy-2017-hatch-base")
    assert question.names == ("ostrel", "tansy", "hatch", "base")
    assert question.years == (2017, 2017)


def test_a_begun_phrase_is_taken_for_it_while_it_is_typed():
    assert understand("tansy hot at all ti").facts[0].functions[0] == "constant"
    assert understand("tansy hot at all ti ").facts == ()


@pytest.mark.parametrize(
    ("more", "rest"),
    [
        ("", ""),
        (" ,; 😀", ""),
        ("bc", "bc"),
        (" mute ground", "mute"),
        ("b" * 20, "b" * 20),
        ("b" * 21, "b" * 20 + "…"),
    ],
)
def test_only_the_first_letters_are_read(more, rest):
    read = "a" * LONGEST_QUESTION
    assert cut(read + more) == (read, rest)


@given(st.text(max_size=300))
def test_any_text_is_understood_somehow(text):
    understand(text)
    assert find(text, []) == []
