"""A pair as a source: who drives it, what its legs say, what its bias is at the audio supply."""

from __future__ import annotations

from typing import Any

import pytest
from plan_cars import bridged_pair, car, channel, plug

from builder.model.house_defaults import HouseDefaults
from builder.planning.car.pairs import Pair, find_pairs

HOUSE = HouseDefaults()


def pair_of(pins: list[dict[str, Any]] | None = None, **more: Any) -> Pair:
    unit = more.pop("unit", "radio")
    found = car(plugs=[plug(pins or bridged_pair("front-left", 1), unit=unit)], **more)
    (pair,) = find_pairs(found, HOUSE)
    return pair


@pytest.mark.parametrize("unit", ["radio", "amplifier"])
@pytest.mark.parametrize("feed", ["none", "digital"])
def test_the_unit_of_the_plug_drives_its_pairs(unit: str, feed: str) -> None:
    said = [channel("front-left", driven_by="amplifier" if unit == "radio" else "radio")]
    pair = pair_of(unit=unit, factory_amplifier={"feed": feed}, channels=said)
    assert pair.driven_by == unit


@pytest.mark.parametrize("driven_by", ["radio", "amplifier"])
@pytest.mark.parametrize("feed", ["none", "digital"])
def test_at_a_plug_between_the_channel_says_who_drives_it(driven_by: str, feed: str) -> None:
    said = [channel("front-left", driven_by=driven_by)]
    pair = pair_of(unit="other", factory_amplifier={"feed": feed}, channels=said)
    assert pair.driven_by == driven_by


@pytest.mark.parametrize(
    ("feed", "driven_by"),
    [("none", "radio"), ("digital", "amplifier"), ("analogue_variable", "amplifier")],
)
def test_a_channel_that_nobody_described_is_driven_by_the_last_unit_there_is(
    feed: str, driven_by: str
) -> None:
    assert pair_of(unit="other", factory_amplifier={"feed": feed}).driven_by == driven_by


@pytest.mark.parametrize(
    ("read_v", "battery_v", "at_audio_supply_v"),
    [
        (6.2, 12.4, 7.2),  # half the battery is half of 14.4 V there
        (3.1, 12.4, 3.6),
        (7.0, 12.4, 7.2),  # never above half of it by the battery
        (7.2, 12.4, 7.2),
        (9.9, 12.4, 9.9),  # a rail of its own stays
        (6.2, None, 7.2),  # without battery volts the most that it can be
        (0.0, None, 0.0),
        (0.0, 12.4, 0.0),
    ],
)
def test_the_bias_at_the_supply_that_audio_power_is_rated_at(
    read_v: float, battery_v: float | None, at_audio_supply_v: float
) -> None:
    """A bridge biases its legs at half its supply; ratings are at 14.4 V (CTA-2006, not read)."""
    pins = bridged_pair("front-left", 1, bias_v=read_v)
    for pin in pins:
        pin["readings"][0]["battery_v"] = "unknown" if battery_v is None else battery_v
        if battery_v is None:
            del pin["readings"][0]["battery_v"]
    bias = pair_of(pins).bias
    assert bias is not None
    assert bias.at_audio_supply_v == pytest.approx(at_audio_supply_v)


def test_one_leg_alone_gives_no_bias() -> None:
    pins = bridged_pair("front-left", 1)
    del pins[1]["readings"][0]
    assert pair_of(pins).bias is None


@pytest.mark.parametrize(
    ("bias_v", "topology"),
    [(6.4, "bridged"), (1.0, "bridged"), (0.99, "unknown"), (0.51, "unknown"),
     (0.5, "common_ground"), (0.0, "common_ground")],
)  # fmt: skip
def test_the_bias_tells_the_outputs_where_the_record_does_not(bias_v: float, topology: str) -> None:
    """From 1 V on a leg is biased, up to 0.5 V it is off, both house defaults; between, ask."""
    assert (HOUSE.biased_leg_min_v, HOUSE.off_max_v) == (1.0, 0.5)
    unknown = {"outputs": "unknown", "open_load_check": "no", "data_wake": "no"}
    assert pair_of(bridged_pair("front-left", 1, bias_v), radio=unknown).topology == topology
    stated = unknown | {"outputs": "bridged"}
    assert pair_of(bridged_pair("front-left", 1, bias_v), radio=stated).topology == "bridged"
