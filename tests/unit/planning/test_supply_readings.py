"""Supply drop and ground rise in milliohms: volts and amperes together, at any loudness."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, shipped_pack

from builder.model.job import Result
from builder.planning.bay.judged import judge_result
from builder.planning.bay.supply_tests import way_back, whole_loop
from builder.planning.pack_details import PowerSheet
from builder.planning.work_pack import BayTest


def power_of(name: str) -> PowerSheet:
    power = shipped_pack(name).power
    assert power is not None
    return power


def line(name: str, id: str) -> BayTest:
    return next(test for test in shipped_pack(name).tests if test.id == id)


def result(value: float, current_a: float | None) -> Result:
    return Result(
        test="amp-supply-drop", value=value, current_a=current_a, by="some-shop", date="2025-05-20"
    )


def test_the_worked_example_of_five_channels() -> None:
    """5.0 m of 4 AWG at 40 °C and 1.5 mΩ of joints, 0.9 mΩ of straps; 0.50 V at 58.8 A."""
    power = power_of("sorrel-five-channels")
    loop = whole_loop(power, power.runs[0], HOUSE)
    assert loop.expected_mohm == pytest.approx(4.396 + 1.5 + 0.9, abs=0.01)
    assert loop.most_mohm == pytest.approx(1000 * 0.5 / 58.8, abs=0.01)
    assert loop.straps
    assert 5 * loop.expected_mohm == pytest.approx(34, abs=0.1)  # mV at 5 A
    drop = line("sorrel-five-channels", "amp-supply-drop")
    assert "6.8 mΩ" in drop.why and "unread" not in drop.why
    assert drop.at_a == power.music_current_a


def test_what_an_amplifier_feeds_flows_through_the_clamp_too() -> None:
    """4 × 60 W of class AB take 31.6 A and the converter behind them 0.5 A: 8 AWG, 3.8 m."""
    power = power_of("teasel-four-doors")
    loop = whole_loop(power, power.runs[0], HOUSE)
    assert loop.expected_mohm == pytest.approx(3.8 * 2.223 + 1.5, abs=0.01)
    assert loop.most_mohm == pytest.approx(1000 * 0.5 / (31.62 + 0.5), abs=0.01)


def test_the_way_back_is_its_wire_and_the_straps() -> None:
    power = power_of("sorrel-five-channels")
    back = way_back(power, power.runs[0], HOUSE)
    assert back.expected_mohm == pytest.approx(0.4 * 0.8792 + 0.9, abs=0.005)
    assert back.most_mohm == pytest.approx(1000 * 0.1 / 58.8, abs=0.01)


def test_straps_as_read_that_the_plan_took_are_no_poor_ground() -> None:
    """2 mΩ leave the loop under its 0.50 V, and lift the ground by more than 0.1 V."""
    power = replace(power_of("sorrel-five-channels"), strap_mohm=2.0)
    back = way_back(power, power.runs[0], HOUSE)
    loop = whole_loop(power, power.runs[0], HOUSE)
    assert loop.expected_mohm < loop.most_mohm
    assert 1000 * 0.1 / 58.8 < back.expected_mohm < back.most_mohm


def test_straps_that_nobody_read_are_said_to_be_left_out() -> None:
    assert "straps unread" in line("tansy-subwoofer", "sub-amp-supply-drop").why
    assert "unread" not in line("sedge-fronts", "front-amp-supply-drop").why


@pytest.mark.parametrize(
    ("volts", "amperes", "where"),
    [
        (0.034, 5.0, "in"),
        (0.0424, 5.0, "in"),  # 8.48 mΩ of 8.497
        (0.0425, 5.0, "high"),
        (0.34, 50.0, "in"),
        (0.20, 5.0, "high"),  # in order as volts, 40 mΩ all the same
        (0.20, None, "in"),
        (0.51, None, "high"),
    ],
)
def test_volts_over_amperes_are_judged_and_volts_alone_as_before(
    volts: float, amperes: float | None, where: str
) -> None:
    drop = line("sorrel-five-channels", "amp-supply-drop")
    judged = judge_result(result(volts, amperes), drop, HOUSE)
    assert (judged.where, judged.current_a) == (where, amperes)
