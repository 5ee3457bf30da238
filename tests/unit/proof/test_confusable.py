"""Which wires of a plug count as alike, in which order, in which words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from proof_cars import pin

from builder.model.plugs import Pin
from builder.model.wire import Wire
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.proof.confusable import (
    Likeness,
    colours_in_words,
    confusable_pairs,
    eyes_in_words,
    likeness_of,
    word_difference_de00,
)

LIMIT_DE00 = 11.0
WORDS = st.sampled_from(sorted(WIRE_SRGB_HEX))
LOOK = st.tuples(WORDS, WORDS)


def likeness(first: str, second: str) -> Likeness | None:
    one, two = (text.split("/") for text in (first, second))
    return likeness_of((one[0], one[-1]), (two[0], two[-1]), LIMIT_DE00)


@pytest.mark.parametrize(
    ("first", "second", "eyes"),
    [
        ("red", "brown", ("protan",)),
        ("red", "green", ("deutan",)),
        ("blue", "violet", ("protan", "deutan")),
        ("yellow", "tan", ("tritan",)),
        ("white", "clear", ("normal", "protan", "deutan", "tritan")),
        ("black/red", "black/brown", ("protan",)),
        ("green", "green/red", ("deutan",)),
    ],
)
def test_eyes_that_confuse_two_wires(first: str, second: str, eyes: tuple[str, ...]) -> None:
    found = likeness(first, second)
    assert found is not None
    assert found.eyes == eyes
    assert not found.swapped


@pytest.mark.parametrize(
    ("first", "second"),
    [("red", "black"), ("white", "white/black"), ("blue", "dark blue"), ("grey", "silver")],
)
def test_wires_that_everybody_tells_apart(first: str, second: str) -> None:
    assert likeness(first, second) is None


def test_the_larger_of_base_and_stripe_counts() -> None:
    found = likeness("red/blue", "brown/violet")
    assert found is not None
    base = word_difference_de00("red", "brown", "protan")
    stripe = word_difference_de00("blue", "violet", "protan")
    assert found.difference_de00 == max(base, stripe) == stripe


@given(LOOK, LOOK)
def test_likeness_is_mutual(first: tuple[str, str], second: tuple[str, str]) -> None:
    there, back = (likeness_of(*two, LIMIT_DE00) for two in ((first, second), (second, first)))
    assert (there is None) == (back is None)
    if there and back:
        assert there.eyes == back.eyes
        assert there.difference_de00 == pytest.approx(back.difference_de00, abs=1e-9)


@given(LOOK)
def test_a_wire_is_not_compared_with_its_like(look: tuple[str, str]) -> None:
    assert likeness_of(look, look, LIMIT_DE00) is None


@given(LOOK, st.floats(0, 200))
def test_opposite_order_counts_at_any_limit(look: tuple[str, str], limit_de00: float) -> None:
    found = likeness_of(look, look[::-1], limit_de00)
    assert (found is not None and found.swapped) == (look[0] != look[1] and "unknown" not in look)


def test_an_unknown_colour_has_no_difference() -> None:
    assert likeness("unknown", "red") is None
    with pytest.raises(ValueError, match="'unknown' stands for no colour"):
        word_difference_de00("unknown", "red", "normal")


def wired(cavity: str, function: str, base: str, **changes: str) -> Pin:
    return pin(cavity, function, wire=Wire(base=base), **changes)


def test_the_costliest_mistake_comes_first() -> None:
    rear = {"channel": "rear-left"}
    pins = [
        wired("1", "speaker", "blue", channel="front-left", leg="positive"),
        wired("2", "amplifier_on", "violet"),
        wired("3", "speaker", "grey", **rear, leg="positive"),
        wired("4", "speaker", "pink", **rear, leg="negative"),
        wired("5", "constant", "red"),
        wired("6", "ground", "brown"),
    ]
    found = confusable_pairs(pins, LIMIT_DE00)
    assert [pair.first.cavity + pair.second.cavity for pair in found] == ["56", "34", "12"]


def test_the_two_wires_of_a_data_pair_count() -> None:
    pins = [wired("1", "data_high", "red"), wired("2", "data_low", "brown")]
    assert len(confusable_pairs(pins, LIMIT_DE00)) == 1
    assert confusable_pairs([pins[0], replace(pins[1], function="mute")], LIMIT_DE00) == ()


@pytest.mark.parametrize(
    ("likeness", "words"),
    [
        (Likeness(("protan",), 1, False), "to eyes without red cones"),
        (Likeness(("protan", "deutan"), 1, False), "to eyes without red or green cones"),
        (
            Likeness(("protan", "deutan", "tritan"), 1, False),
            "to eyes without red, green or blue cones",
        ),
        (Likeness(("normal", "protan"), 1, False), "to any eyes"),
        (Likeness((), 50, True), "the same two colours in opposite order"),
    ],
)
def test_who_confuses_them_in_words(likeness: Likeness, words: str) -> None:
    assert eyes_in_words(likeness) == words


def test_colours_as_a_person_says_them() -> None:
    assert colours_in_words(Wire(base="light blue", stripe="black")) == "light blue/black"
    assert colours_in_words(None) == ""
