"""Levels by sixths of an octave and a crossover, against a library of acoustics.

It filters in time, where the analysis adds up in frequency. Of the libraries that were looked at it
is the one that brings nothing but numpy and scipy; filters and all-passes are held against scipy
itself (`test_sound_filters.py`).
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import signal
from sound_car import RATE, SHORT, Car, Pair, half, peak

from builder.sound.bands import shape_of
from builder.sound.clock import set_clock
from builder.sound.filters import FILTER_TYPES, crossover
from builder.sound.marks import find_track
from builder.sound.response import quiet_response
from builder.sound.results import Measured

octaves = pytest.importorskip(
    "pyoctaveband", reason="it needs newer numbers than the oldest lock has"
)

FILTERS = [peak(90, 4, 0.9), peak(2500, -3, 1.2), half("Butterworth 2", "high", 38)]
LENGTH = 65_536


def impulse():
    """One sample, a quarter of the way in, so that what rings before it has room."""
    return np.eye(1, LENGTH, LENGTH // 4)[0]


def bands_db(samples):
    """The level of each of the library's sixths of an octave. [Hz, dB]"""
    levels_db, hz = octaves.octavefilter(
        samples, RATE, fraction=6, limits=[25, 17_000], detrend=False
    )
    return np.array(hz), np.array(levels_db)


def test_a_recorded_shape_is_that_of_the_same_filters_in_bands_of_the_library():
    recording = Car([Pair(filters=FILTERS)], ppm=80, chain_corner_hz=0.5).recorded()
    placed = set_clock(recording, SHORT, find_track(recording, SHORT)).placed
    shape = shape_of(quiet_response(recording.channels[0], SHORT, placed))
    told = np.array([(np.log(hz), at.value) for hz, at in shape if isinstance(at, Measured)])
    filtered = impulse()
    for each in FILTERS:
        filtered = signal.sosfilt(each, filtered)
    (hz, through_db), (_, all_db) = bands_db(filtered), bands_db(impulse())
    # Its sixths lie between those of the analysis, and its levels count from another one.
    away_db = np.interp(np.log(hz), *told.T) - (through_db - all_db)
    assert len(hz) > 50 and np.max(np.abs(away_db - np.median(away_db))) < 0.1


@pytest.mark.parametrize("order", [2, 4])
def test_a_linkwitz_riley_crossover_is_that_of_the_library(order):
    kind = next(each for each in FILTER_TYPES if each.name == f"Linkwitz-Riley {order}")
    halves = octaves.linkwitz_riley(impulse(), RATE, 2200.0, order)
    hz = np.fft.rfftfreq(LENGTH, 1 / RATE)
    inside = (hz > 50) & (hz < 18_000)
    for way, samples in zip(("low-pass", "high-pass"), halves, strict=True):
        wanted = np.abs(np.fft.rfft(samples))[inside]
        found = np.abs(crossover(kind, way, hz[inside], 2200.0, RATE))
        assert np.max(np.abs(found - wanted)) < 1e-3
