"""Levels: published and hand-worked figures, and which figure a plan takes."""

from __future__ import annotations

import json
from dataclasses import replace
from math import sqrt
from pathlib import Path
from typing import Any

import pytest
from plan_cars import bridged_pair, car, channel, common_pair, converter, doors_car, plug, retained

from builder.model.house_defaults import HouseDefaults
from builder.planning import tables
from builder.planning.car.output_sums import behind_pad_v_rms
from builder.planning.feeds.band_sums import crossover_hz, delay_limit_ms, phase_deg, sum_loss_db
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.levels.level_pad import pad_resistor_ohm, padded_margin_db
from builder.planning.levels.signal_levels import level_verdict
from builder.planning.preferred import next_preferred
from builder.units import parallel_ohm, voltage_ratio_db, volts_for_power

VECTORS = Path(__file__).parents[2] / "vectors"
HOUSE = HouseDefaults()


def groups(name: str) -> dict[str, Any]:
    data = json.loads((VECTORS / f"{name}.json").read_text(encoding="utf-8"))
    return {group["name"]: group for group in data["groups"]}


AUDIO = groups("audio_levels")
BRIDGE = groups("bridge_outputs")
MARGINS = groups("input_margins")


@pytest.mark.parametrize("group", [*AUDIO.values(), *BRIDGE.values(), *MARGINS.values()])
def test_every_vector_names_its_source_and_status(group: dict[str, Any]) -> None:
    assert group["source"]["text"] and group["source"]["status"]


@pytest.mark.parametrize(("power_w", "ohm", "v_rms"), AUDIO["volts_for_power"]["cases"])
def test_volts_for_power(power_w: float, ohm: float, v_rms: float) -> None:
    assert volts_for_power(power_w, ohm) == pytest.approx(v_rms, abs=0.001)


@pytest.mark.parametrize(("power_w", "ohm"), AUDIO["volts_for_power"]["refused"])
def test_volts_for_power_refuses(power_w: float, ohm: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        volts_for_power(power_w, ohm)


@pytest.mark.parametrize(
    ("name", "reference"),
    [("dbv", 1.0), ("dbu", sqrt(0.6))],  # 0 dBu: 1 mW in 600 Ω
)
def test_decibel_references(name: str, reference: float) -> None:
    for v_rms, level in AUDIO[name]["cases"]:
        assert voltage_ratio_db(v_rms, reference) == pytest.approx(level, abs=0.001)
    for (v_rms,) in AUDIO[name]["refused"]:
        with pytest.raises(ValueError, match="positive"):
            voltage_ratio_db(v_rms, reference)


def test_bridge_against_the_data_sheet() -> None:
    sheet = BRIDGE["data_sheet_points"]["values"]
    assert sheet["one_percent_w"] == tables.BRIDGE_ONE_PERCENT_W
    assert tables.bridge_one_percent_v_rms() == pytest.approx(sheet["one_percent_v_rms"], abs=0.005)
    # A cautious clean level lies under the 1 % point, hard clipping under the saturated square.
    assert HOUSE.clean_level_v_rms < tables.bridge_one_percent_v_rms()
    assert tables.bridge_square_v() < sqrt(sheet["saturated_square_w"] * 4)


def test_bridge_against_physics() -> None:
    lossless = BRIDGE["lossless_bridge"]["values"]
    supply = tables.AUDIO_SUPPLY_V
    assert supply**2 / 8 == pytest.approx(lossless["sine_w"], abs=0.005)
    assert volts_for_power(lossless["sine_w"], 4) == pytest.approx(
        lossless["sine_v_rms"], abs=0.005
    )
    assert tables.bridge_one_percent_v_rms() < lossless["sine_v_rms"]


def test_cautious_levels() -> None:
    worked = BRIDGE["cautious_levels"]["values"]
    assert tables.bridge_clean_v_rms(7.2) == pytest.approx(worked["bridge_clean_v_rms"], abs=0.005)
    assert HOUSE.clean_level_v_rms == worked["bridge_clean_v_rms"]
    assert tables.bridge_square_v() == pytest.approx(worked["bridge_hard_clipped_v"])
    assert tables.single_ended_clean_v_rms() == pytest.approx(
        worked["single_ended_clean_v_rms"], abs=0.005
    )


@pytest.mark.parametrize(("source", "limit", "margin", "verdict"), MARGINS["margin_db"]["cases"])
def test_margins(source: float, limit: float, margin: float, verdict: str) -> None:
    found = voltage_ratio_db(limit, source)
    assert found == pytest.approx(margin, abs=0.05)
    assert level_verdict(found, HOUSE) == verdict


def test_a_margin_of_exactly_the_house_s_least_is_fine_and_one_of_nothing_thin() -> None:
    assert level_verdict(HOUSE.margin_thin_db, HOUSE) == "fine"
    assert level_verdict(0.0, HOUSE) == "thin"


@pytest.mark.parametrize(("source", "limit", "ohm", "pad"), MARGINS["pad_ohm"]["cases"])
def test_pads(source: float, limit: float, ohm: float, pad: float) -> None:
    assert pad_resistor_ohm(source, limit, ohm, 3.0) == pytest.approx(pad)


@pytest.mark.parametrize(
    ("low", "high", "delay", "phase", "loss", "limit_us"), MARGINS["band_sum"]["cases"]
)
def test_band_sums(
    low: float, high: float, delay: float, phase: float, loss: float, limit_us: float
) -> None:
    crossover = crossover_hz(low, high)
    assert phase_deg(crossover, delay) == pytest.approx(phase, abs=0.05)
    assert sum_loss_db(crossover, delay) == pytest.approx(loss, abs=0.005)
    assert delay_limit_ms(crossover) * 1000 == pytest.approx(limit_us, abs=0.05)


def test_e12_steps() -> None:
    assert next_preferred(8.2, tables.E12) == pytest.approx(8.2)
    assert next_preferred(8.3, tables.E12) == pytest.approx(10)
    assert next_preferred(0.101, tables.E12) == pytest.approx(0.12)
    with pytest.raises(ValueError, match="positive"):
        next_preferred(0, tables.E12)


def test_parallel_ohms() -> None:
    assert parallel_ohm(4, 100) == pytest.approx(3.846, abs=0.001)


def level_of(vehicle: Any, identity: str = "cvn-2a") -> Any:
    return make_plan(vehicle, converter(identity), defaults=HOUSE).levels[0]


def test_a_measured_level_beats_the_label() -> None:
    found = {"clean_max_v_rms": 7.5, "at_volume_step": 30, "label_w": 17, "label_ohm": 4}
    vehicle = doors_car([retained(9)], channels=[channel("rear-left", level=found)])
    assert level_of(vehicle).basis == "measured"
    assert level_of(vehicle).source_v_rms == 7.5


def test_an_unbelievable_label_gives_the_rail() -> None:
    boast = channel("rear-left", level={"label_w": 50, "label_ohm": 4})
    check = level_of(doors_car([retained(9)], channels=[boast, channel("rear-right")]))
    assert (check.basis, check.source_v_rms) == ("rail", 9.12)
    assert "14.1 V" in check.because
    assert check.converter_margin_db == pytest.approx(6.8, abs=0.05)


@pytest.mark.parametrize(
    ("driven_by", "feed", "basis"),
    [("radio", "none", "label"), ("amplifier", "analogue_variable", "leg_bias")],
)
def test_the_label_of_the_radio_is_that_of_the_pairs_it_drives_and_of_no_other(
    driven_by: str, feed: str, basis: str
) -> None:
    names = ("rear-left", "rear-right")
    pins = [pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i)]
    unit = "radio" if driven_by == "radio" else "amplifier"
    vehicle = car(
        plugs=[plug(pins, unit=unit, id="K")], factory_amplifier={"feed": feed},
        channels=[channel(name, driven_by=driven_by, level={}) for name in names],
    )  # fmt: skip
    labelled = replace(vehicle, radio=replace(vehicle.radio, label_w=16))
    check = level_of(labelled)
    assert check.basis == basis
    if basis == "label":
        assert check.source_v_rms == 8.0  # √(16·4)


def test_the_clipped_and_the_data_sheet_level_stand_apart() -> None:
    check = level_of(doors_car([retained(9)]))
    assert check.square_wave_v == pytest.approx(12.9)
    assert "9.59 V" in check.because and "12.9 V" in check.because


def test_a_common_ground_radio_gives_half() -> None:
    pins = [*common_pair("rear-left", 1), *common_pair("rear-right", 3)]
    quiet = [channel("rear-left", level={}), channel("rear-right", level={})]
    radio = {"outputs": "common_ground", "open_load_check": "no", "data_wake": "no"}
    check = level_of(car(plugs=[plug(pins)], channels=quiet, radio=radio))
    assert check.source_v_rms == pytest.approx(4.384, abs=0.001)
    assert check.square_wave_v is None


def amplified(level: dict[str, Any], bias_v: float) -> Any:
    names = ("rear-left", "rear-right")
    carried = [channel(name, driven_by="amplifier", level=level) for name in names]
    pins = [pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i, bias_v)]
    amplifier = plug(pins, unit="amplifier", id="K")
    return car(plugs=[amplifier], channels=carried, factory_amplifier={"feed": "analogue_variable"})


def test_a_boosted_amplifier_is_believed() -> None:
    check = level_of(amplified({"label_w": 80, "label_ohm": 2}, 9.9))
    assert (check.basis, check.square_wave_v) == ("amplifier_label", None)
    assert check.source_v_rms == pytest.approx(12.65, abs=0.005)


def test_without_a_label_the_bias_bounds_an_amplifier() -> None:
    check = level_of(amplified({}, 9.9))
    assert check.basis == "leg_bias"
    assert check.source_v_rms == pytest.approx((2 * 9.9 - 1.5) / sqrt(2))


def test_a_label_beyond_the_bias_is_not_believed() -> None:
    boast = amplified({"label_w": 200, "label_ohm": 2}, 8.2)
    check = level_of(boast, "cvn-6s")
    # √(200·2) = 20 V, and legs at 8.2 V give (2·8.2 − 1.5)/√2.
    assert (check.basis, check.source_v_rms) == ("leg_bias", pytest.approx(10.536, abs=0.0005))
    assert "the label would mean 20.0 V" in check.because
    fair = level_of(amplified({"label_w": 50, "label_ohm": 2}, 8.2))
    assert (fair.basis, fair.source_v_rms) == ("amplifier_label", 10)


def on_rail(vehicle: Any, rail_v: float) -> Any:
    return replace(vehicle, factory_amplifier=replace(vehicle.factory_amplifier, rail_v=rail_v))


def test_a_strong_amplifier_is_believed_on_a_raised_rail_that_the_record_states() -> None:
    strong = on_rail(amplified({"clean_max_v_rms": 21.0}, 16.0), 32)
    plan = make_plan(strong, converter("cvn-6s"), defaults=HOUSE, treatment="addon")
    assert (plan.kind, plan.levels[0].source_v_rms) == ("tap_plan", 21.0)
    assert not any("doubtful" in reason.decision for reason in plan.because)
    unlabelled = level_of(on_rail(amplified({}, 15.9), 32), "cvn-6s")
    # (32 − 1.5)/√2
    assert (unlabelled.basis, unlabelled.source_v_rms) == ("rail", pytest.approx(21.567, abs=5e-4))
    boast = level_of(on_rail(amplified({"label_w": 300, "label_ohm": 2}, 16.0), 32), "cvn-6s")
    assert boast.source_v_rms == pytest.approx(21.567, abs=5e-4)


@pytest.mark.parametrize(("clean_v_rms", "doubtful"), [(21.5, False), (21.6, True)])
def test_a_level_is_doubted_above_what_the_raised_rail_gives_and_not_what_its_bias_does(
    clean_v_rms: float, doubtful: bool
) -> None:
    """(32 − 1.5)/√2 = 21.57 V; legs read at 15.5 V would give 20.86 V."""
    vehicle = on_rail(amplified({"clean_max_v_rms": clean_v_rms}, 15.5), 32)
    plan = make_plan(vehicle, converter("cvn-6s"), defaults=HOUSE, treatment="addon")
    assert any("doubtful" in reason.decision for reason in plan.because) is doubtful


def test_a_plan_without_a_job_pads_an_input_that_would_be_overdriven() -> None:
    loud = amplified({"clean_max_v_rms": 24.5}, 14)
    plan = make_plan(loud, converter(), defaults=HOUSE)
    assert plan.kind == "tap_plan"
    check = plan.levels[0]
    assert (check.verdict, check.pad_ohm_per_leg) == ("fine", 3900)
    assert {feed.pad_ohm_per_leg for feed in plan.feeds} == {3900}


def test_a_plan_without_a_job_pads_a_thin_margin() -> None:
    plan = make_plan(amplified({"label_w": 150, "label_ohm": 2}, 14), converter(), defaults=HOUSE)
    check = plan.levels[0]
    # 17.32 V at 20 V: 1.25 dB; 1 kΩ would leave 2.83 dB, 1.2 kΩ leave 3.12 dB.
    assert (check.verdict, check.pad_ohm_per_leg) == ("fine", 1200)
    assert check.converter_margin_db >= HOUSE.margin_thin_db


@pytest.mark.parametrize(("volts", "reached"), [(24.5, 24.5 * 10 / 17.8), (8.0, 8.0)])
def test_what_is_added_up_is_what_a_pad_lets_through(volts: float, reached: float) -> None:
    """3.9 kΩ in each leg before 10 kΩ; without a pad the source itself."""
    loud = [channel(name, level={"clean_max_v_rms": volts}) for name in ("rear-left", "rear-right")]
    check = level_of(doors_car([retained(9)], channels=loud))
    assert behind_pad_v_rms(check) == pytest.approx(reached)


def test_nothing_is_rounded_before_a_pad_is_compared() -> None:
    # √(60 W · 4 Ω) at 20 V: 470 Ω leave 2.9988 dB, which prints as 3.0 and is not 3.
    source = volts_for_power(60, 4)
    assert padded_margin_db(source, 20, 10_000, 470) == pytest.approx(2.9988, abs=5e-5)
    assert pad_resistor_ohm(source, 20, 10_000, 3.0) == 560
    assert padded_margin_db(source, 20, 10_000, 560) > 3


def grounded(identity: str = "cvn-2a") -> Any:
    device = converter(identity)
    return replace(device, input=replace(device.input, type="ground_referenced"))


def common_car(volts: float) -> Any:
    sides, loud = ("rear-left", "rear-right"), {"clean_max_v_rms": volts}
    pins = [*common_pair("rear-left", 1), *common_pair("rear-right", 3), retained(9)]
    carried = [channel(name, level=loud, shared_return="no") for name in sides]
    radio = {"outputs": "common_ground", "open_load_check": "no", "data_wake": "no"}
    return car(plugs=[plug(pins)], channels=carried, radio=radio)


def test_an_input_whose_negative_is_ground_gets_no_pad_and_is_refused() -> None:
    plan = make_plan(common_car(24.5), grounded(), defaults=HOUSE)
    assert (plan.levels[0].verdict, plan.levels[0].pad_ohm_per_leg) == ("over", None)
    assert plan.kind == "no_plan"
    assert "takes no resistor" in " ".join(reason.because for reason in plan.refusals)


def test_a_thin_margin_that_no_pad_can_mend_is_said_and_allowed() -> None:
    plan = make_plan(common_car(17.3), grounded(), defaults=HOUSE)
    assert (plan.levels[0].verdict, plan.kind) == ("thin", "tap_plan")
    assert any("little room" in reason.decision for reason in plan.because)
