"""A crossover's networks in a simulator: 3 dB down at the corner, and as steep as it says."""

from __future__ import annotations

from collections.abc import Callable
from math import log10

import pytest

from builder.model.job import Crossover
from builder.planning.circuit.crossover_links import CrossoverBand
from builder.planning.circuit.spice_crossovers import network

Measure = Callable[[str], dict[str, float]]
CORNER_HZ = 3000.0
FAR = 10.0


def run(simulate: Measure, slope: int, band: CrossoverBand) -> dict[str, float]:
    made = Crossover(
        corner_hz=CORNER_HZ, slope_db_per_octave=slope, woofer_ohm=2, tweeter_ohm=4, rated_w_rms=100
    )
    ohm = 2 if band == "woofer" else 4
    below, above = CORNER_HZ / FAR, CORNER_HZ * FAR
    asked = {"corner": CORNER_HZ, "below": below, "above": above}
    lines = [
        network("way1", made, band), "V1 in 0 dc 0 ac 1", "X1 in out 0 way1", f"R1 out 0 {ohm}",
        ".control", *(line for each in asked.items() for line in _ask(*each)), ".endc",
    ]  # fmt: skip
    return simulate("\n".join(lines))


def _ask(name: str, hz: float) -> tuple[str, ...]:
    return f"ac lin 1 {hz:g} {hz:g}", f"let {name} = db(mag(v(out)))", f"print {name}"


@pytest.mark.parametrize("slope", [6, 12, 18, 24])
@pytest.mark.parametrize("band", ["woofer", "tweeter"])
def test_it_is_the_filter_that_it_says(simulate: Measure, slope: int, band: CrossoverBand) -> None:
    """A Butterworth of order n: |H|² = 1/(1 + (f/fc)^2n); any textbook on filters (memory)."""
    found = run(simulate, slope, band)
    order = slope // 6
    lost = -10 * log10(1 + FAR ** (2 * order))
    passed = -10 * log10(1 + FAR ** (-2 * order))
    far, near = ("above", "below") if band == "woofer" else ("below", "above")
    assert found["corner"] == pytest.approx(-10 * log10(2), abs=0.01)
    assert found[far] == pytest.approx(lost, abs=0.02)
    assert found[near] == pytest.approx(passed, abs=0.002)
