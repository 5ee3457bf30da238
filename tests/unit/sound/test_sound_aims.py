"""A recording at an amplifier's outputs against the tune that was asked for."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sound_car import SHORT, Car, Pair, half, peak

from builder.pipeline.answers.sound_aims import aims_of
from builder.planning.tune_sheet import EqualiserPoint, TuneRow
from builder.sound.reading import Said, read_recording

ROW = TuneRow(
    "subwoofer", "sub amp", "1", "sub amp", None, 80.0, 25.0, 24, "normal", 0.0, "", (), "off",
    2.0, 1.0, 2.0, None, None,
)  # fmt: skip


def facts(*filters):
    car = Car([Pair(filters=list(filters))], chain_corner_hz=2.0)
    return read_recording(car.recorded(), Said(SHORT.choice, (None,), 2.0), None).pairs[0]


@pytest.fixture(scope="module")
def as_asked():
    return facts(half("Butterworth 4", "high", 25), half("Butterworth 4", "low", 80))


def test_the_edges_of_a_narrow_band_lie_near_its_corners(as_asked):
    """They are counted from a level that the slopes lower a little."""
    assert as_asked.lower_edge_hz.value == pytest.approx(25, rel=0.06)
    assert as_asked.upper_edge_hz.value == pytest.approx(80, rel=0.06)


def told(row, found):
    return {each.what: each for each in aims_of(row, found)}


def test_what_is_set_as_asked_passes(as_asked):
    found = told(ROW, as_asked)
    assert [each.passes for each in found.values()] == [True, True, True, True]
    assert not any(each.change for each in found.values())


@pytest.mark.parametrize(
    ("row", "what", "change"),
    [
        (replace(ROW, low_pass_hz=60.0), "low-pass", "turn the low-pass of sub amp down by 1.4"),
        (replace(ROW, low_pass_hz=120.0), "low-pass", "turn the low-pass of sub amp up by 1.4"),
        (replace(ROW, high_pass_hz=40.0), "high-pass", "turn the high-pass of sub amp up by 1.7"),
    ],
)
def test_a_corner_elsewhere_says_which_way_to_turn(as_asked, row, what, change):
    found = told(row, as_asked)
    assert found[what].passes is False and found[what].change.startswith(change)


@pytest.mark.parametrize(
    ("ratio", "passes"), [(1.19, True), (1.21, False), (1 / 1.19, True), (1 / 1.21, False)]
)
def test_a_corner_passes_within_a_fifth_either_way(as_asked, ratio, passes):
    row = replace(ROW, low_pass_hz=as_asked.upper_edge_hz.value / ratio)
    assert told(row, as_asked)["low-pass"].passes is passes


def test_a_bell_that_is_left_is_told_with_what_to_do():
    raw = facts(peak(400, 9, 2.0))
    wide = replace(ROW, low_pass_hz=None, subsonic_hz=None)
    found = told(wide, raw)["evenness"]
    assert found.passes is False and "no equaliser on record" in found.change
    bell = replace(wide, equaliser=(EqualiserPoint(100.0, -3.0, 1.0),))
    assert told(bell, raw)["evenness"].change.startswith("cut ")


def test_what_the_recording_cannot_say_is_not_told():
    unknown = read_recording(
        Car([Pair()], chain_corner_hz=2.0).recorded(), Said(SHORT.choice, (None,), None), None
    )
    found = told(ROW, unknown.pairs[0])
    assert found["high-pass"].passes is None and found["high-pass"].change
    assert found["low-pass"].passes is None
