"""Converter gain and line level of invented jobs, worked by hand to the printed digits."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Gain
from builder.planning.levels.line_gain import (
    choose_common_gains,
    choose_gain,
    line_target_v,
    pad_ratio,
    round_down_v,
)
from builder.planning.levels.line_limits import LineDemand, gain_flags, line_flags

HOUSE = HouseDefaults()


def gain(least: float, most: float) -> Gain:
    return Gain(kind="adjustable", min=least, max=most)


CVN_2A, CVN_4A, CVN_6S = gain(0.05, 2.0), gain(0.05, 1.0), gain(0.02, 2.0)


def sub(source: float = 8.246) -> LineDemand:
    """A 600 W at 2 Ω amplifier for a 500 W subwoofer."""
    return LineDemand(source, CVN_2A, 8.0, 0.2, 5.0, full_v_rms=sqrt(1200), set_v_rms=sqrt(1000))


@pytest.mark.parametrize(
    ("source", "gain"), [(sqrt(17 * 4), 0.546), (9.12, 0.493), (sqrt(80 * 2), 0.356)]
)
def test_add_on_sub(source: float, gain: float) -> None:
    chosen = choose_gain(sub(source), HOUSE)
    assert chosen.line_v_rms == 4.5
    assert chosen.gain == pytest.approx(gain, abs=0.0005)
    assert chosen.basis == "target" and not chosen.flags


def test_four_doors() -> None:
    doors = LineDemand(sqrt(80), CVN_4A, 5.0, 0.25, 4.0, full_v_rms=sqrt(240), set_v_rms=sqrt(200))
    chosen = choose_gain(doors, HOUSE)
    assert chosen.line_v_rms == 3.6
    assert chosen.gain == pytest.approx(0.402, abs=0.0005)


def test_the_speaker_lowers_the_level() -> None:
    fronts = LineDemand(10, CVN_6S, 10.0, 0.3, 6.0, full_v_rms=20, set_v_rms=sqrt(320))
    chosen = choose_gain(fronts, HOUSE)
    assert (chosen.line_v_rms, chosen.basis) == (5.3, "speaker_limited")
    assert chosen.gain == pytest.approx(0.53)
    assert "18.0 V" in chosen.steps[1] and "17.9 V" in chosen.steps[1]
    # With its gain at least, the amplifier now stays under what the speaker takes.
    assert 20 * chosen.line_v_rms / 6.0 <= sqrt(320) < 20 * 5.4 / 6.0


def test_a_gain_that_cannot_be_set_is_said_to_three_decimals() -> None:
    """One in a thousand is finer than anybody turns a control, and the limit is told from it."""
    limits = gain(0.05, 2.0)
    assert gain_flags(limits, 2.0) == gain_flags(limits, 0.05) == []
    (above,) = gain_flags(limits, 2.12345)
    assert above.says == "a gain of 2.123 is outside 0.05 to 2"
    assert (above.value, above.limit) == (2.12345, 2.0)
    (below,) = gain_flags(limits, 0.01234)
    assert (below.says, below.limit) == ("a gain of 0.012 is outside 0.05 to 2", 0.05)


def test_volts_over_or_under_a_limit_are_said_as_a_meter_shows_them() -> None:
    doors = LineDemand(sqrt(80), CVN_4A, 5.0, 0.25, 4.0)
    assert line_flags(doors, 4.0, HOUSE) == []
    (above,) = line_flags(doors, 4.1234, HOUSE)
    assert above.says == "4.12 V is more than the 4 V the amplifier takes"
    out = replace(doors, sensitivity_max_v_rms=9.0)
    (beyond,) = line_flags(out, 5.6789, HOUSE)
    assert beyond.says == "5.68 V is more than the 5 V the converter gives"
    (short,) = line_flags(doors, 0.1234, HOUSE)
    assert short.says.startswith("0.12 V is less than the ")


def test_the_least_gain_says_what_it_gives() -> None:
    """20 V through a gain of at least 0.31234 is 6.2468 V, more than the 4.5 V aimed at."""
    loud = LineDemand(20.0, gain(0.31234, 2.0), 8.0, 0.2, 5.0)
    chosen = choose_gain(loud, HOUSE)
    assert chosen.basis == "least_gain"
    assert chosen.line_v_rms == pytest.approx(6.2468)
    assert chosen.steps[-1].endswith(" gives 6.25 V")


def test_what_is_reached_above_the_tone_is_said_only_where_the_tone_is_lower() -> None:
    whole = LineDemand(sqrt(80), CVN_4A, 5.0, 0.25, 9.0)
    assert choose_gain(whole, HOUSE).steps[0] == "0.9 of the smaller line limit: 4.5 V"
    less = choose_gain(replace(whole, full_band_ratio=0.5), HOUSE).steps[0]
    assert "the output's 5 V, which it reaches above the tone while the tone is at 2.50 V" in less


def test_outputs_that_share_one_level() -> None:
    doors = LineDemand(8.944, CVN_6S, 10.0, 0.25, 4.0)
    bass = LineDemand(8.944, CVN_6S, 10.0, 0.2, 5.0, summed=2)
    first, second = choose_common_gains([doors, bass], HOUSE)
    assert first.line_v_rms == second.line_v_rms == 3.6
    assert first.gain == pytest.approx(0.402, abs=0.0006)
    assert second.gain == pytest.approx(0.201, abs=0.0005)
    assert second.basis == "common"
    with pytest.raises(ValueError, match="no output"):
        choose_common_gains([], HOUSE)


def test_a_fixed_gain_is_checked_not_chosen() -> None:
    passive = LineDemand((14.4 / 2 - 1) / sqrt(2), Gain(kind="fixed", value=0.2), 2.0, 0.25, 4.0)
    found = choose_gain(passive, HOUSE)
    assert (found.basis, round(found.line_v_rms, 3)) == ("fixed", 0.877)
    assert not found.flags
    loud = choose_gain(replace(passive, source_v_rms=24.0), HOUSE)
    assert [flag.kind for flag in loud.flags] == ["line_above_output", "line_above_input"]
    faint = choose_gain(replace(passive, source_v_rms=1.2), HOUSE)
    assert [(flag.kind, round(flag.limit, 2)) for flag in faint.flags] == [
        ("line_below_sensitivity", 0.28)
    ]


def test_a_gain_that_does_not_reach() -> None:
    weak = LineDemand(2.0, CVN_4A, 5.0, 0.25, 4.0)
    chosen = choose_gain(weak, HOUSE)
    assert (chosen.line_v_rms, chosen.basis) == (1.8, "gain_limited")
    assert "no more than 2.00 V" in chosen.steps[-1]
    hopeless = choose_gain(replace(weak, source_v_rms=0.25), HOUSE)
    assert [flag.kind for flag in hopeless.flags] == ["line_below_sensitivity"]


def test_a_gain_that_cannot_be_low_enough() -> None:
    loud = LineDemand(20, gain(0.5, 2.0), 12.0, 0.2, 4.0)
    chosen = choose_gain(loud, HOUSE)
    assert (chosen.line_v_rms, chosen.basis) == (10.0, "least_gain")
    assert [flag.kind for flag in chosen.flags] == ["line_above_input"]


def test_a_pad_takes_part() -> None:
    assert pad_ratio(10000, 0) == 1
    assert pad_ratio(10000, 3900) == pytest.approx(10 / 17.8)
    quiet = choose_gain(replace(sub(20.0), pad_factor=pad_ratio(10000, 3900)), HOUSE)
    assert quiet.gain == pytest.approx(4.5 / (20 * 10 / 17.8))
    with pytest.raises(ValueError, match="positive"):
        pad_ratio(10000, -1)


@pytest.mark.parametrize(
    ("volts", "rounded"), [(0.9 * 4, 3.6), (0.9 * 7, 6.3), (5.3666, 5.3), (3.59, 3.5), (0.877, 0.8)]
)
def test_rounding_down(volts: float, rounded: float) -> None:
    assert round_down_v(volts) == rounded


def test_targets() -> None:
    assert line_target_v(8, 5, HOUSE) == 4.5
    assert line_target_v(2, 4, HOUSE) == 1.8
    with pytest.raises(ValueError, match="positive"):
        line_target_v(0, 4, HOUSE)


@given(st.floats(0.5, 40), st.floats(1, 10), st.floats(0.5, 8), st.floats(1, 40))
def test_a_chosen_level_without_flags_keeps_every_limit(
    source: float, out_max: float, in_max: float, set_v: float
) -> None:
    demand = LineDemand(
        source, CVN_6S, out_max, in_max / 20, in_max, full_v_rms=40, set_v_rms=set_v
    )
    chosen = choose_gain(demand, HOUSE)
    if not chosen.flags:
        assert chosen.line_v_rms <= min(out_max, in_max)
        assert 0.02 * 0.999 <= chosen.gain <= 2.0 * 1.001
        if chosen.basis != "least_gain":
            assert 40 * chosen.line_v_rms / in_max <= set_v * 1.0001
