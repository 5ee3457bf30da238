"""A hold-up capacitor discharging through the turn-on inputs it feeds."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.model.house_defaults import HouseDefaults
from builder.planning.turn_on.hold_up import hold_up_farad, size_hold_up

HOUSE = HouseDefaults()
CLOSE = 0.005
Measure = Callable[[str], dict[str, float]]


def discharge(farad: float, start_v: float, amps: float, threshold_v: float, for_s: float) -> str:
    return (
        f"C1 held 0 {farad:.9g} ic={start_v:.9g}\nI1 held 0 {amps:.9g}\nRleak held 0 1e9\n"
        f".tran {for_s / 2000:.9g} {for_s:.9g} uic\n"
        f".meas tran falls when v(held)={threshold_v:.9g} fall=1\n"
    )


@pytest.mark.parametrize(
    ("amps", "dip_s", "resting_v", "threshold_v"),
    [(0.018, 0.35, 12.1, 9.5), (0.187, 0.2, 12.4, 9.0), (0.006, 1.0, 11.9, 8.5)],
)
def test_hold_up(
    simulate: Measure, amps: float, dip_s: float, resting_v: float, threshold_v: float
) -> None:
    held = size_hold_up(amps, dip_s, resting_v, threshold_v, HOUSE)
    exact = simulate(discharge(held.needed_farad, held.start_v, amps, held.end_v, 3 * held.held_s))
    assert exact["falls"] == pytest.approx(held.held_s, rel=CLOSE)
    chosen = simulate(
        discharge(held.capacitor_farad, held.start_v, amps, held.end_v, 9 * held.held_s)
    )
    assert chosen["falls"] >= held.held_s


def test_inrush(simulate: Measure) -> None:
    held = size_hold_up(0.018, 0.35, 12.1, 9.5, HOUSE)
    found = simulate(
        f"V1 fed 0 dc 0 pulse(0 {14.4 - HOUSE.hold_up_diode_v:.9g} 0 1u 1u 10 20)\n"
        f"R1 fed held {held.charge_ohm}\nC1 held 0 {held.capacitor_farad:.9g} ic=0\n"
        ".tran 50u 20m uic\n.meas tran peak min i(v1)\n"
    )
    assert held.inrush_a == pytest.approx(-found["peak"], rel=CLOSE)


def test_a_steady_current_is_what_the_formula_means() -> None:
    assert hold_up_farad(0.018, 0.5, 11.7, 9.5) == pytest.approx(0.018 * 0.5 / 2.2)
