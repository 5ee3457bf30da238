"""The word table: every word once, every meaning a word of the records, every row with a source."""

from __future__ import annotations

from collections import Counter

import pytest

from builder.finder.word_data import word_data
from builder.finder.words import KNOWN, LONGEST_WORD, MAIN_ANSWERS, MEANINGS, NOISE, begun
from builder.model.house_defaults import HouseDefaults
from builder.model.said.meaning import COLOUR_CODES, COMMON, TERMINALS, TERMINALS_READ
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.model.words import CHANNELS, FUNCTIONS
from builder.rendering.handbook import fill_in


def test_no_word_stands_twice():
    counted = Counter(word for meaning in MEANINGS for word in meaning.words)
    assert [word for word, times in counted.items() if times > 1] == []


def test_words_are_lower_case_with_single_spaces():
    for word in KNOWN:
        assert word == " ".join(word.lower().split())
    assert max(len(word.split()) for word in KNOWN) == LONGEST_WORD


def test_meanings_are_words_of_the_records():
    for meaning in MEANINGS:
        allowed = {
            "function": set(FUNCTIONS),
            "channel": {*CHANNELS, "woofer", "tweeter"},
            "colour": set(WIRE_SRGB_HEX),
        }[meaning.kind]
        assert set(meaning.means) <= allowed, meaning


def test_every_function_can_be_asked_for():
    meant = {one for meaning in MEANINGS if meaning.kind == "function" for one in meaning.means}
    assert meant == set(FUNCTIONS)
    assert set(MAIN_ANSWERS) <= meant


def test_every_row_names_its_source():
    sources = {COMMON, TERMINALS, TERMINALS_READ, COLOUR_CODES}
    assert {meaning.source for meaning in MEANINGS} == sources


def test_no_known_word_is_noise():
    assert NOISE.isdisjoint(KNOWN)


@pytest.mark.parametrize(
    ("beginning", "word"),
    [("sw", "switched"), ("gro", "ground"), ("con", "constant"), ("sp", "speaker"), ("zz", "")],
)
def test_a_beginning_is_the_first_word_that_has_it(beginning, word):
    assert begun(beginning) == word


def test_the_page_gets_the_same_words():
    data = word_data()
    assert {word for row in data["meanings"] for word in row[2]} == set(KNOWN)
    assert set(data["sets"]["noise"]) == NOISE


def test_the_handbook_prints_every_word_with_its_source():
    page = fill_in("<!-- finder words -->", HouseDefaults())
    printed = {
        word for line in page.splitlines() for word in line.strip("| ").split(" | ")[0].split(", ")
    }
    assert set(KNOWN) <= printed
    assert all(row.count("|") == 4 for row in page.splitlines() if row.startswith("|"))
    assert COMMON in page and TERMINALS in page
