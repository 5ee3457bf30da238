"""A rule that stops and the grade of the same pin never disagree about the same readings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from random import Random

import pytest
from proof_cars import channel, pin, reading, session, speaker, vehicle
from samples import many

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import PAIRED
from builder.proof.grading.grade import Grade, grade_pin
from builder.proof.grading.visits import proved_otherwise
from builder.proof.grading.weighing import Place, Visit
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.shapes import Kind
from builder.rules import registry
from builder.rules.rule import Rule, Scope

HOUSE = HouseDefaults()
KINDS = list(kinds(HOUSE).values())
FUNCTIONS = sorted({kind.function for kind in KINDS})
RULES = [rule for rule in registry.RULES if rule.id.startswith("MET")]
EACH = many(150)


def placed(one: Pin, at: int) -> Pin:
    path = ("plugs", 0, "pins", at)
    readings = (replace(r, path=(*path, "readings", i)) for i, r in enumerate(one.readings))
    return replace(one, path=path, readings=tuple(readings))


def car_of(*pins: Pin, outputs: str = "bridged") -> Vehicle:
    put = [placed(one, at) for at, one in enumerate(pins)]
    return vehicle(*put, sessions=(session(),), channels=(channel(),), outputs=outputs)


def faults_of(rule: Rule, car: Vehicle) -> Iterator[Fault]:
    asked = (car,) if rule.scope is Scope.RECORD else (car, Shelf(defaults=HOUSE))
    yield from rule.check(*asked)  # type: ignore[operator]


def stops_on(car: Vehicle, one: Pin) -> list[str]:
    """The MET rules that stop at a pin."""
    return [
        rule.id
        for rule in RULES
        for fault in faults_of(rule, car)
        if (fault.severity or rule.severity) is Severity.STOP
        and tuple(fault.path[: len(one.path)]) == one.path
    ]


def drawn(random: Random, kind: Kind) -> tuple[Reading, ...]:
    """Readings of one kind, most within its lines and some beside them, some without a battery."""
    battery_v = random.choice([11.9, 12.4, 12.6, 13.5, 14.2, None])
    rows = kind.rows if random.random() < 0.6 else random.sample(kind.rows, min(3, len(kind.rows)))
    return tuple(
        value for row in rows if (value := _of_row(random, row, battery_v)) is not None
    )  # fmt: skip


def _of_row(random: Random, row, battery_v: float | None) -> Reading | None:  # type: ignore[no-untyped-def]
    at = battery_v or 12.6
    low = -1.0 if row.low is None else row.low[0] * at + row.low[1]
    high = 3 * abs(low) + 10 if row.high is None else row.high[0] * at + row.high[1]
    beside = random.random() < 0.12
    value = (
        random.choice([low - 0.7, high + 0.7, 2.5, 6.2, 60.0])
        if beside
        else random.uniform(low, high)
    )
    state = random.choice(row.states)
    minutes = random.choice([30.0, 65.0, 65.0, None]) if state == "asleep" else None
    return reading(
        state, max(value, 0.0) if row.quantity == "ohm" else value, quantity=row.quantity,
        against="battery_negative" if row.against == "ground" else "4", battery_v=battery_v,
        load=random.choice(row.loads or ("none",)), minutes=minutes,
    )  # fmt: skip


def check(car: Vehicle, one: Pin) -> tuple[int, int]:
    """Assert both directions for a pin; return how many stops and full proofs there were."""
    stops, grade = stops_on(car, one), grade_pin(car, one, HOUSE)
    full = any(item.supports and item.method == "full" for item in grade.items)
    if stops:
        other = proved_otherwise(Place("A", one), Visit(one.readings, ()), HOUSE)
        least = HOUSE.weight_full if other else HOUSE.weight_part
        assert grade.opposition >= least - 1e-9, (stops, one.function, grade.sentences)
        assert not full, (stops, one.function, one.readings)
    return len(stops), int(full)


@pytest.mark.parametrize("function", sorted(set(FUNCTIONS) - PAIRED))
def test_a_stop_opposes_and_a_full_proof_is_never_stopped(function: str) -> None:
    random = Random(f"rule and grade {function}")
    stops = 0
    for kind in KINDS:
        for _ in range(EACH // 10 if kind.function != function else EACH):
            car = car_of(pin("3", function, readings=drawn(random, kind)))
            stops += check(car, car.plugs[0].pins[0])[0]
    assert stops or function not in {"constant", "accessory", "run", "retained", "amplifier_on"}


def across(leg: Pin, readings: tuple[Reading, ...]) -> tuple[Reading, ...]:
    """The readings as those of a leg in cavity 3 or 4."""
    other = "3" if leg.cavity == "4" else "4"
    return tuple(replace(r, against=other) if r.against == "4" else r for r in readings)


@pytest.mark.parametrize("outputs", ["bridged", "common_ground", "unknown"])
@pytest.mark.parametrize("function", sorted(PAIRED))
def test_both_legs_of_a_pair_are_opposed_where_a_rule_stops_one(
    function: str, outputs: str
) -> None:
    random, stops = Random(f"pair {function} {outputs}"), 0
    of_pair = [kind for kind in KINDS if kind.function == function]
    for _ in range(EACH * 2):
        legs = [
            replace(leg, function=function, readings=across(leg, drawn(random, kind)))
            for leg in (speaker("3", "positive"), speaker("4", "negative"))
            for kind in [random.choice(of_pair)]
        ]
        car = car_of(*legs, outputs=outputs)
        for one in car.plugs[0].pins:
            stops += check(car, one)[0]
    assert stops


LIGHTS = (reading("lights_off", 0.0), reading("lights_on", 7.9))


def graded(function: str, *readings: Reading) -> tuple[Grade, list[str]]:
    car = car_of(pin("3", function, readings=readings))
    return grade_pin(car, car.plugs[0].pins[0], HOUSE), stops_on(car, car.plugs[0].pins[0])


@pytest.mark.parametrize("more", [(), (reading("accessory", 0.0),), (reading("accessory", 12.3),)])
def test_an_accessory_proved_to_be_illumination_is_opposed_in_full(
    more: tuple[Reading, ...],
) -> None:
    grade, stops = graded("accessory", *LIGHTS, *more)
    proved = not more or more[0].value == 0.0
    assert grade.opposition == pytest.approx(HOUSE.weight_full if proved else HOUSE.weight_part)
    assert "MET104" in stops


def test_a_wire_that_only_another_function_explains_is_opposed_without_a_stop() -> None:
    grade, stops = graded("accessory", reading("run", 4.2, quantity="hz"))
    assert grade.opposition == pytest.approx(HOUSE.weight_full)
    assert "speed signal" in grade.why and not stops


def test_an_aerial_output_fully_read_does_not_oppose_a_turn_on_that_fits_as_well() -> None:
    grade, _ = graded("amplifier_on", reading("radio_off", 0.0), reading("tuner", 12.1))
    assert grade.opposition == 0 and grade.support > 0
