"""Crossovers and all-passes that are looked for in recordings, against a filter library."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import signal

from builder.sound.filters import FILTER_TYPES, all_pass_phase, crossover

HZ = np.geomspace(20, 20_000, 200)
BY_NAME = {kind.name: kind for kind in FILTER_TYPES}


def analog(kind, way, corner_hz):
    """Numerator and denominator, and how many of these stand in a row."""
    turns = 2 * np.pi * corner_hz
    if kind.name.startswith("Linkwitz-Riley"):
        return signal.butter(kind.order // 2, turns, way, analog=True), 2
    if kind.name.startswith("Bessel"):
        return signal.bessel(kind.order, turns, way, analog=True, norm="mag"), 1
    return signal.butter(kind.order, turns, way, analog=True), 1


@pytest.mark.parametrize("name", BY_NAME)
@pytest.mark.parametrize("way", ["low", "high"])
def test_a_crossover_is_that_of_the_library(name, way):
    coefficients, times = analog(BY_NAME[name], way, 750.0)
    _, wanted = signal.freqs(*coefficients, 2 * np.pi * HZ)
    found = crossover(BY_NAME[name], f"{way}-pass", HZ, 750.0, None)
    assert np.max(np.abs(found - wanted**times)) < 2e-4  # Bessel figures have four digits


@pytest.mark.parametrize("rate_hz", [44_100, 48_000])
@pytest.mark.parametrize("order", [1, 2, 3, 4])
def test_a_processor_draws_frequencies_together_as_the_library_does(rate_hz, order):
    sos = signal.butter(order, 6000, fs=rate_hz, output="sos")
    _, wanted = signal.sosfreqz(sos, HZ, fs=rate_hz)
    found = crossover(BY_NAME[f"Butterworth {order}"], "low-pass", HZ, 6000, rate_hz)
    assert np.max(np.abs(found - wanted)) < 1e-6


@pytest.mark.parametrize("q", [0.0, 0.5, 0.707, 3.0])
def test_an_all_pass_has_the_phase_that_the_library_works_out(q):
    turns = 2 * np.pi * 300.0
    if q:
        top, bottom = [1, -turns / q, turns**2], [1, turns / q, turns**2]
    else:
        top, bottom = [-1, turns], [1, turns]
    _, wanted = signal.freqs(top, bottom, 2 * np.pi * HZ)
    assert np.abs(wanted) == pytest.approx(1)
    assert np.max(np.abs(np.exp(1j * all_pass_phase(HZ, 300.0, q, None)) - wanted)) < 1e-9


def test_two_linkwitz_riley_halves_add_up_to_one_and_two_butterworth_halves_to_3_db_more():
    for name, db in (("Linkwitz-Riley 4", 0.0), ("Butterworth 4", 3.01)):
        low, high = (
            crossover(BY_NAME[name], way, np.array([1000.0]), 1000.0, None)
            for way in ("low-pass", "high-pass")
        )
        assert 20 * np.log10(np.abs(low + high))[0] == pytest.approx(db, abs=0.01)
