"""A known speaker narrows the ohms of its pair; a rule and a grade say the same of them."""

from __future__ import annotations

import pytest
from proof_cars import channel, reading, session, speaker, vehicle

from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.proof.band import where_in
from builder.proof.grading.grade import grade_pin
from builder.proof.signatures.nominal import Nominal, pair_band
from builder.proof.signatures.of_pins import kinds_of_pin
from builder.rules import speaker_ohms_odd

HOUSE = HouseDefaults()


@pytest.mark.parametrize(
    ("ohm", "shared", "low", "high"),
    [(4, False, 2.8, 4.8), (2, False, 1.4, 2.8), (8, False, 5.6, 8.8), (4, True, 1.4, 4.8)],
)
def test_the_band_is_seven_tenths_to_eight_tenths_of_an_ohm_more(
    ohm: float, shared: bool, low: float, high: float
) -> None:
    band = pair_band(Nominal(ohm, shared), HOUSE)
    assert band == ((0, pytest.approx(low)), (0, pytest.approx(high)))
    assert where_in(band, low, None) == where_in(band, high, None) == "in"


def across(value: float | None):  # type: ignore[no-untyped-def]
    plus = speaker("3", "positive", reading("unplugged", value, quantity="ohm", against="4"))
    minus, known = speaker("4", "negative", path=("plugs", 0, "pins", 1)), channel(speaker_ohm=4.0)
    return vehicle(plus, minus, sessions=(session(),), channels=(known,)), plus


@pytest.mark.parametrize(
    ("value", "opposes", "warns"),
    [(2.8, 0, 0), (4.8, 0, 0), (2.79, 0, 1), (4.81, 0, 1), (8.5, 0, 1), (0.4, 1, 1), (9.0, 1, 1)],
)
def test_the_rule_warns_and_the_grade_opposes_by_the_same_figures(
    value: float, opposes: int, warns: int
) -> None:
    car, plus = across(value)
    grade = grade_pin(car, plus, HOUSE)
    assert bool(grade.opposition) is bool(opposes)
    assert bool(grade.support) is not bool(opposes or warns)
    assert len(list(speaker_ohms_odd.check(car, Shelf(defaults=HOUSE)))) == warns


def test_a_speaker_nobody_knows_keeps_the_wide_band() -> None:
    car, plus = across(3.4)
    unknown = vehicle(plus, channels=(channel(speaker_ohm=None),))
    for found, expected in ((car, (2.8, 4.8)), (unknown, (1.0, 8.5))):
        (kind,) = kinds_of_pin(found, plus, HOUSE)
        row = next(row for row in kind.rows if row.against == "other_leg" and row.quantity == "ohm")
        assert row.band == ((0, pytest.approx(expected[0])), (0, pytest.approx(expected[1])))
