"""What one visit says of a pair: both legs are held against each other, moment by moment."""

from __future__ import annotations

import pytest
from proof_cars import channel, ohm, reading, session, speaker, vehicle

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Reading
from builder.proof.contradictions.pair_clashes import pair_clashes, taken_together
from builder.proof.grading.grade import Grade, grade_pin
from builder.proof.grading.weighing import Place, Visit

HOUSE = HouseDefaults()


def grade_of_plus(own: tuple[Reading, ...], other: tuple[Reading, ...]) -> Grade:
    """The grade of a positive leg with all else that is asked of it, beside the other leg."""
    plus = speaker("3", "positive", *own, ohm(3.3, "4"), ohm(None))
    minus = speaker("4", "negative", *other, ohm(None), path=("plugs", 0, "pins", 1))
    car = vehicle(plus, minus, sessions=(session(),), channels=(channel(),))
    return grade_pin(car, plus, HOUSE)


def at_rest(volts: float, battery_v: float | None) -> Reading:
    return reading("radio_on_zero", volts, battery_v=battery_v)


def test_legs_that_were_read_parked_and_running_are_compared_within_each() -> None:
    parked, running = at_rest(6.41, 12.42), at_rest(7.22, 14.16)
    both = grade_of_plus((parked, running), (at_rest(6.40, 12.42), at_rest(7.21, 14.16)))
    assert both.band == grade_of_plus((parked,), (at_rest(6.40, 12.42),)).band == "good"


def test_legs_that_differ_at_every_moment_are_not_called_a_bridge() -> None:
    apart = HOUSE.leg_difference_stop_v + 0.1
    assert grade_of_plus((at_rest(6.41, 12.42),), (at_rest(6.41 - apart, 12.42),)).band != "good"


def test_a_leg_without_battery_volts_goes_with_the_nearest_figure() -> None:
    """Who wrote no battery volts read at whatever moment fits: the volts alone tell which."""
    ours, known, unknown = at_rest(6.40, 12.42), at_rest(6.60, 12.42), at_rest(6.41, None)
    assert list(taken_together([ours], [known, unknown])) == [(ours, unknown)]
    nearer = at_rest(6.405, 12.42)
    assert list(taken_together([ours], [nearer, unknown])) == [(ours, nearer)]


def test_a_figure_of_one_leg_goes_with_one_of_the_other_and_only_if_both_are_nearest() -> None:
    near, far, other = at_rest(6.40, 12.42), at_rest(6.10, 12.42), at_rest(6.41, 12.42)
    assert list(taken_together([near, far], [other])) == [(near, other)]
    assert list(taken_together([far, near], [other])) == [(near, other)]
    assert list(taken_together([near], [])) == list(taken_together([], [other])) == []


def test_the_other_leg_needs_its_battery_volts_too() -> None:
    whole = grade_of_plus((at_rest(6.41, 12.42),), (at_rest(6.40, 12.42),))
    without = grade_of_plus((at_rest(6.41, 12.42),), (at_rest(6.40, None),))
    assert without.score < whole.score
    assert "write the battery volts beside each reading" in without.raise_by
    assert "write the battery volts" not in whole.raise_by


@pytest.mark.parametrize(("against", "value", "clashes"), [
    ("5", 0.4, True), ("5", None, False), ("5", 900.0, False), ("body", 0.4, False),
    ("4", 3.3, False),
])  # fmt: skip
def test_two_pairs_are_joined_only_where_a_low_figure_was_read_between_them(
    against: str, value: float | None, clashes: bool
) -> None:
    own = speaker("3", "positive", ohm(value, against))
    mate = speaker("4", "negative", path=("plugs", 0, "pins", 1))
    other = speaker("5", "positive", channel="front-right", path=("plugs", 0, "pins", 2))
    car = vehicle(own, mate, other, sessions=(session(),), outputs="unknown",
                  channels=(channel(), channel("front-right")))  # fmt: skip
    visit = Visit(own.readings, ())
    found = pair_clashes(car, Place("A", own), [Place("A", mate)], visit, HOUSE)
    assert [said.endswith("the two are swapped or joined") for said in found] == [True] * clashes
