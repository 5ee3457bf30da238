"""What a plan asks to be read before a joint is made: where the probe goes, and under what load."""

from __future__ import annotations

from proof_cars import channel, pin, speaker, vehicle

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function
from builder.planning.car.measurements import pin_readings
from builder.planning.objections import Objection, object_to, plan_kind, settling_readings
from builder.planning.plan import ProofReading

HOUSE = HouseDefaults()


def wanted(function: Function, position: str | None = None) -> list[ProofReading]:
    """What proves a pin of this function in cavity A.1, or at a fuse position."""
    wire = pin("1", function, level_v=12.0 if function == "amplifier_on" else None)
    where = (None, None, position) if position else ("A", "1", None)
    return pin_readings(vehicle(wire), wire, where, HOUSE)


def test_a_ground_is_read_live_under_load_against_the_battery() -> None:
    """Against the body the drop of the body's own path would be lost; open it drops nothing."""
    (found,) = wanted("ground")
    assert (found.quantity, found.against, found.load) == ("dc_v", "battery_negative", "1a")
    assert (found.low, found.high) == (-HOUSE.ground_drop_v, HOUSE.ground_drop_v)
    assert found.safety == "Read it open first; no more than its fuse allows."


def test_a_turn_on_is_loaded_with_fifty_milliamperes_and_never_with_a_lamp() -> None:
    found = wanted("amplifier_on")
    assert [each.load for each in found] == ["none", "none", "none", "50ma"]
    assert "Never a lamp." in found[-1].safety
    assert not any(each.safety for each in found[:-1])


def test_a_supply_of_a_fuse_position_is_named_by_it_and_any_other_by_its_cavity() -> None:
    assert wanted("constant", "F 12")[0].settles.startswith("whether F 12 is a constant supply")
    assert wanted("constant")[0].settles.startswith("whether A.1 is a constant supply")


def test_ohms_of_a_leg_are_read_dead_and_against_the_body_where_no_other_leg_is_named() -> None:
    wire = speaker("1", "positive")
    car = vehicle(wire, channels=(channel(),))
    found = pin_readings(car, wire, ("A", "1", None), HOUSE)
    ohms = [each for each in found if each.quantity == "ohm"]
    assert ohms and {each.against for each in ohms} == {"body"}
    for each in found:
        dead = each.safety.startswith("Dead circuit only")
        assert dead is (each.quantity == "ohm")


def test_what_nothing_settles_is_for_good_and_each_reading_is_asked_once() -> None:
    first, second = wanted("amplifier_on")[:2]
    for_good = object_to("no", "because", "source")
    one, both = (
        object_to("later", "because", "source", settled_by=readings)
        for readings in ([first], [second, first])
    )

    def kind(*objections: Objection) -> str:
        return plan_kind(objections)

    assert kind() == "tap_plan"
    assert kind(one) == kind(one, both) == "probe_plan"
    assert kind(one, for_good) == kind(for_good, one) == "no_plan"
    assert settling_readings([one, for_good, both]) == (first, second)
