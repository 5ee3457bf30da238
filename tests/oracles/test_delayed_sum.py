"""A crossover of two bands and a delay between them, as filters and a delay line."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sqrt

import pytest

from builder.planning.feeds.delay_sum import delay_sum

Measure = Callable[[str], dict[str, float]]


def second_order(hz: float) -> tuple[float, float, float]:
    """Coil, capacitor and resistor of a Butterworth section."""
    resistor, omega = 1.0, 2 * pi * hz
    return resistor * sqrt(2) / omega, 1 / (resistor * sqrt(2) * omega), resistor


def crossover(hz: float, delay_ms: float) -> str:
    """Two fourth-order bands, in phase at the crossover; the high one late by the delay."""
    coil, capacitor, load = second_order(hz)
    sections = []
    for number, before in ((1, "in"), (2, "l1b")):
        sections.append(
            f"L{number} {before} l{number} {coil:.12g}\nCl{number} l{number} 0 {capacitor:.12g}\n"
            f"Rl{number} l{number} 0 {load}\nEl{number} l{number}b 0 l{number} 0 1"
        )
    for number, before in ((1, "in"), (2, "h1b")):
        sections.append(
            f"Ch{number} {before} h{number} {capacitor:.12g}\nLh{number} h{number} 0 {coil:.12g}\n"
            f"Rh{number} h{number} 0 {load}\nEh{number} h{number}b 0 h{number} 0 1"
        )
    line = f"T1 h2b 0 late 0 Z0=50 TD={max(delay_ms, 1e-6) / 1000:.12g}\nRt late 0 50"
    add = "E1 mid 0 l2b 0 1\nE2 sum mid late 0 1\nRsum sum 0 1k"
    run = f".control\nac lin 1 {hz} {hz}\nlet level = vdb(sum)\nprint level\n.endc"
    return "\n".join(("V1 in 0 ac 1", *sections, line, add, run))


@pytest.mark.parametrize("delay_ms", [0.0, 0.03, 0.04, 0.0862, 0.12])
def test_a_delay_between_bands(simulate: Measure, delay_ms: float) -> None:
    # Each band stands at -6 dB at the crossover; in phase they add up to 0 dB.
    found = simulate(crossover(2900, delay_ms))
    assert delay_sum(2900, delay_ms).loss_db == pytest.approx(found["level"], abs=0.02)


@pytest.mark.parametrize("delay_ms", [0.5, 2.5, 3.125, 6.0])
def test_a_delay_between_sides(simulate: Measure, delay_ms: float) -> None:
    netlist = (
        f"V1 in 0 ac 1\nT1 in 0 late 0 Z0=50 TD={delay_ms / 1000:.12g}\nRt late 0 50\n"
        "E1 mid 0 in 0 0.5\nE2 sum mid late 0 0.5\nRsum sum 0 1k\n"
        ".control\nac lin 1 80 80\nlet level = vdb(sum)\nprint level\n.endc"
    )
    assert delay_sum(80, delay_ms).loss_db == pytest.approx(simulate(netlist)["level"], abs=0.02)
