"""Single decisions of a work pack, each on the smallest job that shows it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from pack_jobs import (
    CORNERS,
    HOUSE,
    amplifier,
    chain,
    door,
    flag_kinds,
    job,
    pack_of,
    parts_of,
    route,
    said,
    shipped_parts,
    subwoofer,
    supply,
    with_supply,
)
from plan_cars import (
    accessory,
    amplifier_on,
    bridged_pair,
    car,
    channel,
    converter,
    doors_car,
    plug,
    reading,
    retained,
)
from test_pack_scenarios import (
    data_woken_car,
    doors_job,
    pickup_pack,
    plain_pack,
    power,
    restart_pack,
    split_car,
    split_pack,
    warned_car,
)

from builder.model.vehicle import Vehicle
from builder.planning.car.treatments import Treatments
from builder.planning.job.chosen import purpose_of
from builder.planning.job.lasting import Lasting, days_parked
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import WorkPack

Data = dict[str, Any]
SIGNAL = route("radio", "converter", "signal", 3)
BACK = route("doors", "radio", "amplified", 3)


@pytest.mark.parametrize(
    ("taken", "words"),
    [
        (("front-left", "front-right", "rear-left"), "amplify the doors"),
        (("rear-left-tweeter",), "amplify the rear speakers"),
        (("centre",), "amplify the centre speaker"),
        (("front-left", "centre"), "amplify the front speakers and the centre speaker"),
        ((*CORNERS, "sub"), "amplify the doors and the subwoofer"),
    ],
)
def test_the_purpose_names_every_place_in_whole_words(taken: tuple[Any, ...], words: str) -> None:
    what = job([subwoofer()], [SIGNAL], supply(4, 0.4))
    treatments = Treatments(dict.fromkeys(taken, "intercept"), (), ())
    assert purpose_of(replace(what, speakers=()), treatments) == words


def sub_pack(vehicle: Vehicle, device: Any = "cvn-2a", **more: Any) -> WorkPack:
    what = job([subwoofer("rear-left", "rear-right")], [SIGNAL], supply(4, 0.4), **more)
    return pack_of(vehicle, what, device, {"sub amp": "amn-600"}, ("2c", "3c"))


# -- levels -----------------------------------------------------------------------------------


def loud_car(volts: float) -> Vehicle:
    return doors_car(
        [retained(9)],
        channels=[channel(name, level={"clean_max_v_rms": volts}) for name in CORNERS],
    )


def test_a_source_too_loud_gets_a_pad_and_its_margin() -> None:
    pack = sub_pack(loud_car(24.5))
    assert pack.kind == "tap_plan"
    link = chain(pack, "subwoofer")
    # 20 V/24.5 V less 3 dB: k = 0.5779, R = 5000·(1/k - 1) = 3652 Ω, next 3.9 kΩ.
    assert link.pad_ohm_per_leg == pytest.approx(3900)
    assert link.source_v_rms == 24.5
    assert link.converter_margin_db == pytest.approx(3.25, abs=0.01)
    # The gain makes up for the pad: 4.5/(24.5·10/17.8).
    assert link.converter_gain == pytest.approx(4.5 / (24.5 * 10 / 17.8))
    assert "in each leg" in said(pack) or "in each leg" in link.because
    (resistor,) = [part for part in pack.parts if part.item == "resistor 3.9 kΩ 0.25 W"]
    assert resistor.quantity == 4


def test_a_line_that_is_too_loud_is_told_in_volts() -> None:
    least = converter("cvn-2a", gain={"kind": "adjustable", "min": 1.0, "max": 2.0})
    (flag,) = [f for f in sub_pack(loud_car(8), least).flags if f.kind == "line_above_input"]
    assert (flag.value, flag.limit, flag.unit) == (8.0, 5.0, "V")


def test_a_grounded_input_gets_no_pad() -> None:
    vehicle = loud_car(24.5)
    grounded = replace(vehicle, radio=replace(vehicle.radio, outputs="common_ground"))
    device = converter("tsm-2g", turn_on={"remote_in": {"draw_ma": 8, "threshold_v": 7.0},
                                         "offset_wake": "no", "signal_wake": "no"})  # fmt: skip
    pack = sub_pack(grounded, device)
    assert pack.kind == "no_plan" and "overdriven" in said(pack)


def test_a_sum_that_clips_is_refused() -> None:
    vehicle = loud_car(8.9)
    limits = {"max_v_rms": 40, "impedance_ohm": 10000, "after_sum_max_v_rms": 16}
    narrow = converter("cvn-6s", input={"type": "floating", "common_mode_max_v": 16} | limits)
    pack = sub_pack(vehicle, narrow)
    assert pack.kind == "no_plan" and "more than the 16 V it takes after the sum" in said(pack)


def test_two_speakers_side_by_side_halve_the_load() -> None:
    speakers = [door("front-left", 1), door("front-right", 1, **{"from": ["front-left"]})]
    what = job(speakers, [SIGNAL, BACK], supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"doors": "amn-4"})
    link = chain(pack, "front-left door")
    assert (link.load_ohm, link.limited_by) == (2, "amplifier")
    assert link.set_v_rms == pytest.approx((85 * 2) ** 0.5)


@pytest.mark.parametrize(("ohm", "kind"), [(2.0, "tap_plan"), (1.98, "no_plan")])
def test_a_load_under_the_least_is_refused_by_any_hair(ohm: float, kind: str) -> None:
    """An amplifier that may drive 2 Ω is not held to a bit more by rounding, nor to any less."""
    speakers = [door("front-left", 1, nominal_ohm=ohm), door("front-right", 2)]
    what = job(speakers, [SIGNAL, BACK], supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"doors": "amn-4"})
    assert pack.kind == kind
    assert ("the load is too low" in said(pack)) is (kind == "no_plan")


def test_one_channel_cannot_play_two_things() -> None:
    speakers = [door("front-left", 1), door("front-right", 1)]
    what = job(speakers, [SIGNAL, BACK], supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"doors": "amn-4"})
    assert pack.kind == "no_plan" and "one channel cannot play two things" in said(pack)


@pytest.mark.parametrize(
    ("driver", "words"),
    [({"amplifier": "doors", "channel": 5}, "has 4 channels"),
     ({"amplifier": "gone", "channel": 1}, "no amplifier of the name gone")],
)  # fmt: skip
def test_a_channel_that_is_not_there(driver: Data, words: str) -> None:
    what = job([door("front-left", 1, driven_by=driver)], [SIGNAL, BACK], supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"doors": "amn-4"})
    assert pack.kind == "no_plan" and words in said(pack)


def test_an_overlap_is_set_with_the_quiet_tone() -> None:
    what = job([door("front-left", 1, overlap="yes")], [SIGNAL, BACK], supply(4, 0.4))
    link = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"doors": "amn-4"}).levels[0]
    assert link.tone_v_rms == pytest.approx(link.set_v_rms)
    assert "-5 dBFS" in link.tone_note and "music reaches that 5 dB before" in link.tone_note


def test_doors_are_set_before_the_subwoofer() -> None:
    assert [gain.channel for gain in pickup_pack().gains] == [*CORNERS, "sub"]


# -- pairs and converters ---------------------------------------------------------------------


def test_a_converter_that_adds_nothing_feeds_a_mono_amplifier_from_two_outputs() -> None:
    assert chain(plain_pack(), "subwoofer").sources_summed == 1
    speakers = [door("front-left", 1, **{"from": ["front-left", "rear-left"]})]
    what = job(speakers, [SIGNAL, BACK], supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"doors": "amn-4"})
    assert pack.kind == "no_plan" and "adds no such inputs together" in said(pack)
    assert "CVN-6S would do instead" in said(pack)
    same_side = converter("cvn-2a", sum="same_side")
    pack = pack_of(doors_car([retained(9)]), what, same_side, {"doors": "amn-4"})
    assert pack.kind == "tap_plan" and chain(pack, "front-left door").sources_summed == 2


def test_a_smaller_converter_is_named() -> None:
    pack = sub_pack(doors_car([retained(9)]), "cvn-6s")
    assert "CVN-6S is larger than needed" in said(pack) and "CVN-2A has fewer" in said(pack)
    assert "CVN-2A is the smallest that serves" in said(sub_pack(doors_car([retained(9)])))


def test_a_converter_that_would_need_a_pad_is_not_named_instead() -> None:
    """24.5 V overdrive its 20 V inputs: with resistors in each leg it serves, and not as it is."""
    vehicle = loud_car(24.5)
    assert sub_pack(vehicle).kind == "tap_plan"
    assert "CVN-2A would do instead" not in said(sub_pack(vehicle, "cvn-6s"))


def test_the_count_of_inputs_names_the_pairs_that_are_played() -> None:
    (why,) = [
        each.because
        for each in sub_pack(doors_car([retained(9)])).because
        if each.decision == "2 of 2 inputs used"
    ]
    assert why == "the job's speakers play rear left, rear right"


@pytest.mark.parametrize(("loudest_v", "room"), [(14.1, ""), (14.3, " (only 2.9 dB of room")])
def test_another_converter_is_named_with_its_room_where_that_is_thin(
    loudest_v: float, room: str
) -> None:
    """20 V in have 3.04 dB over 14.1 V and 2.91 dB over 14.3 V; three are wanted."""
    (why,) = [
        each.because
        for each in sub_pack(loud_car(loudest_v), "cvn-6s").alternatives
        if each.decision == "CVN-2A would do instead"
    ]
    assert why.startswith(f"2 of its 2 inputs, up to 20 V{room}")
    assert ("only" in why) is bool(room)


def test_a_pair_nobody_described() -> None:
    vehicle = doors_car([retained(9)])
    what = job([subwoofer("centre")], [SIGNAL], supply(4, 0.4))
    pack = pack_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"})
    assert pack.kind == "no_plan" and "centre cannot be used" in said(pack)


def test_a_tweeter_feeds_no_subwoofer() -> None:
    vehicle = doors_car(
        [retained(9)],
        channels=[channel(name, band="high", highpass_hz=3000) for name in CORNERS],
    )
    pack = sub_pack(vehicle)
    assert pack.kind == "no_plan" and "carries no bass" in said(pack)


def swinging(db: float) -> Vehicle:
    table = [{"volume_step": 10, "hz": 40, "db": 6}, {"volume_step": 30, "hz": 40, "db": 6 - db}]
    return doors_car([retained(9)], channels=[channel(n, bass_table=table) for n in CORNERS])


def test_bass_that_falls_with_volume() -> None:
    flat = {"bass_rolloff_correction": "no"}
    assert "corrects" in said(sub_pack(swinging(10)))
    assert "loses bass when loud" in said(sub_pack(swinging(10), converter("cvn-2a", **flat)))
    refused = sub_pack(swinging(19), converter("cvn-2a", **flat))
    assert refused.kind == "no_plan" and "falls 19 dB" in said(refused)


@pytest.mark.parametrize(("db", "kind"), [(10.0, "tap_plan"), (10.5, "no_plan")])
def test_bass_that_falls_by_more_than_ten_decibels_is_no_source(db: float, kind: str) -> None:
    pack = sub_pack(swinging(db), converter("cvn-2a", bass_rolloff_correction="no"))
    assert pack.kind == kind


def test_one_side_only_loses_the_other() -> None:
    what = job([subwoofer("rear-left")], [SIGNAL], supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))
    assert "Bass that is only on the other side is lost." in pack.losses


def test_a_corner_fed_from_its_woofer_alone_loses_the_treble() -> None:
    parts = [{"from": ["front-left-woofer"]}, {"from": ["front-right-woofer"]}]
    assert split_pack(0.03).losses != ()
    routes = [
        route("factory amplifier", "converter", "signal", 3),
        route("amp", "factory amplifier", "amplified", 3),
    ]
    speakers = [
        door(f"front-{side}", at, driven_by={"amplifier": "amp", "channel": at}, **more)
        for at, (side, more) in enumerate(zip(("left", "right"), parts, strict=True), 1)
    ]
    what = job(speakers, routes, supply(4, 0.4))
    pack = pack_of(split_car(0.12), what, "cvn-6s", {"amp": "amn-3"})
    assert any(loss.startswith("Treble of the front-left is lost") for loss in pack.losses)
    assert pack.kind == "tap_plan"  # no bands are joined, so none cancel
    ends = {row.purpose for row in pack.conductors if row.demand_class == "amplified"}
    assert "front left tweeter to its speaker +" in ends


def test_what_the_job_says_of_a_pair_holds_where_it_is_lawful() -> None:
    pack = sub_pack(doors_car([retained(9)]), treatment={"front-left": "addon"})
    assert pack.kind == "tap_plan" and "front left: add-on" in said(pack)
    forbidden = sub_pack(doors_car([retained(9)]), treatment={"rear-left": "none"})
    assert forbidden.kind == "no_plan" and "asked for and forbidden" in said(forbidden)


# -- sounds -----------------------------------------------------------------------------------


def test_a_sound_the_record_does_not_know_is_looked_for() -> None:
    pack = doors_job(warned_car())
    assert pack.kind == "tap_plan"
    parts = parts_of(
        warned_car(),
        job(
            [door(name, at) for at, name in enumerate(CORNERS, 1)],
            [SIGNAL, BACK],
            supply(4, 0.4),
            protect=["seat-belt gong"],
        ),
        "cvn-4a",
        {"doors": "amn-4"},
    )
    asked = make_pack(parts, defaults=HOUSE)
    assert asked.kind == "probe_plan" and "find the seat-belt gong first" in said(asked)
    # As it is now, four pairs, and as it was before.
    assert sum("gong" in test.what for test in asked.tests) == 6
    silent = replace(parts, vehicle=replace(parts.vehicle, protected_sounds=()))
    assert make_pack(silent, defaults=HOUSE).kind == "tap_plan"


def test_accessory_would_lose_the_warning() -> None:
    pack = doors_job(replace(warned_car(), plugs=doors_car([accessory(10)]).plugs))
    assert pack.kind == "no_plan" and "heard with the key off" in said(pack)


# -- turn-on ----------------------------------------------------------------------------------


def logic_car(*more: Data, **facts: Any) -> Vehicle:
    pin = amplifier_on(9, level_v=5)
    for each in pin["readings"]:
        each["value"] = min(each["value"], 4.9)
        if each.get("load") == "50ma":
            each["load"] = "5ma"
    return doors_car([pin, *more], **facts)


def test_a_logic_level_has_a_driver_when_nothing_better_is_there() -> None:
    plain = {"remote_in": {"draw_ma": 8, "threshold_v": 7.0}, "offset_wake": "no",
             "signal_wake": "no"}  # fmt: skip
    device = converter("cvn-2a", turn_on=plain)
    pack = sub_pack(logic_car(), device)
    assert (pack.kind, pack.plan.turn_on.rung, pack.plan.turn_on.draw_ma) == ("tap_plan", 1, 1)
    assert "5 V does not switch a 12 V input" in said(pack)
    assert any(part.item == "transistor or relay driver" for part in pack.parts)
    better = sub_pack(logic_car(retained(10)), device)
    assert (better.plan.turn_on.rung, better.plan.turn_on.cavity) == (2, "10")


def test_what_is_proved_goes_before_what_needs_no_driver() -> None:
    """A change of the chooser that no test noticed once: no driver first, then proved."""
    plain = {"remote_in": {"draw_ma": 8, "threshold_v": 7.0}, "offset_wake": "no",
             "signal_wake": "no"}  # fmt: skip
    unread = retained(10, readings=[reading("accessory", 12.4)])
    pack = sub_pack(logic_car(unread), converter("cvn-2a", turn_on=plain))
    assert (pack.kind, pack.plan.turn_on.rung, pack.plan.turn_on.cavity) == ("tap_plan", 1, "9")
    assert any(part.item == "transistor or relay driver" for part in pack.parts)


def test_a_converter_that_wakes_by_itself_must_switch_the_amplifier() -> None:
    pack = sub_pack(doors_car(), converter("cvn-2a", remote_out="none"))
    assert pack.kind == "no_plan" and "nothing switches the amplifier on" in said(pack)
    assert sub_pack(doors_car()).kind == "tap_plan"


@pytest.mark.parametrize(
    ("device", "end"), [("cvn-2a", "CVN-2A turn-on in"), ("cvn-2p", "sub amp turn-on")]
)
def test_the_turn_on_wire_ends_where_there_is_an_input_for_it(device: str, end: str) -> None:
    """A passive converter has nothing to switch: the car's wire goes on to the amplifier."""
    quiet = [channel(name, level={"clean_max_v_rms": 8}) for name in CORNERS]
    vehicle = doors_car([amplifier_on(9, max_source_ma=250)], channels=quiet)
    links = {row.from_terminal: row.to_terminal for row in sub_pack(vehicle, device).wiring}
    assert links["A.9"] == end


def test_staying_awake_too_long_is_flagged() -> None:
    heavy = {"locks_per_day": 14, "wake_hold_min": 12, "idle_a": 0.9}
    parts = parts_of(
        doors_car(),
        job([subwoofer("rear-left", "rear-right")], [SIGNAL], supply(4, 0.4, **heavy)),
        "cvn-2a",
        {"sub amp": "amn-600"},
    )
    pack = make_pack(parts, defaults=HOUSE)
    assert pack.plan.turn_on.kind == "offset_wake" and "latch_heavy" in flag_kinds(pack)
    assert pack.power is not None and pack.power.latch_ah_per_day == pytest.approx(2.52)
    unknown = make_pack(with_supply(parts, wake_hold_min=None), defaults=HOUSE)
    assert "measure how long it stays awake" in said(unknown)


def test_no_way_for_the_turn_on_wire() -> None:
    routes = [route("luggage trim", "converter", "signal", 2)]
    routes[0] |= {"proved_there": {"by": "alder-pit-audio", "date": "2024-06-01"}}
    what = job([subwoofer("rear-left", "rear-right")], routes, supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))
    assert pack.kind == "no_plan" and "no route that carries control" in said(pack)


# -- supply and cables ------------------------------------------------------------------------


def test_what_is_flagged_of_a_supply() -> None:
    kinds = flag_kinds(plain_pack(fuse_to_battery_m=1.2))
    assert "fuse_far" in kinds
    assert "no maxi blade fuse is made for 175 A" in said(pickup_pack(fuse_family="maxi"))
    assert "made as bolt-down" in said(pickup_pack(fuse_family="maxi"))


@pytest.mark.parametrize(
    ("return_m", "flagged"),
    [(0.0, False), (HOUSE.ground_lead_max_m, False), (HOUSE.ground_lead_max_m + 0.1, True)],
)
def test_an_amplifier_on_the_common_ground_itself_has_no_ground_lead(
    return_m: float, flagged: bool
) -> None:
    parts = shipped_parts("rook-two-amplifiers")
    supplied = parts.job.supply
    assert supplied.distribution is not None
    branches = tuple(replace(each, return_m=return_m) for each in supplied.branches)
    block = replace(supplied.distribution, branches=branches)
    pack = make_pack(with_supply(parts, distribution=block), defaults=HOUSE)
    assert ("ground_long" in flag_kinds(pack)) is flagged


def test_a_terminal_too_small_for_its_conductor() -> None:
    vehicle = doors_car([retained(9)])
    what = job([subwoofer("rear-left", "rear-right")], [SIGNAL], supply(5.2, 0.5))
    parts = parts_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))
    small = amplifier("amn-600", terminals={"power_max_awg": 8, "speaker_max_awg": 12})
    pack = make_pack(replace(parts, amplifiers={"sub amp": small}), defaults=HOUSE)
    assert "its terminal takes 8 AWG, the run is 4 AWG" in said(pack)


def test_a_supply_nobody_measured_is_not_sized() -> None:
    parts = parts_of(
        doors_car([retained(9)]),
        job([subwoofer("rear-left", "rear-right")], [SIGNAL], supply(4, 0.4)),
        "cvn-2a",
        {"sub amp": "amn-600"},
        ("2c", "3c"),
    )
    pack = make_pack(with_supply(parts, supply_lead_m=None), defaults=HOUSE)
    assert (pack.kind, pack.power) == ("no_plan", None)
    assert "measure the supply's way first" in said(pack)


def test_a_hybrid_has_its_dc_dc_converter() -> None:
    battery = {"location": "bay", "capacity_ah": 45, "sensor_on_negative": "unknown"}
    vehicle = doors_car(
        [retained(9)],
        power={"battery": battery, "charging": {"by": "dcdc", "rated_a": 120}, "base_load_a": 32},
    )
    pack = sub_pack(vehicle)
    assert pack.power is not None and pack.power.reserve_a == 88
    assert "DC-DC converter" in said(pack) and "may sit on the negative post" in said(pack)


def test_signal_beside_the_supply_is_flagged() -> None:
    both = [
        route("radio", "converter", "signal", 3, "left sill"),
        route("battery", "amp", "supply", 4, "left sill"),
    ]
    what = job([subwoofer("rear-left", "rear-right")], both, supply(4, 0.4))
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))
    assert "signal_beside_supply" in flag_kinds(pack)
    assert "signal_beside_supply" not in flag_kinds(plain_pack())


def test_a_reel_that_is_too_short() -> None:
    parts = parts_of(
        doors_car([retained(9)]),
        job([subwoofer("rear-left", "rear-right")], [SIGNAL], supply(4, 0.4)),
        "cvn-2a",
        {"sub amp": "amn-600"},
        ("2c", "3c"),
    )
    short = replace(parts, cables=tuple(replace(c, on_reel_m=5) for c in parts.cables))
    flags = [flag for flag in make_pack(short, defaults=HOUSE).flags if flag.kind == "reel_short"]
    assert [(flag.where, flag.value, flag.limit) for flag in flags] == [("2c", 7.8, 5)]


def test_colours_that_mislead_are_named() -> None:
    # A red conductor of ours beside a red wire of the car that does other work.
    red = retained(9, wire={"base": "red"})
    assert "the car's red at A.9 is retained supply, ours is rear left signal" in said(
        sub_pack(doors_car([red]))
    )


# -- the car ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({"year": 2030}, "the car is of 2030"),
        ({"trim": "royal"}, "trim is royal"),
        ({"built": "2015-12"}, "begins with 2016-03"),
        ({"built": "2018-12"}, "ends with 2018-08"),
    ],
)
def test_a_car_outside_the_scope(facts: Data, words: str) -> None:
    scope = {"year_from": 2016, "year_to": 2018, "build_from": "2016-03", "build_to": "2018-08",
             "drive_side": "left", "bodies": ["hatch"], "markets": ["all"], "trims": ["base"],
             "radios": ["unknown"]}  # fmt: skip
    vehicle = doors_car([retained(9)], scope=scope)
    pack = sub_pack(vehicle, car={"tag": "k7m2", "answers": [], **facts})
    assert pack.kind == "no_plan" and words in said(pack)
    fits = {"tag": "k7m2", "answers": [], "year": 2017, "trim": "base", "built": "2017-05"}
    assert sub_pack(vehicle, car=fits).kind == "tap_plan"
    for year, built in ((2016, "2016-03"), (2018, "2018-08")):
        last = {**fits, "year": year, "built": built}
        assert sub_pack(vehicle, car=last).kind == "tap_plan", built


def test_an_answer_the_record_does_not_know() -> None:
    question = {"question": "Is there a box?", "cost": "panel",
                "answers": [{"answer": "yes", "means": "this"}]}  # fmt: skip
    vehicle = doors_car([retained(9)], how_to_tell=[question])
    told = {"tag": "k7m2", "answers": [{"question": "Is there a box?", "answer": "perhaps"}]}
    pack = sub_pack(vehicle, car=told)
    assert pack.kind == "no_plan" and 'answered "perhaps"' in said(pack)


def test_a_car_without_any_pair() -> None:
    vehicle = car(plugs=[plug([retained(9)])])
    pack = sub_pack(vehicle)
    assert (pack.kind, pack.treatments, pack.plan.feeds) == ("no_plan", (), ())


# -- what is seldom ---------------------------------------------------------------------------


def test_two_bands_behind_a_crossover_are_one_load() -> None:
    routes = [
        route("factory amplifier", "converter", "signal", 3),
        route("amp", "factory amplifier", "amplified", 3),
    ]
    played = {"from": ["front-left-woofer", "front-left-tweeter"]}
    driver = {"amplifier": "amp", "channel": 1}
    speakers = [
        door(f"front-left-{band}", 1, driven_by=driver, rated_w_rms=80, **played)
        for band in ("woofer", "tweeter")
    ]
    what = job(speakers, routes, supply(4, 0.4))
    pack = pack_of(split_car(0.03), what, "cvn-6s", {"amp": "amn-3"})
    assert pack.kind == "tap_plan"
    assert [link.load_ohm for link in pack.levels] == [4, 4]
    assert pack.levels[0].set_v_rms == pytest.approx(17.9, abs=0.05)
    checks = [test.what for test in pack.tests if "pulse" in test.what]
    assert ["no pulse" in what for what in checks] == [False, True]


def test_a_capacitor_in_the_wire_reads_open() -> None:
    behind = {"in_line": ["series_capacitor"], "level": {"label_w": 20, "label_ohm": 4}}
    pins = [p for at, n in enumerate(CORNERS) for p in bridged_pair(n, 1 + 2 * at)]
    for pin in pins:
        pin["readings"][1]["value"] = "open"
    pins.append(amplifier_on(9, max_source_ma=250))
    vehicle = car(plugs=[plug(pins)], channels=[channel(n, **behind) for n in CORNERS])
    back = [test for test in doors_job(vehicle).tests if "through its capacitor" in test.what]
    assert len(back) == 4 and {(test.low, test.high) for test in back} == {(10_000, None)}


@pytest.mark.parametrize(
    ("recorded_ohm", "nominal"), [(8, "8 Ω nominal"), ("unknown", "4 Ω nominal")]
)
def test_a_pair_given_back_reads_what_the_record_says_of_its_speaker(
    recorded_ohm: Any, nominal: str
) -> None:
    """The car's own speaker hangs on it: what a job says of it counts where nobody recorded it."""
    vehicle = warned_car(
        channels=[
            channel(n, speaker_ohm=recorded_ohm, level={"clean_max_v_rms": 8}) for n in CORNERS
        ]
    )
    back = [test for test in doors_job(vehicle).tests if "return-ohms" in test.id]
    assert len(back) == 4
    assert {test.why.split(";")[0] for test in back} == {nominal}


def test_a_line_lead_and_a_fuse_nobody_measured() -> None:
    routes = [SIGNAL, route("converter", "sub amp", "signal", 0.5)]
    power = supply(4, 0.4, fuse_to_battery_m="unknown")
    what = job([subwoofer("rear-left", "rear-right")], routes, power)
    pack = pack_of(doors_car([retained(9)]), what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))
    assert "line lead of 1 m to sub amp" in said(pack)
    assert "the distance is not measured" in said(pack)
    assert any("close to the battery" in line for line in pack.customer)


def test_the_customer_is_told_where_the_main_fuse_is_and_nothing_of_one_that_is_not_sized() -> None:
    def told(metres: Any) -> list[str]:
        what = job([subwoofer("rear-left", "rear-right")], [SIGNAL], supply(4, 0.4))
        parts = parts_of(doors_car([retained(9)]), what, "cvn-2a", {"sub amp": "amn-600"},
                         ("2c", "3c"))  # fmt: skip
        pack = make_pack(with_supply(parts, supply_lead_m=metres), defaults=HOUSE)
        return [line for line in pack.customer if line.startswith("Main fuse: ")]

    (line,) = told(4)
    assert line.endswith(
        " A, close to the battery, 0.3 m of wire from its post (at most 0.45 m). Out, everything "
        "added is off."
    )
    assert told(None) == []


def test_a_pulse_is_for_cones_and_never_for_a_bare_tweeter() -> None:
    """1.5 V across a tweeter that nothing protects can burn it: common practice, no source."""

    def checks(**more: Any) -> set[str]:
        vehicle = warned_car(channels=[
            channel(name, level={"clean_max_v_rms": 8}, **more) for name in CORNERS
        ])  # fmt: skip
        return {test.what.split(": ")[1] for test in doors_job(vehicle).tests
                if test.id.endswith("polarity")}  # fmt: skip

    (full,) = checks()
    assert full.startswith("1.5 V pulse at the amplifier's end")
    (high,) = checks(band="high", highpass_hz=2500)
    assert high.endswith("no pulse, a bare tweeter burns")


def test_a_level_is_read_at_the_unit_that_drives_the_pair() -> None:
    tests = doors_job(warned_car()).tests
    radio = [test.what for test in tests if test.id.endswith("-pair-level")]
    assert radio and all("at the radio end" in what for what in radio)


def test_the_factory_wire_is_reckoned_with_only_where_there_is_one() -> None:
    wire = "the factory wire behind it costs"
    assert wire in said(doors_job(warned_car()))
    assert wire not in said(sub_pack(doors_car([retained(9)])))


def test_the_centre_stays_at_its_old_loudness() -> None:
    pins = [p for at, n in enumerate((*CORNERS, "centre")) for p in bridged_pair(n, 1 + 2 * at)]
    pins.append(amplifier_on(11, max_source_ma=250))
    channels = [channel(n, level={"label_w": 20, "label_ohm": 4}) for n in (*CORNERS, "centre")]
    vehicle = car(plugs=[plug(pins)], channels=channels)
    pack = doors_job(vehicle)
    assert "The centre speaker stays on the car, at its old loudness." in pack.losses


def test_a_subwoofer_beside_the_cars_own_speakers_leaves_the_centre_as_it_is() -> None:
    """Nothing gets louder around it, so that there is nothing to say."""
    pins = [p for at, n in enumerate((*CORNERS, "centre")) for p in bridged_pair(n, 1 + 2 * at)]
    names = (*CORNERS, "centre")
    vehicle = car(plugs=[plug([*pins, retained(11)])], channels=[channel(n) for n in names])
    pack = sub_pack(vehicle)
    assert pack.kind == "tap_plan"
    assert not any("centre speaker" in loss for loss in pack.losses)


@pytest.mark.parametrize(
    ("dip_v", "from_v", "words"),
    [
        (10.0, 12.1, "no hold-up needed"),
        (9.5, 12.1, "no hold-up needed"),  # just what the amplifier lets go at
        (8.9, 9.8, "a capacitor cannot bridge the restart"),
    ],
)
def test_a_dip_that_needs_nothing_or_cannot_be_helped(
    dip_v: float, from_v: float, words: str
) -> None:
    vehicle = data_woken_car(dip_v, from_v=from_v)
    pack = restart_pack(vehicle, direct=True)
    assert pack.hold_up is None and words in said(pack)


@pytest.mark.parametrize(("parked_ma", "days"), [(0.5, 0.4 * 60 * 4 / 9 / 0.0005 / 24), (0, None)])
def test_a_car_that_draws_next_to_nothing_stands_for_years_and_one_that_draws_nothing_for_ever(
    parked_ma: float, days: float | None
) -> None:
    vehicle = doors_car([retained(9)], power=power(120, 42))
    what = job([subwoofer("rear-left")], [SIGNAL], supply(4, 0.4))
    parts = parts_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"})
    found = days_parked(parts, Lasting(None, parked_ma=parked_ma, music_a=0.0), HOUSE)
    assert found == (None if days is None else pytest.approx(days))


def test_a_car_that_stands_for_a_day_is_told_in_hours() -> None:
    vehicle = doors_car([retained(9)], power=power(120, 42))
    what = job(
        [subwoofer("rear-left", "rear-right")], [SIGNAL], supply(4, 0.4, parked_ma=4000 / 9 - 5)
    )
    pack = pack_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))
    assert pack.power is not None and pack.power.parked_days == pytest.approx(
        1.0
    )  # 0.4 · 60 Ah · 4/9 full, with the 5 mA that are added
    assert any(line.startswith("Left standing: about 24 hours, at") for line in pack.customer)
