"""Whole jobs with the answers worked by hand beforehand, to the digits they were worked to."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from pack_jobs import (
    CORNERS,
    HOUSE,
    chain,
    door,
    flag_kinds,
    gain,
    job,
    pack_of,
    parts_of,
    route,
    said,
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
    common_pair,
    converter,
    doors_car,
    plug,
    reading,
    retained,
)

from builder.model.access import Removal
from builder.model.parts import Converter
from builder.model.plugs import Reading
from builder.model.vehicle import Vehicle
from builder.planning.job.make_pack import make_pack
from builder.planning.sheet_rows import Stands
from builder.planning.work_pack import WorkPack

Data = dict[str, Any]
FEATURES = ("start_stop", "hybrid", "noise_cancellation", "engine_sound", "emergency_call")


CONVERTER_A = 0.2
"""What the converters of these jobs draw."""


def with_converter(drop_v: float, amplifiers_a: float) -> float:
    """The drop that was worked by hand for the amplifiers alone, with the converter beside them."""
    return drop_v * (1 + CONVERTER_A / amplifiers_a)


def power(rated_a: float, base_a: float, **more: Any) -> Data:
    return {
        "battery": {"location": "engine bay", "capacity_ah": 60, "sensor_on_negative": "no"},
        "charging": {"by": "alternator", "rated_a": rated_a, **more},
        "base_load_a": base_a, "base_load_key_off_a": 2.5,
    }  # fmt: skip


def cuts(pack: WorkPack) -> list[float]:
    return [row.cut_m for row in pack.cut_list if row.name.startswith("cable ")]


def spare(pack: WorkPack) -> list[str]:
    return [row.wire for row in pack.conductors if row.demand_class == "spare"]


def fed(pack: WorkPack) -> list[str]:
    return [feed.channel for feed in pack.plan.feeds if feed.leg == "positive"]


# -- a subwoofer added to a plain car ---------------------------------------------------------


PROVED_THERE = {"proved_there": {"by": "alder-pit-audio", "date": "2024-06-01"}}


def plain_pack(**more: Any) -> WorkPack:
    vehicle = doors_car([retained(9)], power=power(120, 42))
    routes = [
        route("luggage trim", "converter", "signal", 1.8) | PROVED_THERE,
        route("radio", "converter", "control", 6.0),
    ]
    what = job([subwoofer("rear-left", "rear-right")], routes, supply(5.2, 0.5, **more))
    return pack_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))


def test_plain_car_taps_and_levels() -> None:
    pack = plain_pack()
    assert pack.kind == "tap_plan" and fed(pack) == ["rear-left", "rear-right"]
    assert {feed.treatment for feed in pack.plan.feeds} == {"addon"}
    assert not any(row.demand_class == "amplified" for row in pack.conductors if row.jacket)
    sub = chain(pack, "subwoofer")
    assert sub.source_v_rms == pytest.approx(8.246, abs=5e-4)
    assert sub.converter_margin_db == pytest.approx(7.7, abs=0.05)
    assert "6.8 dB at 9.12 V" in sub.because and "3.8 dB at 12.9 V" in sub.because
    assert sub.converter_target_v_rms == 4.5
    assert sub.converter_gain == pytest.approx(0.546, abs=5e-4)
    assert (round(sub.set_v_rms, 1), sub.tone_hz, sub.limited_by) == (31.6, "40 to 50", "speaker")
    assert "The subwoofer follows the fader with the rear speakers." in pack.losses
    ratios = {rung.name: round(rung.margin_db, 1) for rung in gain(pack, "subwoofer").rungs}
    assert ratios["converter input"] == 7.7 and ratios["amplifier input"] == 0.9


def test_plain_car_turn_on_and_power() -> None:
    pack = plain_pack()
    assert (pack.plan.turn_on.rung, pack.plan.turn_on.draw_ma) == (2, 8)
    second = pack.turn_on_draws[1]
    assert (second.draw_ma, second.capacity_ma, second.share) == (12, 200, 0.06)
    assert pack.power is not None
    assert pack.power.full_current_a == pytest.approx(54.3, abs=0.05)
    assert pack.power.music_current_a == pytest.approx(18.1, abs=0.05)
    assert pack.power.main_fuse_a == 60
    assert pack.power.reserve_a == pytest.approx(24.0)
    assert pack.power.reserve_spare_a == pytest.approx(5.9, abs=0.05)
    (run,) = pack.power.runs
    assert run.conductor == "4 AWG copper" and run.drop_v == pytest.approx(
        with_converter(0.354, 54.3), abs=5e-4
    )
    assert "0.517 V" in said(pack)  # 0.515 V of the amplifier alone
    # With 6 AWG forced on it the fuse is protected and the drop is not kept.
    forced = plain_pack(size_awg=6)
    assert "drop_above_limit" in flag_kinds(forced) and forced.kind == "tap_plan"
    assert plain_pack(size_awg=8).kind == "no_plan"


def test_plain_car_cables() -> None:
    pack = plain_pack()
    assert cuts(pack)[:3] == [2.6, 2.6, 7.2]
    assert [row.cable for row in pack.cut_list][:3] == ["2c", "2c", "3c"]
    assert spare(pack) == ["black", "yellow"]
    assert sum("cable 3" in end.what for end in pack.insulate) == 4


# -- four doors, a radio that looks for its speakers, a warning with the key off -------------


def doors_job(vehicle: Vehicle, device: Any = "cvn-4a", **more: Any) -> WorkPack:
    routes = [
        route("radio", "converter", "signal", 3.6, "rear bench, left side"),
        route("radio", "converter", "control", 3.6),
        route("doors", "radio", "amplified", 3.6),
    ]
    speakers = [door(name, at) for at, name in enumerate(CORNERS, 1)]
    what = job(speakers, routes, supply(4.2, 0.4), protect=["lights warning"], **more)
    return pack_of(vehicle, what, device, {"doors": "amn-4"})


def warned_car(**more: Any) -> Vehicle:
    base: Data = {
        "channels": [channel(name, level={"label_w": 20, "label_ohm": 4}) for name in CORNERS],
        "radio": {"outputs": "bridged", "open_load_check": "yes", "data_wake": "no"},
        "protected_sounds": [
            {"sound": "lights warning", "channels": ["front-left"], "plays_key_off": "yes"}
        ],
        "safety": {
            "restraint_zones": ["rear bench, left side (bag lead beside it)"],
            "restraint_wait_min": "unknown",
        },
        "power": power(130, 44),
    }
    return doors_car([amplifier_on(9, max_source_ma=250), accessory(10)], **(base | more))


def test_four_doors_taps_levels_and_loads() -> None:
    pack = doors_job(warned_car())
    assert pack.kind == "tap_plan" and fed(pack) == list(CORNERS)
    assert {feed.treatment for feed in pack.plan.feeds} == {"intercept"}
    turn_on = pack.plan.turn_on
    assert (turn_on.rung, turn_on.draw_ma, turn_on.capacity_ma) == (1, 8, 250)
    one = chain(pack, "front-left door")
    assert one.source_v_rms == pytest.approx(8.94, abs=0.005)
    assert one.converter_margin_db == pytest.approx(7.0, abs=0.05)
    assert one.converter_target_v_rms == 3.6
    assert one.converter_gain == pytest.approx(0.402, abs=6e-4)
    assert (round(one.set_v_rms, 1), one.tone_hz) == (14.1, "1000")
    (loads,) = [part for part in pack.parts if part.item.startswith("resistor 47")]
    assert (loads.item, loads.quantity) == ("resistor 47 Ω 5 W", 4)
    assert "1.70 W sine, 3.54 W square" in loads.note


def test_four_doors_cables_count_pairs() -> None:
    pack = doors_job(warned_car())
    assert [row.cable for row in pack.cut_list][:5] == ["5c"] * 4 + ["18 AWG copper"]
    assert cuts(pack)[:4] == [4.6] * 4
    used = [row for row in pack.conductors if row.demand_class != "spare" and row.jacket]
    assert len(used) == 17 and spare(pack) == ["blue"] * 3
    control = [row for row in used if row.demand_class == "control"]
    assert [(row.jacket, row.wire) for row in control] == [(1, "blue")]
    kinds = {row.jacket: row.demand_class for row in used if row.demand_class != "control"}
    assert kinds == {1: "signal", 2: "signal", 3: "amplified", 4: "amplified"}
    sleeves = next(part for part in pack.parts if part.item == "adhesive sleeve")
    # 16 at the cut wires, one behind the converter's fuse.
    assert "17 joints, 6 ends closed off" in sleeves.note and sleeves.quantity == 26
    # The turn-on is joined beside a wire that stays whole: nothing slides over that one.
    wrap = next(part for part in pack.parts if part.item == "roll of self-sealing tape")
    assert wrap.quantity == 1 and wrap.note == "1 joint beside a whole wire"
    (said,) = (step.text for step in pack.steps if step.text.startswith("at every joint"))
    assert "no sleeve can be slid" in said


def test_four_doors_power_and_leads() -> None:
    pack = doors_job(warned_car())
    assert pack.power is not None
    assert pack.power.main_fuse_a == 40
    (run,) = pack.power.runs
    assert (run.conductor, round(run.current_a, 1)) == ("8 AWG copper", 31.8)
    assert pack.power.full_current_a == pytest.approx(31.6, abs=0.05)
    assert run.drop_v == pytest.approx(with_converter(0.371, 31.6), abs=5e-4)
    fused = [row for row in pack.wiring if row.to_terminal == "CVN-4A +12 V"]
    assert [row.parts for row in fused] == [("fuse 2 A",)]
    lead = pack.speaker_leads[0]
    assert "0.193 Ω" in said(pack)
    assert lead.added_loss_db == pytest.approx(-0.41, abs=0.005)
    assert lead.existing_loss_db == pytest.approx(-0.63, abs=0.005)
    assert lead.whole_loss_db == pytest.approx(-1.01, abs=0.005)
    assert lead.music_current_a == pytest.approx(2.04, abs=0.005)


def test_restraint_plugs_are_home_before_the_battery_is_joined_where_any_was_out() -> None:
    """A live restraint system never sees a plug go in; without such a zone nothing waits."""

    def gates(pack: WorkPack) -> set[str]:
        on = [step for step in pack.steps if Stands("battery", "on") in step.moves]
        assert on
        return {step.gate for step in on}

    assert gates(doors_job(warned_car())) == {"every restraint plug home"}
    clear = warned_car(safety={"restraint_zones": [], "restraint_wait_min": 3})
    removal = Removal(steps=("pull",), restraint="no")
    clear = replace(clear, radio=replace(clear.radio, removal=removal))
    assert gates(doors_job(clear)) == {""}


def test_four_doors_restraint_gates() -> None:
    steps = doors_job(warned_car()).steps
    wait = next(step for step in steps if step.text.startswith("wait before"))
    assert "look it up in the maker's instructions" in wait.blocked and "earliest" in wait.gate
    assert any("rear bench, left side" in step.text for step in steps)
    known = warned_car(safety={"restraint_zones": [], "restraint_wait_min": 3})
    wait = next(s for s in doors_job(known).steps if s.text.startswith("wait before"))
    assert wait.blocked == "" and "3 min" in wait.gate


def test_nothing_comes_apart_before_the_battery_is_off() -> None:
    for pack in (doors_job(warned_car()), split_pack(0.12), plain_pack()):
        dead = {test.id for test in pack.tests if test.state == "unplugged"}
        for step in pack.steps:
            battery = next(each.value for each in step.stands if each.what == "battery")
            assert battery != "on" or not dead & {*step.tests}
            apart = any(each.what.startswith("plug ") for each in step.moves)
            assert battery != "on" or not apart


def test_lines_of_the_sheet_are_named_one_by_one_or_from_first_to_last() -> None:
    named = [
        found
        for pack in (doors_job(warned_car()), split_pack(0.12), plain_pack())
        for step in pack.steps
        for found in re.findall(r"\b(tests?) (\d+(?:(?:, | to )\d+)*)", step.text)
    ]
    assert named
    for word, numbers in named:
        assert (word == "test") is numbers.isdecimal()
        counted = [int(one) for one in re.findall(r"\d+", numbers)]
        assert counted == sorted(set(counted))


def test_two_inputs_are_too_few_for_four_doors() -> None:
    pack = doors_job(warned_car(), "cvn-2a")
    assert pack.kind == "no_plan"
    words = said(pack)
    assert "4 inputs are needed" in words and "the fader is lost" in words
    assert "CVN-4A would do instead" in words
    assert pack.plan.feeds == () and pack.conductors == () and pack.gains == ()


def test_two_inputs_that_feed_four_doors_lose_the_fader() -> None:
    routes = [route("radio", "converter", "signal", 3.6), route("doors", "radio", "amplified", 3.6)]
    speakers = [
        door(name, at, **{"from": [name.replace("rear", "front")]})
        for at, name in enumerate(CORNERS, 1)
    ]
    what = job(speakers, routes, supply(4.2, 0.4))
    pack = pack_of(warned_car(protected_sounds=[]), what, "cvn-2a", {"doors": "amn-4"})
    assert pack.kind == "tap_plan" and fed(pack) == ["front-left", "front-right"]
    assert any(loss.startswith("The fader is lost: rear-left door") for loss in pack.losses)
    # The rear pairs are broken all the same: returned, closed off at the radio, loaded.
    returned = [row.purpose for row in pack.conductors if row.demand_class == "amplified"]
    assert sum("rear" in purpose for purpose in returned) == 4
    assert sum(end.what.startswith("radio end of rear") for end in pack.insulate) == 4
    (loads,) = [part for part in pack.parts if part.item.startswith("resistor 47")]
    assert loads.quantity == 4


# -- split fronts behind a factory amplifier --------------------------------------------------


def split_car(right_delay_ms: float) -> Vehicle:
    def band(name: str, **more: Any) -> Data:
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
        band("rear-left", **rear), band("rear-right", **rear),
        band("sub", band="low", lowpass_hz=120, speaker_ohm=2,
             level={"label_w": 50, "label_ohm": 2}),
    ]  # fmt: skip
    pins = [
        pin
        for at, carried in enumerate(channels)
        for pin in bridged_pair(carried["channel"], 1 + 2 * at, 8.2)
    ]
    return car(
        channels=channels,
        plugs=[plug(pins, id="K", unit="amplifier")],
        factory_amplifier={"feed": "analogue_variable", "location": "under the seat"},
        radio={"outputs": "line", "open_load_check": "unknown", "data_wake": "yes"},
        power=power(180, 52),
    )


def front(side: str, number: int) -> Data:
    name = f"front-{side}"
    return door(
        name, number, rated_w_rms=80, driven_by={"amplifier": "amp", "channel": number},
        **{"from": [f"{name}-woofer", f"{name}-tweeter"]},
    )  # fmt: skip


def split_pack(right_delay_ms: float, *more: Data) -> WorkPack:
    routes = [
        route("factory amplifier", "converter", "signal", 3.4),
        route("amp", "factory amplifier", "amplified", 3.4),
    ]
    speakers = [
        front("left", 1), front("right", 2),
        subwoofer("sub", amp="amp", number=3, rated_w_rms=400), *more,
    ]  # fmt: skip
    latch = {"locks_per_day": 6, "wake_hold_min": 12, "idle_a": 1.1}
    what = job(speakers, routes, supply(4.1, 0.5, **latch))
    return pack_of(split_car(right_delay_ms), what, "cvn-6s", {"amp": "amn-3"})


def test_split_fronts_inputs_levels_and_turn_on() -> None:
    pack = split_pack(0.03)
    assert pack.kind == "tap_plan"
    assert fed(pack) == [
        "front-left-woofer", "front-left-tweeter", "front-right-woofer", "front-right-tweeter",
        "sub",
    ]  # fmt: skip
    assert "5 of 6 inputs used" in said(pack) and "rear speakers stay on the car" in said(pack)
    assert pack.plan.feeds[-1].treatment == "addon"
    for speaker, volts in (("front-left door", 17.9), ("subwoofer", 28.3)):
        link = chain(pack, speaker)
        assert link.source_v_rms == pytest.approx(10)
        assert link.converter_margin_db == pytest.approx(12.0, abs=0.05)
        assert (link.converter_target_v_rms, link.sources_summed) == (5.3, 1)
        assert link.converter_gain == pytest.approx(0.53)
        assert link.set_v_rms == pytest.approx(volts, abs=0.05)
    assert "would give 18.0 V, the speaker takes 17.9 V" in chain(pack, "front-left door").because
    assert (pack.plan.turn_on.rung, pack.plan.turn_on.kind) == (5, "offset_wake")
    assert pack.power is not None and pack.power.latch_ah_per_day == pytest.approx(1.32)
    assert "latch_heavy" not in flag_kinds(pack)


def test_split_fronts_delays() -> None:
    words = said(split_pack(0.03))
    assert "41.8°" in words and "-0.59 dB" in words and "31.3°" in words and "-0.33 dB" in words
    late = split_pack(0.12)
    assert late.kind == "probe_plan"
    assert "125.3°" in said(late) and "-6.75 dB" in said(late) and "86 µs" in said(late)
    assert any("tone of 2900 Hz" in test.what for test in late.tests)


def test_split_fronts_cables_and_power() -> None:
    pack = split_pack(0.03)
    kinds = [
        {row.demand_class for row in pack.conductors if row.jacket == number} - {"spare"}
        for number in range(1, 6)
    ]
    assert kinds == [{"signal"}] * 3 + [{"amplified"}] * 2
    jackets = [row for row in pack.cut_list if row.name.startswith("cable ")]
    assert len(jackets) == 5
    assert any(row.name == "lead to subwoofer" for row in pack.cut_list)
    assert sorted(spare(pack)) == ["blue"] * 5 + ["orange", "orange/black"]
    used = [row for row in pack.conductors if row.demand_class != "spare" and row.jacket]
    assert len(used) == 18
    assert pack.power is not None
    (run,) = pack.power.runs
    assert (pack.power.main_fuse_a, run.conductor) == (60, "6 AWG copper")
    assert run.drop_v == pytest.approx(with_converter(0.431, 54.3), abs=5e-4)
    loads = [part for part in pack.parts if part.item.startswith("resistor 47")]
    assert [part.quantity for part in loads] == [4]  # nobody tried: unknown is not "no"


def test_rear_doors_besides_are_more_than_six_inputs() -> None:
    rear = [door(f"rear-{side}", at, driven_by={"amplifier": "amp", "channel": at})
            for at, side in ((1, "left"), (2, "right"))]  # fmt: skip
    pack = split_pack(0.03, *rear)
    assert pack.kind == "no_plan" and "7 inputs are needed" in said(pack)


# -- no switched wire, start-stop -------------------------------------------------------------


def data_woken_car(
    dip_v: float = 8.9, *, supply_v: float = 9.2, supply: Data | None = None, **more: Any
) -> Vehicle:
    names = ("front-left", "front-right")
    pins = [pin for at, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * at, 6.6)]
    pins += [{"cavity": 7, "function": "data_high"}, {"cavity": 8, "function": "data_low"}]
    pins += [
        {
            "cavity": 9,
            "function": "constant",
            "readings": [reading("auto_restart", supply_v, **(supply or {}))],
        }
    ]
    dip = {"lasts_s": 0.35, "from_v": 12.1} | more
    position = {
        "position": "F14", "panel": "cabin", "label": "rear accessory", "function": "accessory",
        "rating_a": 10,
        "readings": [
            reading("asleep", 0.0, minutes=65), reading("accessory", 12.3),
            reading("retained", 0.0), reading("auto_restart", dip_v, **dip),
        ],
    }  # fmt: skip
    battery = {"location": "bay", "capacity_ah": 68, "sensor_on_negative": "yes"}
    return car(
        plugs=[plug(pins)],
        channels=[channel(name, level={"label_w": 50, "label_ohm": 4}) for name in names],
        radio={"outputs": "bridged", "open_load_check": "no", "data_wake": "yes"},
        fuse_positions=[position],
        features=dict.fromkeys(FEATURES, "no") | {"start_stop": "yes"},
        power=power(140, 48) | {"battery": battery},
    )


def restart_pack(vehicle: Vehicle, *, direct: bool = False, **more: Any) -> WorkPack:
    """`direct`: the converter has no turn-on output, and all inputs hang on the fuse position."""
    turn_on = {"remote_in": {"draw_ma": 6, "threshold_v": 7.0}, "offset_wake": {"min_v": 2.0},
               "signal_wake": {"hold_s": 60}}  # fmt: skip
    routes = [
        route("radio", "converter", "signal", 5.4), route("F14", "converter", "control", 5.0),
    ]  # fmt: skip
    latch = {"locks_per_day": 8, "wake_hold_min": 10, "idle_a": 0.9}
    what = job([subwoofer("front-left", "front-right")], routes, supply(4.2, 0.4, **latch, **more))
    device = converter("cvn-2a", turn_on=turn_on, **({"remote_out": "none"} if direct else {}))
    return pack_of(vehicle, what, device, {"sub amp": "amn-600"}, ("2c", "3c"))


def test_restart_turn_on_and_hold_up() -> None:
    pack = restart_pack(data_woken_car(), direct=True)
    assert pack.kind == "tap_plan"
    assert (pack.plan.turn_on.rung, pack.plan.turn_on.fuse_position) == (4, "F14")
    held = pack.hold_up
    assert held is not None
    # Both inputs hang on the fuse position, so the capacitor there feeds both.
    assert [draw.draw_ma for draw in pack.turn_on_draws] == [18]
    assert held.where == "F14"
    assert held.held_s == pytest.approx(0.5)
    assert held.needed_uf == pytest.approx(18e3 * 0.5 / (12.1 - 0.4 - 0.4 - 9.5), abs=0.5)
    assert held.needed_uf == pytest.approx(5000, abs=0.5)
    assert (held.capacitor_uf, held.charge_ohm) == (pytest.approx(6800), 47)
    # The diode before it keeps 0.4 V of the 12.1 V; of that sum one decimal is printed.
    assert (
        "18 mA of all inputs on it for 0.5 s from 12.1 V, 11.7 V behind the diode, to 9.90 V, what "
        "it loses on its way out counted, take 5000 µF" in said(pack)
    )
    assert "restart_drops_turn_on" not in flag_kinds(pack)
    items = [part.item for part in pack.parts]
    assert "capacitor 6800 µF 25 V" in items and "fuse 1 A, blade" in items
    # Nothing wakes by itself here, so that the customer is told of nothing that stays awake.
    assert not any(line.startswith("After each lock") for line in pack.customer)
    words = said(pack)
    assert "10 min after each lock cost 1.20 Ah a day" in words and "allowed" in words
    assert "woken by data" in pack.plan.ladder[0].because


def test_a_hold_up_is_sized_for_what_hangs_on_its_own_node() -> None:
    supply_dip = {"lasts_s": 0.35, "from_v": 12.3}
    pack = restart_pack(data_woken_car(supply=supply_dip))
    # The fuse position feeds the converter's 6 mA, which go on down to 7 V: 8.9 V are enough there.
    assert [draw.draw_ma for draw in pack.turn_on_draws] == [6, 12]
    assert "no hold-up needed at F14: a restart pulls it to 8.9 V" in said(pack)
    # The amplifier hangs on the converter's output, which falls with the converter's supply.
    held = pack.hold_up
    assert held is not None and held.where == "the turn-on output of CVN-2A"
    assert held.needed_uf == pytest.approx(12e3 * 0.5 / (12.3 - 0.4 - 0.4 - 9.5), abs=0.5)
    # 3300 µF, 20 % short, are 2640: the next one made is 4700.
    assert held.capacitor_uf == pytest.approx(4700)
    # Ohm's law at 14.4 V less the diode: what the output's 200 mA have beside the input's 12 mA.
    assert held.charge_ohm == 82 and 14.0 / 82 + 0.012 <= 0.2 < 14.0 / 68 + 0.012
    store = "capacitor that holds up the turn-on output of CVN-2A (4700 µF 25 V)"
    lines = [line for step in pack.steps for line in step.lines if store in line]
    assert any("sub amp GND" in line for line in lines) and len(lines) == 2


def test_a_dip_from_nowhere_starts_at_the_lowest_that_the_wire_rests_at() -> None:
    """Of the readings with the key on: volts at rest against ground, and nothing else."""
    vehicle = data_woken_car(from_v="unknown")
    (position,) = vehicle.fuse_positions
    rests = Reading(
        session="s1", state="run", quantity="dc_v", value=12.0, against="battery_negative"
    )
    hum = replace(rests, quantity="ac_v", value=10.2)
    across = replace(rests, value=10.4, against="8")
    more = replace(position, readings=(*position.readings, rests, hum, across))
    pack = restart_pack(replace(vehicle, fuse_positions=(more,)), direct=True)
    assert pack.hold_up is not None
    assert pack.hold_up.needed_uf == pytest.approx(18e3 * 0.5 / (12.0 - 0.4 - 0.4 - 9.5), abs=0.5)


def test_no_hold_up_at_one_node_for_a_dip_at_another() -> None:
    pack = restart_pack(data_woken_car())  # the dip of the supply was not timed
    assert pack.hold_up is None
    (flag,) = [flag for flag in pack.flags if flag.kind == "restart_drops_turn_on"]
    assert (flag.where, flag.value) == ("the turn-on output of CVN-2A", 9.2)


@pytest.mark.parametrize("supply_v", [8.2, 0.0])
def test_no_hold_up_where_the_supply_itself_falls_short(supply_v: float) -> None:
    pack = restart_pack(data_woken_car(supply_v=supply_v), direct=True)
    assert pack.hold_up is None
    assert {"restart_drops_turn_on", "supply_dips"} <= set(flag_kinds(pack))
    assert "a capacitor on a turn-on holds no supply up" in said(pack)


def test_restart_levels_and_power() -> None:
    pack = restart_pack(data_woken_car())
    sub = chain(pack, "subwoofer")
    assert (sub.source_v_rms, sub.source_basis) == (9.12, "rail")
    assert sub.converter_margin_db == pytest.approx(6.8, abs=0.05)
    assert sub.converter_gain == pytest.approx(0.493, abs=5e-4)
    assert sub.set_v_rms == pytest.approx(31.6, abs=0.05)
    assert pack.power is not None and pack.power.supply_dip_v == 9.2
    assert "supply_dips" not in flag_kinds(pack)
    assert pack.power.reserve_a == pytest.approx(29.0)
    (run,) = pack.power.runs
    assert (pack.power.main_fuse_a, run.conductor) == (60, "6 AWG copper")
    assert run.drop_v == pytest.approx(with_converter(0.431, 54.3), abs=5e-4)
    assert "ground to the body, not to the post" in said(pack)
    post = restart_pack(data_woken_car(), ground_point="battery_post")
    assert "ground_before_sensor" in flag_kinds(post)


def test_a_dip_without_its_length_is_timed_first() -> None:
    pack = restart_pack(data_woken_car(lasts_s=None, from_v=None), direct=True)
    assert pack.hold_up is None and "restart_drops_turn_on" in flag_kinds(pack)
    assert "Time the dip with a scope" in said(pack)
    assert any("lowest volts, and for how long" in test.what for test in pack.tests)


# -- an old common-ground radio ---------------------------------------------------------------


def old_car(shared: str = "yes") -> Vehicle:
    names = ("front-left", "front-right")
    pins = [pin for at, name in enumerate(names) for pin in common_pair(name, 1 + 2 * at)]
    pins += [amplifier_on(9, other_source_v=0.0), accessory(10, fuse={"place": "F5",
                                                                     "rating_a": 5})]  # fmt: skip
    level = {"clean_max_v_rms": 6.2 / 2**0.5}
    return car(
        plugs=[plug(pins)],
        channels=[channel(name, level=level, shared_return=shared) for name in names],
        radio={"outputs": "common_ground", "open_load_check": "no", "data_wake": "no"},
        power=power(70, 25, idle_a=35),
    )


def old_pack(existing: bool = False, shared: str = "yes", device: str = "cvn-2p") -> WorkPack:
    def speaker(side: str, number: int) -> Data:
        base = {"rated_w_rms": 40, "driven_by": {"amplifier": "amp", "channel": number}}
        if existing:
            return door(f"front-{side}", number, **base)
        plain = door(f"front-{side}", number, existing="no", **base)
        plain.pop("existing_lead")
        return plain | {"lead": {"size_awg": 16, "length_m": 4.0}}

    routes = [
        route("radio", "converter", "signal", 1.6), route("radio", "amp", "control", 1.6),
        route("amp", "radio", "amplified", 1.6),
    ]  # fmt: skip
    what = job([speaker("left", 1), speaker("right", 2)], routes, supply(3.2, 0.4))
    return pack_of(old_car(shared), what, device, {"amp": "amn-4"}, ("2c", "3c"))


def test_old_radio_levels_and_turn_on() -> None:
    pack = old_pack()
    assert pack.kind == "tap_plan"
    link = chain(pack, "front-left door")
    assert link.source_v_rms == pytest.approx(4.38, abs=0.005)
    assert link.converter_margin_db == pytest.approx(7.2, abs=0.05)
    assert link.converter_target_v_rms == pytest.approx(0.877, abs=5e-4)
    assert link.converter_gain == 0.2 and flag_kinds(pack) == {"strap_unread"}
    assert link.set_v_rms == pytest.approx(12.6, abs=0.05)
    turn_on = pack.plan.turn_on
    assert (turn_on.rung, turn_on.kind, turn_on.cavity, turn_on.draw_ma) == (
        3,
        "accessory",
        "10",
        12,
    )
    assert "12.1 V on the tuner, 0.0 V on another" in pack.plan.ladder[0].because
    assert "25 times the speaker" in said(pack)


def test_old_radio_power_and_leads() -> None:
    pack = old_pack()
    assert pack.power is not None
    assert pack.power.full_current_a == pytest.approx(15.8, abs=0.05)
    assert pack.power.music_current_a == pytest.approx(5.3, abs=0.05)
    assert pack.power.reserve_a == pytest.approx(10)
    assert pack.power.reserve_spare_a == pytest.approx(4.7, abs=0.05)
    (run,) = pack.power.runs
    assert (pack.power.main_fuse_a, run.conductor) == (40, "8 AWG copper")
    assert run.drop_v == pytest.approx(0.150, abs=5e-4)
    lead = pack.speaker_leads[0]
    assert "0.105 Ω" in said(pack)
    assert lead.added_loss_db == pytest.approx(-0.23, abs=0.005)
    assert lead.damping == pytest.approx(27.5, abs=0.05)


def test_old_speaker_wires_share_their_return() -> None:
    pack = old_pack(existing=True)
    assert pack.kind == "no_plan" and "Run a new pair to each speaker" in said(pack)
    assert old_pack(existing=True, shared="unknown").kind == "probe_plan"
    assert old_pack(existing=True, shared="no").kind == "tap_plan"


def test_old_radio_gives_no_bias_to_wake_from() -> None:
    rung = next(rung for rung in old_pack(device="cvn-2a").plan.ladder if rung.rung == 5)
    assert rung.verdict == "refused"


# -- two amplifiers in a pickup ---------------------------------------------------------------


def pickup_pack(
    remote_ma: float = 500, branched: tuple[str, ...] = ("bass", "doors"), **more: Any
) -> WorkPack:
    level = {"label_w": 20, "label_ohm": 4}
    vehicle = doors_car(
        [amplifier_on(9, max_source_ma=100)],
        channels=[channel(name, level=level) for name in CORNERS],
        power=power(150, 50),
    )
    branches = [{"amplifier": name, "out_m": 0.4, "return_m": 0.4} for name in branched]
    lead = more.pop("lead", {"length_m": 1.0})
    sub = subwoofer("front-left", "front-right", amp="bass", nominal_ohm=1, rated_w_rms=1000,
                    lead=lead)  # fmt: skip
    routes = [
        route("radio", "converter", "signal", 4.4), route("doors", "radio", "amplified", 4.4),
    ]  # fmt: skip
    fan = {"name": "fan relay", "draw_ma": 150, "coil": "yes", "diode": "no"}
    what = job(
        [*(door(name, at) for at, name in enumerate(CORNERS, 1)), sub],
        routes,
        supply(
            4.2, 0, **({"fuse_family": "bolt_down"} | more), distribution={"branches": branches}
        ),
        other_turn_on_loads=[fan],
    )
    return pack_of(vehicle, what, summing(remote_ma), {"bass": "amn-1200", "doors": "amn-4"})


def summing(remote_ma: float) -> Converter:
    """The six-input converter; without a remote output it does not wake by itself either."""
    if remote_ma:
        return converter("cvn-6s", remote_out={"max_ma": remote_ma, "delay_s": 1})
    plain = {"remote_in": {"draw_ma": 8, "threshold_v": 7.0}, "offset_wake": "no",
             "signal_wake": "no"}  # fmt: skip
    return converter("cvn-6s", remote_out="none", turn_on=plain)


def test_pickup_levels_and_turn_on() -> None:
    pack = pickup_pack()
    assert pack.kind == "tap_plan" and "4 of 6 inputs used" in said(pack)
    for speaker, factor, volts in (("front-left door", 0.402, 14.1), ("subwoofer", 0.201, 31.6)):
        link = chain(pack, speaker)
        assert link.converter_target_v_rms == 3.6
        assert link.converter_gain == pytest.approx(factor, abs=6e-4)
        assert link.set_v_rms == pytest.approx(volts, abs=0.05)
    assert chain(pack, "subwoofer").sources_summed == 2 and "17.9 V" in said(pack)
    car_side, remote = pack.turn_on_draws
    assert (car_side.draw_ma, car_side.capacity_ma, car_side.share) == (8, 100, 0.08)
    assert (remote.draw_ma, remote.capacity_ma, round(remote.share or 0, 2)) == (187, 500, 0.37)
    assert "coil_without_diode" in flag_kinds(pack) and "turn_on_weak" not in flag_kinds(pack)
    assert "turn_on_weak" in flag_kinds(pickup_pack(200))
    assert pickup_pack(150).kind == "no_plan"


def test_pickup_with_a_branch_for_one_of_two_amplifiers_is_refused() -> None:
    """Its wire would leave the trunk thinner, with nobody to say how long and how fused."""
    pack = pickup_pack(branched=("bass",))
    assert pack.kind == "no_plan" and pack.circuit is None
    assert "measure the branch to doors first" in said(pack)
    assert "measure the branch" not in said(pickup_pack())


def test_pickup_without_a_remote_output_asks_too_much() -> None:
    pack = pickup_pack(0)
    assert pack.kind == "no_plan"
    assert "195 mA is over 50 % of the 100 mA it can give" in said(pack)


def test_pickup_power() -> None:
    pack = pickup_pack()
    assert pack.power is not None
    assert pack.power.full_current_a == pytest.approx(140.3, abs=0.05)
    assert pack.power.main_fuse_a == 175
    trunk, bass, doors = pack.power.runs
    assert (trunk.conductor, bass.conductor, doors.conductor) == (
        "1/0 AWG copper", "2 AWG copper", "8 AWG copper",
    )  # fmt: skip
    assert (bass.fuse_a, doors.fuse_a) == (125, 40)
    assert trunk.drop_v == pytest.approx(with_converter(0.415, 140.3), abs=5e-4)
    # Worked by hand with the resistances printed to three digits. The defined diameters give
    # 0.4635 and 0.4717; the digits after are in the oracle of the same network.
    assert bass.cumulative_drop_v == pytest.approx(with_converter(0.463, 140.3), abs=1e-3)
    assert doors.cumulative_drop_v == pytest.approx(with_converter(0.471, 140.3), abs=1e-3)
    assert pack.power.reserve_a == pytest.approx(32.5)
    assert "reserve_short" in flag_kinds(pack) and "14.3 A are short" in said(pack)
    assert "30.7 A spare" in said(pack)


def test_pickup_in_clad_aluminium_is_refused() -> None:
    pack = pickup_pack(size_awg="1/0", material="copper_clad_aluminium")
    assert pack.kind == "no_plan" and "126.75 A" in said(pack)
    assert pack.power is not None
    assert pack.power.runs[0].cumulative_drop_v == pytest.approx(
        with_converter(0.538, 140.3), abs=5e-4
    )
    assert {"fuse_above_ceiling", "drop_above_limit", "copper_clad"} <= flag_kinds(pack)


def test_pickup_subwoofer_lead() -> None:
    lead = next(row for row in pickup_pack().speaker_leads if row.speaker == "subwoofer")
    assert lead.conductor == "10 AWG copper"
    assert lead.music_current_a == pytest.approx(18.3, abs=0.05)
    assert lead.added_loss_db == pytest.approx(-0.06, abs=0.005)
    assert lead.damping == pytest.approx(21.5, abs=0.05)
    assert "damping factor 19.8" in said(pickup_pack())
    assert flag_kinds(pickup_pack(lead={"length_m": 1.0, "size_awg": 16})) >= {"lead_overloaded"}
    assert flag_kinds(pickup_pack(lead={"length_m": 1.0, "size_awg": 12})) >= {"lead_damping"}


# -- three audio levels of one car ------------------------------------------------------------


BADGE = {"question": "Is there a badge?", "cost": "look",
         "answers": [{"answer": "yes", "means": "top"}, {"answer": "no", "means": "this"},
                     {"answer": "no", "means": "base"}]}  # fmt: skip
BOX = {"question": "Is there a finned box?", "cost": "panel",
       "answers": [{"answer": "yes", "means": "this"}, {"answer": "yes", "means": "top"},
                   {"answer": "no", "means": "base"}]}  # fmt: skip


def levelled_pack(feed: str, answers: list[Data], plays: tuple[str, ...] = ("sub",)) -> WorkPack:
    names = ("front-left", "front-right", "sub")
    doors = {"driven_by": "amplifier", "speaker_ohm": 2, "upmix": "yes",
             "level": {"label_w": 40, "label_ohm": 2}}  # fmt: skip
    bass = channel("sub", driven_by="amplifier", speaker_ohm=2, band="low", lowpass_hz=120,
                   level={"label_w": 80, "label_ohm": 2})  # fmt: skip
    pins = [pin for at, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * at, 9.9)]
    vehicle = car(
        channels=[channel("front-left", **doors), channel("front-right", **doors), bass],
        plugs=[plug(pins, id="K", unit="amplifier")],
        factory_amplifier={"feed": feed},
        how_to_tell=[BOX, BADGE],
        power=power(130, 45),
    )
    what = job(
        [subwoofer(*plays)], [route("factory amplifier", "converter", "signal", 0.8)],
        supply(4.9, 0.4), car={"tag": "k7m2", "answers": answers},
    )  # fmt: skip
    return pack_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"}, ("2c",))


def told(badge: str, box: str) -> list[Data]:
    return [{"question": "Is there a badge?", "answer": badge},
            {"question": "Is there a finned box?", "answer": box}]  # fmt: skip


def test_an_unanswered_question_gives_no_plan() -> None:
    pack = levelled_pack("analogue_fixed", [])
    assert pack.kind == "no_plan"
    because = next(r.because for r in pack.refusals if "which car" in r.decision)
    assert 0 < because.index("badge") < because.index("finned box")
    one = levelled_pack("analogue_fixed", told("no", "yes")[:1])
    assert one.kind == "no_plan" and "finned box" in said(one)
    other = levelled_pack("analogue_fixed", told("yes", "yes"))
    assert other.kind == "no_plan" and "this car is top" in said(other)


@pytest.mark.parametrize("feed", ["analogue_fixed", "digital"])
def test_the_amplifiers_outputs_are_tapped(feed: str) -> None:
    pack = levelled_pack(feed, told("no", "yes"))
    assert pack.kind == "tap_plan" and fed(pack) == ["sub"]
    link = chain(pack, "subwoofer")
    assert link.source_v_rms == pytest.approx(12.65, abs=0.005)
    assert link.converter_margin_db == pytest.approx(3.98, abs=0.005)
    assert link.converter_gain == pytest.approx(0.356, abs=5e-4)
    assert (pack.plan.turn_on.rung, pack.plan.turn_on.kind) == (5, "offset_wake")
    fronts = levelled_pack(feed, told("no", "yes"), ("front-left", "front-right"))
    assert chain(fronts, "subwoofer").source_v_rms == pytest.approx(8.94, abs=0.005)
    assert fronts.plan.levels[0].converter_margin_db == pytest.approx(7.0, abs=0.05)
    assert "up-mixed" in said(fronts)


def test_the_radio_side_of_that_amplifier_is_no_source() -> None:
    vehicle = doors_car([retained(9)], factory_amplifier={"feed": "digital"})
    what = job([subwoofer("rear-left", "rear-right")], [], supply(4, 0.4))
    pack = make_pack(parts_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"}), defaults=HOUSE)
    assert pack.kind == "no_plan" and "digital link" in said(pack)
    assert pack.plan.feeds == () and pack.steps == ()


def test_an_unknown_amplifier_gives_no_plan() -> None:
    vehicle = doors_car([retained(9)], factory_amplifier={"feed": "unknown"}, how_to_tell=[BADGE])
    what = job([subwoofer("rear-left", "rear-right")], [], supply(4, 0.4))
    parts = parts_of(vehicle, what, "cvn-2a", {"sub amp": "amn-600"})
    pack = make_pack(with_supply(parts, supply_lead_m=None), defaults=HOUSE)
    assert pack.kind == "no_plan" and pack.power is None
    assert "Is there a badge?" in said(pack)
    assert replace(pack, kind="x").job == "job"
