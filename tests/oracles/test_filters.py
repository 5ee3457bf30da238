"""Filters by a general library (scipy.signal): crossovers with a delay, and tones inside a band."""

from __future__ import annotations

from cmath import exp
from math import log10, pi

import pytest

from builder.model.sound import SpeakerChannel
from builder.planning.feeds.delay_sum import delay_sum
from builder.planning.levels.pair_tone import pair_tone_hz


def response(order: int, corner_hz: float, kind: str, hz: float) -> complex:
    """A Butterworth filter's gain and phase at one frequency."""
    from scipy import signal  # a second to load, and only here

    b, a = signal.butter(order, 2 * pi * corner_hz, kind, analog=True)
    _, found = signal.freqs(b, a, worN=[2 * pi * hz])
    return complex(found[0])


def crossed(hz: float, at: float) -> tuple[complex, complex]:
    """Low and high band of a fourth-order crossover: two Butterworth sections of order two."""
    return response(2, hz, "lowpass", at) ** 2, response(2, hz, "highpass", at) ** 2


def db(factor: complex) -> float:
    return 20 * log10(abs(factor))


@pytest.mark.parametrize("hz", [120.0, 2900.0, 3500.0])
@pytest.mark.parametrize("turns", [0.0, 0.05, 0.125, 0.25, 0.4])
def test_a_late_band_costs_what_the_filters_say(hz: float, turns: float) -> None:
    delay_ms = 1000 * turns / hz
    low, high = crossed(hz, hz)
    late = high * exp(-2j * pi * turns)
    assert delay_sum(hz, delay_ms).loss_db == pytest.approx(db(low + late), abs=1e-6)


def test_bands_of_order_two_are_not_in_phase_and_the_formula_does_not_cover_them() -> None:
    # The stated assumption of the formula, seen to matter: order two is half a turn apart.
    low, high = response(2, 2900, "lowpass", 2900), response(2, 2900, "highpass", 2900)
    assert abs(low + high) < 1e-9
    assert delay_sum(2900, 0).loss_db == 0


def sound(**band: float | str) -> SpeakerChannel:
    """A pair with a band of its own, nothing else said."""
    said = dict.fromkeys(SpeakerChannel.__dataclass_fields__)
    return SpeakerChannel(**{**said, "band": "full", **band})  # type: ignore[arg-type]


@pytest.mark.parametrize("corner", [900.0, 2500.0, 3000.0, 5000.0])
def test_an_octave_inside_a_high_pass_loses_what_is_said(corner: float) -> None:
    hz, _ = pair_tone_hz(sound(band="high", highpass_hz=corner))
    assert hz == pytest.approx(2 * corner)
    assert db(response(2, corner, "highpass", hz)) == pytest.approx(-0.3, abs=0.05)
    two_first_orders = response(1, corner, "highpass", hz) ** 2
    assert db(two_first_orders) == pytest.approx(-2.0, abs=0.1)


@pytest.mark.parametrize("corner", [100.0, 120.0, 200.0])
def test_the_bass_tone_passes_a_low_band(corner: float) -> None:
    for hz in pair_tone_hz(sound(band="low", lowpass_hz=corner)):
        assert db(response(2, corner, "lowpass", hz)) > -0.3


def test_the_door_tone_in_a_woofers_band_is_not_lessened() -> None:
    hz, _ = pair_tone_hz(sound(band="low", lowpass_hz=2500.0))
    assert hz == 1000
    assert db(response(2, 2500, "lowpass", hz)) > -0.3
