"""What an amplifier is set to."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vector_reading import groups

from builder.model.house_defaults import HouseDefaults
from builder.planning.levels.gain_setting import (
    amplifier_power_w,
    set_volts,
    tone_range_hz,
    tone_reading,
)

HOUSE = HouseDefaults()
AUDIO = groups("audio_levels")
AMN_600 = {4.0: 350.0, 2.0: 600.0}


@pytest.mark.parametrize(("power", "ohm", "volts"), AUDIO["volts_for_power"]["cases"])
def test_set_volts_against_the_printed_table(power: float, ohm: float, volts: float) -> None:
    assert set_volts(power, power, ohm).v_rms == pytest.approx(volts, abs=0.001)


@pytest.mark.parametrize(
    ("amplifier", "speaker", "ohm", "volts", "by"),
    [
        (600, 500, 2, 31.6, "speaker"),
        (60, 50, 4, 14.1, "speaker"),
        (100, 80, 4, 17.9, "speaker"),
        (400, 500, 2, 28.3, "amplifier"),
        (60, 40, 4, 12.6, "speaker"),
        (1200, 1000, 1, 31.6, "speaker"),
    ],
)
def test_set_volts_of_worked_jobs(
    amplifier: float, speaker: float, ohm: float, volts: float, by: str
) -> None:
    found = set_volts(amplifier, speaker, ohm)
    assert found.v_rms == pytest.approx(volts, abs=0.05)
    assert found.limited_by == by
    assert found.v_rms <= found.full_v_rms


@pytest.mark.parametrize(
    ("ohm", "watts"),
    [
        (2, 600),
        (4, 350),
        (3, 400),  # the 34.6 V that it drives into 2 Ω; a straight line would promise 475 W
        (3.8, 332.5),  # nearer to 4 Ω: the 9.35 A that it drives there
        (8, 175),
    ],
)
def test_power_between_stated_loads(ohm: float, watts: float) -> None:
    assert amplifier_power_w(AMN_600, ohm, 2) == pytest.approx(watts)


def test_power_under_the_lowest_stated_load() -> None:
    assert amplifier_power_w({4.0: 100.0}, 3, 2) == pytest.approx(75)


def test_impossible_loads() -> None:
    with pytest.raises(ValueError, match="may drive"):
        amplifier_power_w(AMN_600, 1, 2)
    with pytest.raises(ValueError, match="no power"):
        amplifier_power_w({}, 4, 2)
    with pytest.raises(ValueError, match="positive"):
        set_volts(600, 0, 2)


@given(st.floats(2, 4))
def test_power_is_never_over_a_straight_line(ohm: float) -> None:
    assert amplifier_power_w(AMN_600, ohm, 2) <= 600 - 125 * (ohm - 2) + 1e-6


def test_tones() -> None:
    assert tone_range_hz("sub") == (40, 50)
    assert tone_range_hz("door") == (1000, 1000)
    with pytest.raises(ValueError, match="door or a sub"):
        tone_range_hz("roof")


def test_three_ways_to_read() -> None:
    full = tone_reading(31.62, "sub", HOUSE)
    assert (full.tone_db, full.read_v_rms) == (0, 31.62)
    quiet = tone_reading(31.62, "sub", HOUSE, quiet_tone=True)
    assert quiet.read_v_rms == pytest.approx(31.62 * 0.56234, abs=0.001)
    overlap = tone_reading(31.62, "sub", HOUSE, quiet_tone=True, overlap=True)
    assert overlap.read_v_rms == pytest.approx(31.62)
    assert full.says == "play 40 to 50 Hz at full scale (0 dBFS), read 31.6 V"
    assert "5 dB under full scale (-5 dBFS)" in quiet.says and "music" not in quiet.says
    assert overlap.says.endswith("V: music reaches that 5 dB before its own full scale")


def test_an_overlap_never_reads_beyond_the_limit() -> None:
    with pytest.raises(ValueError, match="pass the limit"):
        tone_reading(31.62, "sub", HOUSE, overlap=True)
