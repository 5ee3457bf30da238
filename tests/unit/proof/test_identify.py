"""Unknown cavities: what the readings name, when they cannot, and what to measure next."""

from __future__ import annotations

from proof_cars import ohm, reading

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function
from builder.proof.identify import identify
from builder.proof.next_test import expected_remaining, propose
from builder.proof.row_making import at, line
from builder.proof.shapes import Kind, Signature, resolve
from builder.proof.signatures import kinds
from builder.proof.splitting import Measurement, deciding_measurement, spans_of

HOUSE = HouseDefaults()
TABLE = kinds(HOUSE)


def test_a_supply_that_sleeps_is_ruled_out_by_opening_the_door() -> None:
    found = identify([reading("asleep", 0.03), reading("accessory", 12.4)], HOUSE)
    assert set(found.tie) == {"accessory", "retained", "constant_sleeps"}
    assert found.next is not None
    assert found.next.measurement.state == "door_open"
    assert found.next.remaining == (2 * 2 + 1 * 1) / 3


def test_accessory_or_retained_is_settled_by_leaving_the_door_shut() -> None:
    readings = [reading("asleep", 0.03), reading("accessory", 12.4), reading("door_open", 0.0)]
    found = identify(readings, HOUSE)
    assert set(found.tie) == {"accessory", "retained"}
    assert found.verdict.startswith("these readings cannot decide between")
    assert found.next is not None
    assert found.next.measurement == Measurement("retained", "dc_v", "ground", "none")
    assert found.next.remaining == 1.0
    assert "accessory reads at most 0.50 V" in found.next.sentence


def test_three_readings_name_a_retained_accessory() -> None:
    readings = [reading("asleep", 0.03), reading("accessory", 12.4), reading("retained", 12.3)]
    assert identify(readings, HOUSE).tie == ("retained",)


def test_a_wire_that_moves_with_the_lights() -> None:
    found = identify([reading("lights_off", 0.0), reading("lights_on", 7.9)], HOUSE)
    assert found.tie == ("illumination",)


def test_two_and_a_half_volts_may_be_either_data_wire() -> None:
    found = identify([reading("accessory", 2.5), ohm(60.0, "4")], HOUSE)
    assert set(found.tie) == {"data_high", "data_low"}


def test_a_camera_supply_is_not_a_switched_supply() -> None:
    found = identify([reading("asleep", 0.0), reading("radio_on_zero", 6.1)], HOUSE)
    assert not {"accessory", "retained", "amplifier_on"} & set(found.tie)
    assert "camera_supply" in found.tie


def test_nothing_fits() -> None:
    found = identify([reading("accessory", 40.0), reading("run", 40.0)], HOUSE)
    assert "accessory" not in found.open_functions
    assert found.candidates[-1].contradicted


def test_no_readings_prove_nothing_and_the_first_test_is_cheap() -> None:
    found = identify([], HOUSE)
    assert found.verdict == "the readings bear out nothing yet"
    assert found.next is not None
    assert found.next.measurement.effort == 1


def test_no_load_is_proposed_unless_allowed_and_safe_for_all() -> None:
    for readings in ([], [reading("asleep", 0.0)], [reading("accessory", 12.4)]):
        for may_load in (False, True):
            found = identify(readings, HOUSE, may_load=may_load)
            assert found.next is not None
            assert found.next.measurement.load == "none"


def test_a_load_is_proposed_only_when_allowed_open_first_and_safe_for_every_candidate() -> None:
    """Two made-up kinds that only a load tells apart: one holds, the other collapses."""

    def kind(function: Function, low: float, high: float) -> Kind:
        rows = (
            line(("accessory",), at(10), at(15)),
            line(("accessory",), at(low), at(high), loads=("lamp_0.4a",)),
        )
        return resolve(Signature(function, function, function, {}, rows), HOUSE)

    supplies = [kind("accessory", 11, 15), kind("run", 0, 5)]
    unloaded = [reading("accessory", 12.4)]
    assert propose(supplies, unloaded, may_load=False) is None
    assert propose(supplies, [reading("asleep", 0.0)], may_load=True) is None
    allowed = propose(supplies, unloaded, may_load=True)
    assert allowed is not None
    assert allowed.measurement.load == "lamp_0.4a"
    with_data = [kind("accessory", 11, 15), kind("data_single", 0, 5)]
    assert propose(with_data, unloaded, may_load=True) is None


def test_expected_remaining_is_the_sum_of_squares_over_n() -> None:
    """With the key off the retained supply is told from the other two; at run none is."""
    functions = ("accessory", "retained", "run")
    spans = [(name, spans_of(TABLE[name])) for name in functions]
    key_off = Measurement("retained", "dc_v", "ground", "none")
    assert expected_remaining(key_off, functions, spans) == (2 * 2 + 1 * 1) / 3
    run = Measurement("run", "dc_v", "ground", "none")
    assert expected_remaining(run, functions, spans) == 3


def test_the_deciding_measurement_parts_two_functions() -> None:
    measurement = deciding_measurement([TABLE["constant"]], [TABLE["accessory"]])
    assert measurement is not None
    assert (measurement.effort, measurement.load) == (1, "none")
    assert deciding_measurement([TABLE["ground"]], [TABLE["shield"]]) is None


def test_a_lone_bias_is_followed_by_a_reading_in_another_state() -> None:
    found = identify([reading("radio_on_zero", 6.4)], HOUSE)
    assert {"speaker", "line", "camera_supply", "microphone"} <= set(found.tie)
    assert found.next is not None
    assert found.next.measurement.state != "radio_on_zero"


def test_run_and_reverse_cannot_be_told_apart_and_the_verdict_says_why() -> None:
    readings = [reading("asleep", 0.0), reading("accessory", 0.0), reading("run", 12.3)]
    found = identify(readings, HOUSE)
    assert set(found.tie) == {"run", "reverse"}
    assert found.next is None
    assert "Only reverse gear shows it" in found.verdict
