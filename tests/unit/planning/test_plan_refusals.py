"""What a plan refuses, puts off, or says aloud."""

from __future__ import annotations

from typing import Any

import pytest
from plan_cars import (
    FEATURES,
    amplifier_on,
    bridged_pair,
    car,
    channel,
    claimed_pair,
    converter,
    doors_car,
    plug,
    reading,
    retained,
)

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.sound import ProtectedSound
from builder.model.vehicle import Vehicle
from builder.model.words import Channel, GradeBand
from builder.planning.car.kept_sounds import gives
from builder.planning.car.pairs import find_pairs
from builder.planning.feeds.sub_merits import is_proved_sub
from builder.planning.feeds.sub_source import holds_no_bass
from builder.planning.feeds.tap_plan import make_plan, plan_as_json, serves
from builder.planning.plan import Plan
from builder.planning.trust import Trust
from builder.proof.grading.grade import Grade

HOUSE = HouseDefaults()
CORNERS = ("front-left", "front-right", "rear-left", "rear-right")


def plan_of(vehicle: Vehicle, identity: str = "cvn-2a", **more: Any) -> Plan:
    return make_plan(vehicle, converter(identity), defaults=HOUSE, **more)


def refusal(plan: Plan) -> str:
    return "\n".join(f"{r.decision}: {r.because}" for r in plan.refusals)


def path_of(vehicle: Vehicle, cavity: str) -> DataPath:
    return next(pin.path for pin in vehicle.plugs[0].pins if pin.cavity == cavity)


def features(**more: str) -> dict[str, str]:
    return dict.fromkeys(FEATURES, "no") | more


@pytest.mark.parametrize("outputs", ["bridged", "unknown"])
def test_a_ground_referenced_input_never_meets_driven_legs(outputs: str) -> None:
    radio = {"outputs": outputs, "open_load_check": "no", "data_wake": "no"}
    plan = plan_of(doors_car([retained(9)], radio=radio), "tsm-2g")
    assert plan.kind == "no_plan"
    assert "destroy" in refusal(plan)


def test_the_common_mode_limit_counts() -> None:
    limits = {"type": "floating", "max_v_rms": 20, "impedance_ohm": 10000, "common_mode_max_v": 6}
    vehicle = doors_car([retained(9)])
    low = make_plan(vehicle, converter(input=limits), defaults=HOUSE)
    assert (low.kind, "6.4 V" in refusal(low)) == ("no_plan", True)
    unstated = {key: value for key, value in limits.items() if key != "common_mode_max_v"}
    plan = make_plan(vehicle, converter(input=unstated), defaults=HOUSE)
    assert plan.kind == "tap_plan"
    assert any(reason.decision == "common-mode limit unknown" for reason in plan.because)


@pytest.mark.parametrize(("limit_v", "kind"), [(6.4, "tap_plan"), (6.3, "no_plan")])
def test_an_input_stands_its_common_mode_limit_and_no_more(limit_v: float, kind: str) -> None:
    """A change of the limit that no test noticed once: refused where the legs sit right on it."""
    limits = {"type": "floating", "max_v_rms": 20, "impedance_ohm": 10000}
    device = converter(input=limits | {"common_mode_max_v": limit_v})
    assert make_plan(doors_car([retained(9)]), device, defaults=HOUSE).kind == kind


def test_the_higher_leg_counts_against_the_common_mode_limit() -> None:
    limits = {"type": "floating", "max_v_rms": 20, "impedance_ohm": 10000, "common_mode_max_v": 6.4}
    pins = [pin for at, name in enumerate(CORNERS) for pin in bridged_pair(name, 1 + 2 * at)]
    for pin in pins[1::2]:
        pin["readings"][0]["value"] = 6.5
    vehicle = car(plugs=[plug([*pins, retained(9)])], channels=[channel(name) for name in CORNERS])
    plan = make_plan(vehicle, converter(input=limits), defaults=HOUSE)
    assert plan.kind == "no_plan"
    assert "higher above ground than the 6.4 V the input allows: " in refusal(plan)
    assert "6.5 V" in refusal(plan)


@pytest.mark.parametrize(
    ("outputs", "because"),
    [("bridged", "the negative legs are driven, or may be"),
     ("common_ground", "floating inputs work on common-ground outputs too, and bring less hum")],
)  # fmt: skip
def test_switchable_inputs_float_on_any_outputs(outputs: str, because: str) -> None:
    limits = {"type": "switchable", "max_v_rms": 20, "impedance_ohm": 10000}
    radio = {"outputs": outputs, "open_load_check": "no", "data_wake": "no"}
    plan = make_plan(doors_car([retained(9)], radio=radio), converter(input=limits), defaults=HOUSE)
    decision = "set its input switches to floating"
    assert [one.because for one in plan.because if one.decision == decision] == [because]


def test_a_subwoofer_besides_takes_a_fifth_input() -> None:
    """Four doors take four inputs: what is added up for a subwoofer comes with the fifth."""
    vehicle = doors_car([retained(9)])
    four, five = (converter("cvn-4a", inputs=inputs, sum="any") for inputs in (4, 5))
    assert serves(vehicle, four, HOUSE) == (True, "an input for each door")
    assert serves(vehicle, five, HOUSE) == (
        True,
        "an input for each door, and the subwoofer besides",
    )
    purposes = [make_plan(vehicle, each, defaults=HOUSE).purpose for each in (four, five)]
    assert purposes == ["amplify the doors", "amplify the doors and add a subwoofer"]
    unsummed = converter("cvn-4a", inputs=5, sum="none")
    assert make_plan(vehicle, unsummed, defaults=HOUSE).purpose == "amplify the doors"


def test_unproved_pairs_may_not_be_broken() -> None:
    pins = [pin for i, name in enumerate(CORNERS) for pin in claimed_pair(name, 1 + 2 * i)]
    vehicle = car(plugs=[plug([*pins, retained(9)])], channels=[channel(name) for name in CORNERS])
    plan = plan_of(vehicle, "cvn-4a")
    assert plan.kind == "probe_plan"
    assert {test.cavity for test in plan.tests} == {str(n) for n in range(1, 9)}
    assert all(test.settles for test in plan.tests)


def test_a_reading_that_settles_something_names_the_pin_it_is_of() -> None:
    pins = [pin for i, name in enumerate(CORNERS) for pin in claimed_pair(name, 1 + 2 * i)]
    vehicle = car(plugs=[plug([*pins, retained(9)])], channels=[channel(name) for name in CORNERS])
    tests = [test for test in plan_of(vehicle, "cvn-4a").tests if "whether" in test.settles]
    assert tests
    assert all(f"whether {test.plug}.{test.cavity} is a" in test.settles for test in tests)


def test_what_is_to_be_proved_says_what_would_be_done_to_the_pair() -> None:
    pins = [pin for i, name in enumerate(CORNERS) for pin in bridged_pair(name, 1 + 2 * i)]
    for pin in pins:
        del pin["readings"]
    vehicle = car(plugs=[plug([*pins, retained(9)])], channels=[channel(name) for name in CORNERS])
    doors = refusal(plan_of(vehicle, "cvn-4a"))
    assert doors.count("pair before it is broken") == 4 and "tapped" not in doors
    sub = refusal(plan_of(vehicle, "cvn-2a"))
    assert sub.count("pair before it is tapped") == 2 and "broken" not in sub


def test_a_radio_of_line_level_needs_no_converter() -> None:
    outputs = {"open_load_check": "no", "data_wake": "no"}
    line = plan_of(car(plugs=[plug([retained(9)])], radio={"outputs": "line"} | outputs))
    assert (line.kind, line.refusals[0].decision) == ("no_plan", "no converter is needed")
    driven = plan_of(car(plugs=[plug([retained(9)])], radio={"outputs": "bridged"} | outputs))
    assert (driven.kind, driven.refusals[0].decision) == (
        "no_plan",
        "nothing here can be tapped",
    )
    assert "no complete speaker pair" in driven.refusals[0].because


@pytest.mark.parametrize(
    ("cancels", "said"),
    [("yes", "the car cancels engine drone"), ("unknown", "nobody looked whether the car cancels"),
     ("no", "")],
)  # fmt: skip
def test_noise_cancellation_is_said_as_far_as_it_is_known(cancels: str, said: str) -> None:
    plan = plan_of(doors_car([retained(9)], features=features(noise_cancellation=cancels)))
    told = [one.because for one in plan.because if one.decision == "see to noise cancellation"]
    assert len(told) == (1 if said else 0)
    assert all(one.startswith(said) for one in told)


@pytest.mark.parametrize(
    ("checks", "said"),
    [("yes", "the radio mutes or faults when a pair is open"),
     ("unknown", "nobody tried whether the radio mutes when a pair is open"), ("no", "")],
)  # fmt: skip
def test_a_stand_in_load_is_said_as_far_as_it_is_known(checks: str, said: str) -> None:
    radio = {"outputs": "bridged", "open_load_check": checks, "data_wake": "no"}
    plan = plan_of(doors_car([retained(9)], radio=radio), "cvn-4a")
    told = [one.because for one in plan.because if "across each broken pair" in one.decision]
    assert len(told) == (1 if said else 0)
    assert all(one.startswith(said) for one in told)


@pytest.mark.parametrize(("corner_hz", "feeds"), [(120, True), (119, False)])
def test_a_pair_feeds_a_subwoofer_from_a_corner_of_120_hz_on(corner_hz: int, feeds: bool) -> None:
    """The corner is chosen by this project: a subwoofer is rarely asked for more."""
    carried = [channel(name, lowpass_hz=corner_hz) for name in CORNERS]
    for pair in find_pairs(doors_car(channels=carried), HOUSE):
        why = holds_no_bass(pair)
        assert why == (None if feeds else f"{pair.named} ends at {corner_hz} Hz")


def test_a_probe_plan_asks_only_for_what_is_missing() -> None:
    vehicle = doors_car([retained(9)])
    bare = bridged_pair("rear-right", 7)
    for pin in bare:
        pin["readings"] = [pin["readings"][0]]
    pins = [p for i, n in enumerate(CORNERS[:3]) for p in bridged_pair(n, 1 + 2 * i)]
    partly = car(
        plugs=[plug([*pins, *bare, retained(9)])], channels=[channel(name) for name in CORNERS]
    )
    assert plan_of(vehicle, "cvn-4a").kind == "tap_plan"
    plan = plan_of(partly, "cvn-4a")
    assert plan.kind == "probe_plan"
    asked = {(test.cavity, test.quantity, test.against) for test in plan.tests}
    assert ("7", "ohm", "A.8") in asked
    assert {cavity for cavity, _, _ in asked} <= {"7", "8"}


def test_a_disputed_pin_never_makes_a_tap_plan() -> None:
    vehicle = doors_car([retained(9)])

    class Disputed:
        band, why, raise_by = "disputed", "two meters disagree", "read it again"

    plan = make_plan(
        vehicle, converter("cvn-4a"), defaults=HOUSE, grade=lambda _vehicle, _pin: Disputed()
    )
    assert (plan.kind, plan.grade) == ("probe_plan", "disputed")


def test_a_stop_finding_under_a_leg_bars_its_pair() -> None:
    vehicle = doors_car([retained(9)])
    under = (*path_of(vehicle, "5"), "readings", 2)
    plan = plan_of(vehicle, barred={under: "0.3 Ω to the body"})
    assert [feed.channel for feed in plan.feeds][::2] == ["front-left", "front-right"]
    doors = plan_of(vehicle, "cvn-4a", barred={under: "0.3 Ω to the body"})
    assert doors.kind == "no_plan"
    assert "0.3 Ω to the body" in refusal(doors)
    assert {test.cavity for test in doors.tests} == {"5", "6"}


@pytest.mark.parametrize("path", [("plugs",), ("plugs", 0), ("scope",), ()])
def test_a_stop_finding_above_every_pin_bars_them_all(path: DataPath) -> None:
    plan = plan_of(doors_car([retained(9)]), barred={path: "the plug was read from no known face"})
    assert (plan.kind, plan.feeds) == ("no_plan", ())
    assert "no known face" in refusal(plan)


def test_a_stop_finding_on_another_plug_bars_nothing() -> None:
    vehicle = doors_car([retained(9)])
    assert plan_of(vehicle, barred={("plugs", 1): "twin plug"}).kind == "tap_plan"


def test_the_emergency_call_is_not_broken() -> None:
    call = {"sound": "emergency call", "channels": ["front-left"], "plays_key_off": "no"}
    known = {"features": features(emergency_call="yes"), "protected_sounds": [call]}
    plan = plan_of(doors_car([amplifier_on(9)], **known), "cvn-4a")
    assert (plan.kind, "emergency call" in refusal(plan)) == ("no_plan", True)
    assert plan_of(doors_car([amplifier_on(9)], **known), "cvn-2a").kind == "tap_plan"


def test_an_unknown_emergency_call_is_not_taken_for_none() -> None:
    vehicle = doors_car([amplifier_on(9)], features=features(emergency_call="unknown"))
    assert plan_of(vehicle, "cvn-4a").kind == "probe_plan"
    assert plan_of(vehicle, "cvn-2a").kind == "tap_plan"


def test_unknown_load_checking_is_not_taken_for_none() -> None:
    radio = {"outputs": "bridged", "open_load_check": "unknown", "data_wake": "no"}
    plan = plan_of(doors_car([amplifier_on(9)], radio=radio), "cvn-4a")
    assert any(reason.decision.startswith("47 Ω") for reason in plan.because)


def test_inverted_pairs_are_swapped_with_a_reason() -> None:
    channels = [channel(name) for name in CORNERS]
    channels[2]["polarity"] = "inverted"
    plan = plan_of(doors_car([retained(9)], channels=channels))
    assert [(f.leg, f.cavity) for f in plan.feeds] == [
        ("positive", "6"), ("negative", "5"), ("positive", "7"), ("negative", "8"),
    ]  # fmt: skip
    assert any(reason.decision == "swap the legs of rear left" for reason in plan.because)


def bass(swing_db: float) -> list[dict[str, Any]]:
    return [{"volume_step": 10, "hz": 40, "db": 6.0},
            {"volume_step": 30, "hz": 40, "db": 6.0 - swing_db}]  # fmt: skip


@pytest.mark.parametrize(
    ("swing_db", "correction", "chosen"),
    [(19, "no", "front-left"), (5, "no", "front-left"), (3, "no", "rear-left"),
     (13, {"max_db": 12, "hz": 40}, "rear-left")],
)  # fmt: skip
def test_bass_that_falls_with_the_volume(swing_db: float, correction: Any, chosen: str) -> None:
    channels = [channel(name) for name in CORNERS]
    channels[2]["bass_table"] = bass(swing_db)
    vehicle = doors_car([retained(9)], channels=channels)
    plan = make_plan(vehicle, converter(bass_rolloff_correction=correction), defaults=HOUSE)
    assert plan.feeds[0].channel == chosen


@pytest.mark.parametrize(("swing_db", "chosen"), [(3, "rear-left"), (3.5, "front-left")])
def test_a_boost_that_is_always_the_same_hears_no_pair_that_loses_more(
    swing_db: float, chosen: str
) -> None:
    channels = [channel(name) for name in CORNERS]
    channels[2]["bass_table"] = bass(swing_db)
    fixed = converter(bass_rolloff_correction={"max_db": 12, "hz": 40, "follows_level": "no"})
    plan = make_plan(doors_car([retained(9)], channels=channels), fixed, defaults=HOUSE)
    assert plan.feeds[0].channel == chosen


@pytest.mark.parametrize("swing_db", [3, 5])
def test_what_speaks_against_the_chosen_pair_is_said_with_it(swing_db: float) -> None:
    channels = [channel(name, bass_table=bass(swing_db)) for name in CORNERS]
    vehicle = doors_car([retained(9)], channels=channels)
    plan = make_plan(vehicle, converter(bass_rolloff_correction="no"), defaults=HOUSE)
    (why,) = [one.because for one in plan.because if one.decision.startswith("listen to")]
    assert ("Against it: bass falls 5 dB" in why) == (swing_db > HOUSE.bass_swing_db)
    assert ("Against it" in why) == (swing_db > HOUSE.bass_swing_db)


@pytest.mark.parametrize(
    ("bands", "proved"),
    [(("proven", "proven"), True), (("good", "good"), True), (("proven", "good"), True),
     (("proven", "check first"), False)],
)  # fmt: skip
def test_a_subwoofer_pair_is_proved_when_both_legs_may_be_relied_on(
    bands: tuple[GradeBand, GradeBand], proved: bool
) -> None:
    vehicle = car(plugs=[plug(bridged_pair("sub", 1))], channels=[channel("sub")])
    pairs = tuple(find_pairs(vehicle, HOUSE))
    graded = dict(zip((leg.pin.cavity for leg in pairs[0].legs), bands, strict=True))
    trust = Trust(vehicle, lambda _, pin: Grade(0.0, graded[pin.cavity], (), ""), {})
    assert is_proved_sub(pairs, trust) is proved


@pytest.mark.parametrize(
    ("channel_name", "heard"),
    [("front-left", True), ("front-left-woofer", True), ("front-right", False), ("centre", False),
     ("rear-left-tweeter", True), ("rear-left", False)],
)  # fmt: skip
def test_a_sound_comes_through_its_channels_and_the_bands_of_its_corners(
    channel_name: Channel, heard: bool
) -> None:
    sound = ProtectedSound(
        sound="chime", channels=("front-left", "rear-left-tweeter"), plays_key_off="no"
    )
    assert gives(sound, channel_name) is heard


def test_no_source_with_bass_is_refused() -> None:
    thin = [channel(name, band="high", highpass_hz=200) for name in CORNERS]
    plan = plan_of(doors_car([retained(9)], channels=thin))
    assert plan.kind == "no_plan"
    assert "carries no bass" in refusal(plan)


def test_a_fixed_level_is_refused() -> None:
    fixed = [channel(name, volume="fixed") for name in CORNERS]
    plan = plan_of(doors_car([retained(9)], channels=fixed))
    assert plan.kind == "no_plan"
    assert "does not follow the volume" in refusal(plan)


def test_loading_under_twenty_five_times_is_said() -> None:
    low = {"type": "floating", "max_v_rms": 20, "impedance_ohm": 99}
    plan = make_plan(doors_car([retained(9)]), converter(input=low), defaults=HOUSE)
    assert any(reason.decision == "listening loads the output" for reason in plan.because)


def test_a_plan_as_json_has_its_units_in_its_keys() -> None:
    data = plan_as_json(plan_of(doors_car([retained(9)])))
    assert data["turn_on"] | {"because": ""} == {
        "rung": 2, "kind": "retained", "plug": "A", "cavity": "9", "fuse_position": None,
        "interface": None, "pair": None, "draw_ma": 8, "capacity_ma": None, "because": "",
    }  # fmt: skip
    assert {"source_v_rms", "converter_margin_db"} <= set(data["levels"][0])
    assert {"converter_input", "leg", "plug", "cavity", "treatment"} <= set(data["feeds"][0])
    assert "path" not in data["feeds"][0]


def test_pages_are_made_where_they_teach() -> None:
    vehicle = doors_car([retained(9)])
    names = ("cvn-2a", "cvn-4a", "cvn-6s", "cvn-2p", "tsm-2g")
    assert [serves(vehicle, converter(name), HouseDefaults())[0] for name in names] == [True] * 5
    unknown = doors_car(factory_amplifier={"feed": "unknown"})
    served = [name for name in names if serves(unknown, converter(name), HouseDefaults())[0]]
    assert served == ["cvn-2a", "cvn-4a"]
    two = car(plugs=[plug(bridged_pair("front-left", 1))], channels=[channel("front-left")])
    assert not serves(two, converter("cvn-4a"), HouseDefaults())[0]


def test_a_reading_that_contradicts_leaves_the_pair_unproved() -> None:
    pins = bridged_pair("rear-left", 1) + bridged_pair("rear-right", 3)
    pins[0]["readings"] = [reading("radio_on_zero", 0.0)]
    vehicle = car(
        plugs=[plug([*pins, retained(9)])],
        channels=[channel("rear-left"), channel("rear-right")],
    )
    assert plan_of(vehicle, treatment="intercept").kind == "probe_plan"
