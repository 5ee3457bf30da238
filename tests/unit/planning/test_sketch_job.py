"""A job composed of a car, a converter and amplifiers: who plays what, and what was assumed."""

from __future__ import annotations

from typing import Any

import pytest
from pack_jobs import CORNERS, amplifier, cable
from plan_cars import bridged_pair, channel, converter, doors_car, plug, retained

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Amplifier, Converter
from builder.model.vehicle import Vehicle
from builder.planning.job.sketch_job import CannotSketchError, Sketch, sketch_job
from builder.planning.tables import HOUSE_DEFAULT, RECORD

HOUSE = HouseDefaults()
FRONTS, SUB = ("front-left", "front-right"), "amn-600"


def sketch(
    device: Converter, *amplifiers: Amplifier, vehicle: Vehicle | None = None, **more: Any
) -> Sketch:
    car = vehicle or doors_car([retained(9)])
    stock = [cable(name) for name in ("5c", "3c", "2c")]
    return sketch_job(car, device, amplifiers, stock, defaults=HOUSE, **more)


def played(found: Sketch) -> list[tuple[str, tuple[str, ...]]]:
    return [(each.channel, each.plays) for each in found.job.speakers]


def of_channels(count: int) -> Amplifier:
    group = {
        "count": count, "use": "full_range", "min_ohm": 2, "bridgeable": "no",
        "power": [{"ohm": 4, "w_rms": 60}],
        "sensitivity": {"min_v_rms": 0.25, "max_v_rms": 4},
    }  # fmt: skip
    return amplifier("amn-4", channels=[group])


def test_doors_are_taken_over_from_three_channels_on_or_when_asked_for() -> None:
    device = converter("cvn-4a")
    assert [name for name, _ in played(sketch(device, of_channels(4)))] == list(CORNERS)
    assert [name for name, _ in played(sketch(device, of_channels(3)))] == list(FRONTS)
    assert {name for name, _ in played(sketch(device, of_channels(2)))} == {"sub"}
    asked = sketch(device, of_channels(2), treatment="intercept")
    assert [name for name, _ in played(asked)] == list(FRONTS)
    added = sketch(device, of_channels(4), treatment="addon")
    assert {name for name, _ in played(added)} == {"sub"}
    with pytest.raises(CannotSketchError, match="two full-range amplifier channels are needed"):
        sketch(device, amplifier(SUB), treatment="intercept")


def test_a_factory_subwoofer_is_listened_to_and_the_doors_are_broken() -> None:
    sub = bridged_pair("sub", 11)
    pairs = [pin for at, name in enumerate(CORNERS) for pin in bridged_pair(name, 1 + 2 * at)]
    vehicle = doors_car(
        plugs=[plug([*pairs, retained(9), *sub])],
        channels=[channel(name) for name in (*CORNERS, "sub")],
    )
    device = converter("cvn-6s", inputs=5)
    found = played(sketch(device, of_channels(4), amplifier(SUB), vehicle=vehicle))
    assert found == [*((name, (name,)) for name in CORNERS), ("sub", ("sub",))]


@pytest.mark.parametrize(("amplifiers", "branches"), [([SUB], 0), ([SUB, "amn-4"], 2)])
def test_two_amplifiers_share_the_supply_behind_a_block(
    amplifiers: list[str], branches: int
) -> None:
    found = sketch(converter("cvn-4a"), *(amplifier(name) for name in amplifiers))
    assert len(found.job.supply.branches) == branches
    told = [one for one in found.assumed if "distribution block" in one.decision]
    assert len(told) == (1 if branches else 0)


def test_what_is_drawn_without_sound_is_the_sum_of_the_records() -> None:
    """A converter without a supply draws nothing of its own."""
    amp = amplifier(SUB)
    assert sketch(converter("cvn-2p"), amp).job.supply.idle_a == amp.supply.idle_a == 0.75
    assert sketch(converter("cvn-4a"), amp).job.supply.idle_a == pytest.approx(0.2 + 0.75)


def test_a_length_says_whether_the_car_or_the_house_gave_it() -> None:
    battery = {"location": "bay", "sensor_on_negative": "no"}
    known = doors_car(
        [retained(9)], power={"battery": battery, "supply_lead_m": 4.2, "ground_lead_m": 0.3}
    )
    for vehicle, out, back, why, source in (
        (known, "4.2", "0.3", "to the usual amplifier place of this car", RECORD),
        (
            doors_car([retained(9)]), f"{HOUSE.sketch_supply_lead_m:g}",
            f"{HOUSE.ground_lead_max_m:g}", "the record gives no length", HOUSE_DEFAULT,
        ),
    ):  # fmt: skip
        said = {
            one.decision: one
            for one in sketch(converter(), amplifier(SUB), vehicle=vehicle).assumed
        }
        for decision in (f"supply lead of {out} m", f"ground lead of {back} m"):
            assert (said[decision].because, said[decision].source) == (why, source)


def test_two_full_range_channels_and_one_for_a_subwoofer_take_the_fronts_over() -> None:
    found = sketch(converter("cvn-4a"), amplifier("amn-3"))
    assert played(found) == [*((name, (name,)) for name in FRONTS), ("sub", FRONTS)]
    assert [each.name for each in found.job.speakers][2:] == ["subwoofer"]


def test_subwoofers_are_numbered_from_one_where_there_are_several() -> None:
    two = amplifier(SUB, channels=[{
        "count": 2, "use": "sub", "min_ohm": 2, "bridgeable": "no",
        "power": [{"ohm": 2, "w_rms": 300}], "sensitivity": {"min_v_rms": 0.2, "max_v_rms": 5},
    }])  # fmt: skip
    names = [each.name for each in sketch(converter("cvn-4a"), two).job.speakers]
    assert names == ["subwoofer 1", "subwoofer 2"]


@pytest.mark.parametrize(
    ("ohm", "why"), [(3.2, "as the record says"), (None, "nobody recorded its ohms")]
)
def test_the_ohms_of_a_factory_speaker_say_where_they_are_from(ohm: float | None, why: str) -> None:
    more = {} if ohm is None else {"speaker_ohm": ohm}
    channels = [channel(name, **more) for name in CORNERS]
    for each in channels:
        if ohm is None:
            each.pop("speaker_ohm", None)
    vehicle = doors_car([retained(9)], channels=channels)
    found = sketch(converter("cvn-4a"), of_channels(4), vehicle=vehicle)
    (said,) = [one for one in found.assumed if one.decision.startswith("front left speaker of")]
    assert why in said.because
    assert said.source == (HOUSE_DEFAULT if ohm is None else f"{RECORD}, {HOUSE_DEFAULT}")


def test_the_sounds_that_a_car_speaks_are_named_and_of_a_silent_one_nothing_is_said() -> None:
    decision = "no sound is asked to be kept"
    chime = [{"sound": "seat-belt chime", "channels": ["front-left"], "plays_key_off": "no"}]
    for sounds, named in ((chime, ["seat-belt chime"]), ([], [])):
        found = sketch(converter("cvn-4a"), amplifier(SUB), vehicle=doors_car(
            [retained(9)], protected_sounds=sounds,
        )).assumed  # fmt: skip
        said = [one.because.rpartition(": ")[2] for one in found if one.decision == decision]
        assert said == named


@pytest.mark.parametrize(
    ("count", "sums", "plays"),
    [(1, "any", [FRONTS]), (2, "any", [FRONTS[:1], FRONTS[1:]]), (1, "none", [FRONTS[:1]])],
)
def test_one_channel_plays_both_pairs_only_behind_a_converter_that_adds_them_up(
    count: int, sums: str, plays: list[tuple[str, ...]]
) -> None:
    found = sketch(converter("cvn-4a", sum=sums), of_channels(count), treatment="addon")
    rears = [tuple(name.replace("front", "rear") for name in each) for each in plays]
    assert [each.plays for each in found.job.speakers] == rears
