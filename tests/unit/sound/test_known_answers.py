"""Answers that a closed form has, found again in recordings of cars that never were."""

from __future__ import annotations

from functools import cache
from math import asin, cos, pi, sin, sqrt

import numpy as np
import pytest
from scipy.integrate import quad
from sound_car import RATE, SHORT, Car, Pair, all_pass

from builder.sound.clock import set_clock
from builder.sound.marks import find_track
from builder.sound.response import quiet_response
from builder.sound.results import Measured
from builder.sound.summing import lost_in_sum
from builder.sound.tones import fitted_tone


@cache
def responses(q, delay_s):
    """Two equal pairs, the second late, or turned by an all-pass at 300 Hz."""
    filters = [] if q is None else [all_pass(300.0, q)]
    recording = Car([Pair(), Pair(filters=filters, delay_s=delay_s)], ppm=140).recorded()
    placed = set_clock(recording, SHORT, find_track(recording, SHORT)).placed
    return [quiet_response(each, SHORT, placed) for each in recording.channels]


def sum_db(hz, q=None, delay_s=0.0):
    """The sum of both against the first alone."""
    one, other = responses(q, delay_s)
    whole = (one.values + other.values) / one.values
    near = np.abs(one.hz - hz) < 3
    real, imaginary = (np.interp(hz, one.hz[near], part[near]) for part in (whole.real, whole.imag))
    return 20 * np.log10(np.hypot(real, imaginary))


def test_a_pair_late_by_1_2_ms_adds_6_db_where_it_is_late_by_a_whole_wave():
    assert sum_db(1 / 0.0012, delay_s=0.0012) == pytest.approx(20 * np.log10(2), abs=0.01)


@pytest.mark.parametrize("odd", [1, 3, 5])
def test_a_pair_late_by_1_2_ms_leaves_nothing_at_odd_half_waves(odd):
    null_hz = odd / (2 * 0.0012)
    assert null_hz == pytest.approx({1: 416.7, 3: 1250.0, 5: 2083.3}[odd], abs=0.05)
    one, other = responses(None, 0.0012)
    near = (one.hz > null_hz * 0.95) & (one.hz < null_hz * 1.05)
    sizes = np.abs(one.values + other.values)[near] / np.abs(one.values)[near]
    assert one.hz[near][np.argmin(sizes)] == pytest.approx(null_hz, abs=1.0)
    assert sum_db(null_hz, delay_s=0.0012) < -45


@pytest.mark.parametrize(("octaves", "lost_db"), [(0, -3.01), (1, -6.99)])
def test_an_all_pass_of_the_first_order_takes_what_its_phase_says(octaves, lost_db):
    turned = -2 * np.arctan(2.0**octaves)
    assert 20 * np.log10(cos(turned / 2)) == pytest.approx(lost_db, abs=0.005)
    in_phase_db = 20 * np.log10(2)
    found_db = sum_db(300.0 * 2**octaves, q=0) - in_phase_db
    assert found_db == pytest.approx(lost_db, abs=0.02)


def test_an_all_pass_of_the_second_order_leaves_nothing_at_its_corner():
    assert sum_db(300.0, q=0.7) < -40


def test_what_joining_loses_is_said_by_sixths_of_an_octave():
    lost = dict(lost_in_sum(*responses(0.7, 0.0)))
    near = min(lost, key=lambda hz: abs(hz - 300))
    assert lost[near].value < -25 and lost[min(lost)].value == pytest.approx(0, abs=0.3)
    assert all(isinstance(lost[hz], Measured) for hz in lost if 25 < hz < 18_000)


def clipped_orders(down_db):
    """Harmonics 1, 3, 5 … of a sine cut flat below its peak, by its Fourier series."""
    level = 10 ** (-down_db / 20)
    angle = asin(level)
    first = 2 / pi * (angle + level * sqrt(1 - level**2))
    rest = [
        2 / pi * (sin((n - 1) * angle) / (n - 1) - sin((n + 1) * angle) / (n + 1))
        + 4 * level / (pi * n) * cos(n * angle)
        for n in range(3, 4000, 2)
    ]
    return first, rest


@pytest.mark.parametrize(("down_db", "all_percent"), [(1, 4.63), (2, 9.25)])
def test_the_series_of_a_clipped_sine_is_that_of_its_integrals(down_db, all_percent):
    first, rest = clipped_orders(down_db)
    level = 10 ** (-down_db / 20)
    for n, value in ((1, first), (3, rest[0]), (5, rest[1])):
        whole, _ = quad(lambda x, n=n: min(sin(x), level) * sin(n * x), 0, pi / 2, limit=200)
        assert 4 / pi * whole == pytest.approx(value, abs=1e-7)
    assert 100 * np.hypot.reduce(rest) / first == pytest.approx(all_percent, abs=0.005)
    if down_db == 1:
        assert 100 * abs(rest[0]) / first == pytest.approx(3.68, abs=0.005)


@pytest.mark.parametrize("down_db", [1, 2])
def test_the_orders_of_a_clipped_sine_are_read_as_the_series_has_them(down_db):
    times_s = np.arange(24_000) / RATE
    level = 10 ** (-down_db / 20)
    tone = fitted_tone(np.clip(np.sin(2 * pi * 40 * times_s), -level, level), times_s, 40, RATE)
    first, rest = clipped_orders(down_db)
    for order, value in zip((3, 5, 7, 9), rest, strict=False):
        share = tone.orders[order - 2] / tone.rms
        assert share == pytest.approx(abs(value) / first, abs=2e-5)
    assert tone.distortion == pytest.approx(np.hypot.reduce(rest[:4]) / first, abs=2e-5)
    assert tone.rms * sqrt(2) == pytest.approx(first, rel=1e-5)


def test_a_tone_is_told_from_its_noise():
    draw = np.random.default_rng(5)
    times_s = np.arange(24_000) / RATE
    heard = 0.1 * np.sin(2 * pi * 1000 * times_s + 1) + 0.001 * draw.standard_normal(24_000)
    tone = fitted_tone(heard, times_s, 1000, RATE)
    assert tone.rms == pytest.approx(0.1 / sqrt(2), abs=3 * tone.error_rms)
    assert tone.noise_rms == pytest.approx(0.001, rel=0.02)
    assert tone.error_rms == pytest.approx(0.001 * sqrt(2 / 24_000), rel=0.02)
    assert tone.distortion < 3 * tone.distortion_error
