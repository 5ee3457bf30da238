"""Grades are worked out once for a vehicle, a pin and house defaults, and never lent to others."""

from __future__ import annotations

from dataclasses import replace

import pytest
from proof_cars import full_constant, part_constant, pin, session, vehicle

from builder.model.house_defaults import HouseDefaults
from builder.proof.grading import kept
from builder.proof.grading.grade import grade_pin
from builder.proof.grading.kept import kept_grade

HOUSE = HouseDefaults()
FULL = pin("1", "constant", readings=full_constant())
PART = pin("1", "constant", readings=part_constant())


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """What was graded anew, in order."""
    seen: list[object] = []

    def counted(*given: object) -> object:
        seen.append(given)
        return grade_pin(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(kept, "grade_pin", counted)
    return seen


def test_the_same_pin_is_graded_once(asked: list[object]) -> None:
    car = vehicle(FULL, sessions=(session(),))
    found = [kept_grade(car, FULL, HOUSE), kept_grade(car, replace(FULL), replace(HOUSE))]
    assert found == [grade_pin(car, FULL, HOUSE)] * 2
    assert len(asked) == 1


def test_another_pin_at_the_same_place_vehicle_or_default_is_graded_anew(
    asked: list[object],
) -> None:
    car, other = (vehicle(each, sessions=(session(),)) for each in (FULL, PART))
    strict = replace(HOUSE, weight_full=0.1)
    for given in (
        (car, FULL, HOUSE),
        (car, PART, HOUSE),
        (other, PART, HOUSE),
        (car, FULL, strict),
    ):
        assert kept_grade(*given) == grade_pin(*given)
    assert len(asked) == 4
    assert len({kept_grade(car, FULL, house).score for house in (HOUSE, strict)}) == 2


def test_of_many_vehicles_the_last_are_kept(asked: list[object]) -> None:
    cars = [vehicle(FULL, sessions=(session(),)) for _ in range(kept._MOST + 1)]
    for car in cars:
        kept_grade(car, FULL, HOUSE)
    asked.clear()
    for car in (cars[-1], cars[1], cars[0]):
        kept_grade(car, FULL, HOUSE)
    assert len(asked) == 1 and asked[0][0] is cars[0]  # type: ignore[index]
