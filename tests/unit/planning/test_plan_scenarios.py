"""Whole jobs with the answers worked by hand beforehand, as far as a tap plan answers them."""

from __future__ import annotations

from typing import Any

import pytest
from plan_cars import (
    accessory,
    amplifier_on,
    bridged_pair,
    car,
    channel,
    claimed_pair,
    common_pair,
    converter,
    doors_car,
    plug,
    reading,
    retained,
)

from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.plan import Plan

Data = dict[str, Any]
HOUSE = HouseDefaults()
CORNERS = ("front-left", "front-right", "rear-left", "rear-right")


def plan_of(vehicle: Vehicle, identity: str, **more: Any) -> Plan:
    return make_plan(vehicle, converter(identity), defaults=HOUSE, **more)


def channels_fed(plan: Plan) -> list[str]:
    return [feed.channel for feed in plan.feeds if feed.leg == "positive"]


def margins(plan: Plan) -> set[float]:
    return {round(level.converter_margin_db, 1) for level in plan.levels}


def said(plan: Plan) -> str:
    parts = [f"{r.decision}: {r.because}" for r in (*plan.because, *plan.refusals)]
    return "\n".join((*parts, *plan.losses))


def test_subwoofer_on_a_plain_car() -> None:
    plan = plan_of(doors_car([retained(9)]), "cvn-2a")
    assert plan.kind == "tap_plan"
    assert channels_fed(plan) == ["rear-left", "rear-right"]
    assert {feed.treatment for feed in plan.feeds} == {"addon"}
    assert not any("speaker end" in end.what for end in plan.insulate)
    assert plan.levels[0].source_v_rms == pytest.approx(8.246, abs=0.001)
    assert margins(plan) == {7.7}
    assert (plan.turn_on.rung, plan.turn_on.cavity, plan.turn_on.draw_ma) == (2, "9", 8)
    assert "fader (rear)" in said(plan) or "fader with the rear" in said(plan)


def load_checking_car(**more: Any) -> Vehicle:
    chime = {
        "sound": "lights-left-on warning", "channels": ["front-left"], "plays_key_off": "yes",
    }  # fmt: skip
    return doors_car(
        [amplifier_on(9, max_source_ma=250), accessory(10)],
        channels=[channel(name, level={"label_w": 20, "label_ohm": 4}) for name in CORNERS],
        radio={"outputs": "bridged", "open_load_check": "yes", "data_wake": "no"},
        protected_sounds=[chime],
        **more,
    )


def test_four_doors_with_a_key_off_chime() -> None:
    plan = plan_of(load_checking_car(), "cvn-4a")
    assert plan.kind == "tap_plan"
    assert channels_fed(plan) == list(CORNERS)
    assert {feed.treatment for feed in plan.feeds} == {"intercept"}
    assert (plan.turn_on.rung, plan.turn_on.draw_ma, plan.turn_on.capacity_ma) == (1, 8, 250)
    assert plan.levels[0].source_v_rms == pytest.approx(8.94, abs=0.005)
    assert margins(plan) == {7.0}
    assert "47 Ω across each broken pair" in said(plan)
    assert "lights-left-on warning" in said(plan)


def test_a_chime_that_accessory_would_lose_is_refused() -> None:
    vehicle = doors_car(
        [accessory(10)],
        protected_sounds=[{"sound": "warning", "channels": ["front-left"], "plays_key_off": "yes"}],
    )
    assert plan_of(vehicle, "cvn-4a").kind == "no_plan"
    # The same car with a converter that wakes from the bias of a pair keeps the chime.
    plan = plan_of(vehicle, "cvn-6s")
    assert (plan.kind, plan.turn_on.kind) == ("tap_plan", "offset_wake")


def split_car(right_delay_ms: float, rears: bool = True) -> Vehicle:
    def band(name: str, **more: Any) -> dict[str, Any]:
        return channel(name, driven_by="amplifier", **more)

    woofer = {"band": "low", "lowpass_hz": 2800, "speaker_ohm": 2,
              "level": {"label_w": 50, "label_ohm": 2}}  # fmt: skip
    tweeter = {"band": "high", "highpass_hz": 3000, "level": {"label_w": 25, "label_ohm": 4}}
    rear = {"level": {"label_w": 25, "label_ohm": 4}}
    channels = [
        band("front-left-woofer", **woofer, delay_ms=0),
        band("front-left-tweeter", **tweeter, delay_ms=0.04),
        band("front-right-woofer", **woofer, delay_ms=0),
        band("front-right-tweeter", **tweeter, delay_ms=right_delay_ms),
        band("sub", band="low", lowpass_hz=120, speaker_ohm=2,
             level={"label_w": 50, "label_ohm": 2}),
    ]  # fmt: skip
    if rears:
        channels += [band("rear-left", **rear), band("rear-right", **rear)]
    pins = [
        pin
        for i, carried in enumerate(channels)
        for pin in bridged_pair(carried["channel"], 1 + 2 * i, 8.2)
    ]
    return car(
        channels=channels,
        plugs=[plug(pins, id="K", unit="amplifier")],
        factory_amplifier={"feed": "analogue_variable", "location": "under the seat"},
    )


def test_split_fronts_behind_a_factory_amplifier() -> None:
    plan = plan_of(split_car(right_delay_ms=0.03), "cvn-6s")
    assert plan.kind == "tap_plan"
    assert channels_fed(plan) == [
        "front-left-woofer", "front-left-tweeter", "front-right-woofer", "front-right-tweeter",
        "sub",
    ]  # fmt: skip
    assert "7 wanted" in said(plan) and "5 of 6 inputs used" in said(plan)
    assert "rear speakers stay on the car" in said(plan)
    assert [level.source_v_rms for level in plan.levels] == pytest.approx([10] * 5)
    assert margins(plan) == {12.0}
    assert (plan.turn_on.rung, plan.turn_on.pair) == (5, "front-left-woofer")
    assert [feed.treatment for feed in plan.feeds[-2:]] == ["addon", "addon"]
    assert [end.what for end in plan.insulate if "input 6" in end.what]


def test_the_driver_seat_setting_makes_the_bands_cancel() -> None:
    plan = plan_of(split_car(right_delay_ms=0.12), "cvn-6s")
    assert plan.kind == "probe_plan"
    refusal = next(r for r in plan.refusals if r.decision == "the bands cancel")
    assert "-6.75 dB" in refusal.because and "86 µs" in refusal.because
    assert "front right" in refusal.because


def test_split_fronts_need_a_converter_that_sums() -> None:
    plan = plan_of(split_car(right_delay_ms=0.03, rears=False), "cvn-4a")
    assert plan.kind == "no_plan"
    assert "4 inputs are needed, of which two of one side are summed" in said(plan)


def data_woken_car() -> Vehicle:
    names = ("front-left", "front-right")
    pins = [pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i, 6.6)]
    pins += [{"cavity": 7, "function": "data_high"}, {"cavity": 8, "function": "data_low"}]
    pins += [{"cavity": 9, "function": "constant"}, {"cavity": 10, "function": "constant"}]
    position = {
        "position": "F14", "panel": "cabin", "label": "rear accessory", "function": "accessory",
        "rating_a": 10,
        "readings": [
            reading("asleep", 0.0, minutes=65), reading("accessory", 12.3),
            reading("retained", 0.0), reading("auto_restart", 6.4),
        ],
    }  # fmt: skip
    return car(
        plugs=[plug(pins)],
        channels=[channel(name, level={"label_w": 50, "label_ohm": 4}) for name in names],
        radio={"outputs": "bridged", "open_load_check": "no", "data_wake": "yes"},
        fuse_positions=[position],
        features={
            "start_stop": "yes", "hybrid": "no", "noise_cancellation": "no", "engine_sound": "no",
            "emergency_call": "no",
        },
    )  # fmt: skip


def test_no_switched_wire_at_the_radio() -> None:
    plan = plan_of(data_woken_car(), "cvn-2a")
    assert plan.kind == "tap_plan"
    assert channels_fed(plan) == ["front-left", "front-right"]
    assert (plan.turn_on.rung, plan.turn_on.fuse_position) == (4, "F14")
    assert (plan.turn_on.plug, plan.turn_on.cavity) == (None, None)
    assert plan.turn_on.capacity_ma == 10_000
    assert {level.source_v_rms for level in plan.levels} == {9.12}
    assert margins(plan) == {6.8}
    assert "woken by data" in plan.ladder[0].because
    assert [r.kind for r in plan.ladder if r.verdict == "possible"] == [
        "offset_wake", "signal_wake",
    ]  # fmt: skip
    assert "A.7 data high" in said(plan) and "A.9 constant" in said(plan)
    assert "a restart pulls it to 6.4 V" in said(plan)


@pytest.mark.parametrize("identity", ["cvn-2a", "cvn-4a", "cvn-6s", "cvn-2p", "tsm-2g"])
def test_the_ladder_names_every_rung_in_order_also_those_that_are_absent(identity: str) -> None:
    for vehicle in (doors_car([retained(9)]), car()):
        rungs = [
            rung.rung for rung in make_plan(vehicle, converter(identity), defaults=HOUSE).ladder
        ]
        assert sorted(set(rungs)) == list(range(1, 9)), rungs


def common_ground_car(shared: str = "yes") -> Vehicle:
    names = ("front-left", "front-right")
    pins = [pin for i, name in enumerate(names) for pin in common_pair(name, 1 + 2 * i)]
    pins += [
        amplifier_on(9, other_source_v=0.0),
        accessory(10, fuse={"place": "F5", "rating_a": 5}),
    ]
    level = {"label_w": 4.8, "label_ohm": 4}
    return car(
        plugs=[plug(pins)],
        channels=[channel(name, level=level, shared_return=shared) for name in names],
        radio={"outputs": "common_ground", "open_load_check": "no", "data_wake": "no"},
    )


def test_an_old_common_ground_radio() -> None:
    plan = plan_of(common_ground_car(), "cvn-2p")
    assert plan.kind == "tap_plan"
    assert plan.levels[0].source_v_rms == pytest.approx(4.38, abs=0.005)
    assert margins(plan) == {7.2}
    assert "25 times the speaker" in said(plan)
    assert (plan.turn_on.kind, plan.turn_on.rung, plan.turn_on.cavity) == ("none", None, None)
    assert "the accessory supply at A.10, rung 3" in plan.turn_on.because
    verdicts = {rung.rung: rung.verdict for rung in plan.ladder}
    assert (verdicts[1], verdicts[3]) == ("refused", "chosen")
    assert "12.1 V on the tuner, 0.0 V on another" in plan.ladder[0].because


def test_no_offset_wake_on_outputs_without_bias() -> None:
    plan = plan_of(common_ground_car(), "cvn-2a")
    assert next(r for r in plan.ladder if r.rung == 5).verdict == "refused"
    assert plan.turn_on.rung == 3


def test_a_shared_return_wire_is_not_driven() -> None:
    plan = plan_of(common_ground_car(), "cvn-2p", treatment="intercept")
    assert plan.kind == "no_plan"
    assert "Run a new pair" in said(plan)
    unknown = plan_of(common_ground_car("unknown"), "cvn-2p", treatment="intercept")
    assert unknown.kind == "probe_plan"
    assert [(t.cavity, t.against) for t in unknown.tests] == [("2", "A.4")]
    assert plan_of(common_ground_car("no"), "cvn-2p", treatment="intercept").kind == "tap_plan"


def test_doors_and_subwoofer_from_four_of_six_inputs() -> None:
    level = {"label_w": 20, "label_ohm": 4}
    vehicle = doors_car(
        [amplifier_on(9, max_source_ma=100)],
        channels=[channel(name, level=level) for name in CORNERS],
    )
    plan = plan_of(vehicle, "cvn-6s")
    assert plan.kind == "tap_plan"
    assert "4 of 6 inputs used" in said(plan)
    assert (plan.turn_on.draw_ma, plan.turn_on.capacity_ma) == (8, 100)
    assert "17.9 V" in said(plan)
    unused = [end.what for end in plan.insulate if end.what.startswith("converter input")]
    assert unused == [f"converter input {n} {leg}" for n in (5, 6) for leg in
                      ("positive", "negative")]  # fmt: skip


QUESTIONS = [
    {"question": "Is there a finned box?", "cost": "panel",
     "answers": [{"answer": "no", "means": "this"}]},
    {"question": "Does the door badge say Stage?", "cost": "look",
     "answers": [{"answer": "no", "means": "this"}]},
]  # fmt: skip


def test_an_unknown_audio_level_asks_the_cheapest_question_first() -> None:
    vehicle = doors_car([retained(9)], factory_amplifier={"feed": "unknown"}, how_to_tell=QUESTIONS)
    plan = plan_of(vehicle, "cvn-2a")
    assert (plan.kind, plan.feeds) == ("no_plan", ())
    because = plan.refusals[0].because
    assert 0 < because.index("Stage") < because.index("finned box")


@pytest.mark.parametrize(
    ("feed", "why"), [("analogue_fixed", "fixed level"), ("digital", "digital link")]
)
def test_the_radio_side_of_a_factory_amplifier_is_refused(feed: str, why: str) -> None:
    vehicle = doors_car([retained(9)], factory_amplifier={"feed": feed})
    plan = plan_of(vehicle, "cvn-2a")
    assert plan.kind == "no_plan"
    assert why in plan.refusals[0].because


@pytest.mark.parametrize("feed", ["analogue_fixed", "digital"])
def test_the_outputs_of_that_amplifier_are_used(feed: str) -> None:
    doors = {"driven_by": "amplifier", "speaker_ohm": 2, "upmix": "yes",
             "level": {"label_w": 40, "label_ohm": 2}}  # fmt: skip
    channels = [channel(name, **doors) for name in ("front-left", "front-right")]
    sub = channel("sub", driven_by="amplifier", speaker_ohm=2, band="low", lowpass_hz=120,
                  level={"label_w": 80, "label_ohm": 2})  # fmt: skip
    names = ("front-left", "front-right", "sub")
    pins = [pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i, 9.9)]
    vehicle = car(
        channels=[*channels, sub],
        plugs=[plug(pins, id="K", unit="amplifier")],
        factory_amplifier={"feed": feed},
    )
    plan = plan_of(vehicle, "cvn-2a")
    assert (plan.kind, channels_fed(plan), plan.turn_on.rung) == ("tap_plan", ["sub"], 5)
    assert plan.levels[0].source_v_rms == pytest.approx(12.65, abs=0.005)
    assert plan.levels[0].converter_margin_db == pytest.approx(3.98, abs=0.005)
    fronts = plan_of(vehicle, "cvn-2a", treatment="intercept")
    assert fronts.levels[0].source_v_rms == pytest.approx(8.94, abs=0.005)
    assert margins(fronts) == {7.0}
    assert "up-mixed" in said(fronts)


# -- which pairs a subwoofer listens to -------------------------------------------------------


CALL = {
    "sound": "emergency call",
    "channels": ["front-left", "front-right"],
    "plays_key_off": "yes",
}


def fronts_and_sub(sub: list[Data], **more: Any) -> Vehicle:
    """A car whose fronts speak the emergency call, with a subwoofer pair of its own."""
    names = ("front-left", "front-right")
    pins = [pin for at, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * at)]
    bass = channel("sub", band="low", lowpass_hz=120)
    return car(
        channels=[*(channel(name) for name in names), bass],
        plugs=[plug([*pins, *sub, retained(9)])],
        **({"protected_sounds": [CALL]} | more),
    )


def test_a_proved_subwoofer_pair_comes_before_the_fronts_of_the_emergency_call() -> None:
    plan = plan_of(fronts_and_sub(bridged_pair("sub", 5)), "cvn-2a")
    assert (plan.kind, channels_fed(plan)) == ("tap_plan", ["sub"])
    assert "front left and front right: the car speaks through it: emergency call" in said(plan)


def test_a_proved_subwoofer_pair_comes_first_of_all() -> None:
    names = (*CORNERS, "sub")
    pins = [pin for at, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * at)]
    channels = [channel(name) for name in CORNERS] + [channel("sub", band="low", lowpass_hz=120)]
    plan = plan_of(car(channels=channels, plugs=[plug([*pins, retained(11)])]), "cvn-2a")
    assert channels_fed(plan) == ["sub"]


def test_a_subwoofer_pair_that_nobody_measured_does_not_come_first() -> None:
    plan = plan_of(fronts_and_sub(claimed_pair("sub", 5), protected_sounds=[]), "cvn-2a")
    assert channels_fed(plan) == ["front-left", "front-right"]


@pytest.mark.parametrize(
    ("spoken", "taken"), [("front", "rear"), ("rear", "front")], ids=["fronts", "rears"]
)
def test_pairs_that_the_car_speaks_through_come_last(spoken: str, taken: str) -> None:
    sound = CALL | {"channels": [f"{spoken}-left", f"{spoken}-right"]}
    plan = plan_of(doors_car([retained(9)], protected_sounds=[sound]), "cvn-2a")
    assert channels_fed(plan) == [f"{taken}-left", f"{taken}-right"]


def test_a_whole_protected_end_comes_before_half_of_the_bass() -> None:
    chime = {"sound": "chime", "channels": ["front-left"], "plays_key_off": "no"}
    names = ("front-left", "front-right")
    pins = [pin for at, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * at)]
    vehicle = car(
        channels=[channel(name) for name in names],
        plugs=[plug([*pins, retained(9)])],
        protected_sounds=[chime],
    )
    assert channels_fed(plan_of(vehicle, "cvn-2a")) == ["front-left", "front-right"]
