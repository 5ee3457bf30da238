"""The cards: order of the readings, loads, and what a wire is mistaken for."""

from __future__ import annotations

import pytest

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function
from builder.proof.band import where_in
from builder.proof.mistaken import BY_HAND, OFTEN_TAKEN_FOR, tellings_of
from builder.proof.proving import load_advice, steps_of
from builder.proof.signatures.loads import load_refusal
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.table import SIGNATURES

HOUSE = HouseDefaults()
CARDS = tuple(dict.fromkeys(one.function for one in SIGNATURES))
each_card = pytest.mark.parametrize("function", CARDS)


@pytest.mark.parametrize("name", [one.id for one in SIGNATURES])
def test_every_line_is_a_step_and_proof_comes_first_cheapest_first(name: str) -> None:
    kind = kinds(HOUSE)[name]
    steps = steps_of(kind)
    assert sorted(map(id, kind.rows)) == sorted(id(step.row) for step in steps)
    order = [(not step.settles, step.effort) for step in steps]
    assert order == sorted(order)


def test_an_accessory_is_proved_before_the_hour_of_waiting() -> None:
    proof = [step for step in steps_of(kinds(HOUSE)["accessory"]) if step.settles]
    assert [step.states[0] for step in proof] == ["retained", "accessory", "asleep"]


@pytest.mark.parametrize(
    ("function", "verdicts"),
    [
        ("constant", ["allowed", "allowed", "allowed", "conditional"]),
        ("ground", ["never", "never", "allowed", "allowed"]),
        ("amplifier_on", ["allowed", "conditional", "never", "never"]),
        ("illumination", ["never"] * 4),
        ("data_high", ["never"] * 4),
        ("microphone", ["never"] * 4),
    ],
)
def test_loads_lightest_first(function: Function, verdicts: list[str]) -> None:
    advice = load_advice(function)
    assert [one.load for one in advice] == ["5ma", "50ma", "lamp_0.4a", "1a"]
    assert [one.verdict for one in advice] == verdicts


@each_card
def test_a_load_that_is_never_allowed_is_refused_at_its_best_and_says_why(
    function: Function,
) -> None:
    for one in load_advice(function):
        at_best = load_refusal(function, one.load, open_v=14.0, limit_ma=100_000)
        assert (at_best is not None) == (one.verdict == "never")
        assert one.why or function == "ground"


@each_card
def test_what_a_wire_is_taken_for_is_told_by_a_reading_or_by_hand(function: Function) -> None:
    tellings = tellings_of(function, HOUSE)
    assert tellings
    for telling in tellings:
        assert telling.function in CARDS
        assert bool(telling.by_hand) is (telling.measurement is None), telling


@each_card
def test_no_figure_fits_both_answers_of_a_telling_reading(function: Function) -> None:
    for telling in tellings_of(function, HOUSE):
        for value in [tenth / 10 for tenth in range(-10, 160)] + [60, 120, 1e4, 1e6]:
            ours = any(where_in(row.band, value, 12.4) == "in" for row in telling.ours)
            theirs = any(where_in(row.band, value, 12.4) == "in" for row in telling.theirs)
            assert not (ours and theirs), (telling.function, value)


def test_advice_by_hand_is_about_pairs_that_are_taken_for_each_other() -> None:
    pairs = {frozenset({one, two}) for one, others in OFTEN_TAKEN_FOR.items() for two in others}
    assert set(BY_HAND) <= pairs
