"""An engine restart as a circuit: the supply at the amplifier, the turn-on behind its diode."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import awg
from builder.planning.power.voltage_drop import SupplyPath, path_drop_v, path_ohm
from builder.planning.turn_on.hold_up import latch_charge, size_hold_up

HOUSE = HouseDefaults()
CLOSE = 0.005
Measure = Callable[[str], dict[str, float]]


@pytest.mark.parametrize(
    ("rest_v", "dip_v", "amps", "size"),
    [(12.6, 9.8, 18.1, "6"), (12.4, 9.2, 5.3, "8"), (13.8, 10.5, 46.8, "1/0")],
)
def test_the_lowest_supply_at_the_amplifier(
    simulate: Measure, rest_v: float, dip_v: float, amps: float, size: str
) -> None:
    path = SupplyPath(4.2, 0.4, awg(size))
    found = simulate(
        f"V1 battery 0 dc {rest_v} pwl(0 {rest_v} 0.1 {rest_v} 0.11 {dip_v} 0.45 {dip_v} "
        f"0.6 {rest_v})\nRw battery amp {path_ohm(path, HOUSE):.12g}\nI1 amp 0 {amps}\n"
        ".tran 1m 1\n.meas tran low min v(amp)\n"
    )
    lowest = dip_v - path_drop_v(path, amps, HOUSE)
    assert lowest == pytest.approx(found["low"], rel=CLOSE)


@pytest.mark.parametrize(
    ("amps", "dip_s", "resting_v", "dip_v", "threshold_v"),
    [(0.018, 0.35, 12.1, 8.9, 9.5), (0.187, 0.2, 12.4, 6.0, 9.0), (0.006, 1.0, 11.9, 2.0, 8.5)],
)
def test_a_capacitor_behind_its_diode_carries_the_inputs_over(
    simulate: Measure, amps: float, dip_s: float, resting_v: float, dip_v: float, threshold_v: float
) -> None:
    """Each diode as a source in series with one that loses nothing: its cost is a house figure.

    Through the resistor the capacitor fills, past it a second diode lets it out.
    """
    held = size_hold_up(amps, dip_s, resting_v, threshold_v, HOUSE)
    whole = dip_s + HOUSE.hold_up_margin_s
    edges = f"0 {resting_v} 1 {resting_v} 1.0001 {dip_v} {1 + whole:.6g} {dip_v}"
    lowest = {}
    for farad in (held.needed_farad, held.capacitor_farad):
        found = simulate(
            f"V1 wire 0 pwl({edges})\nVd wire fed {HOUSE.hold_up_diode_v}\n"
            "D1 fed held ideal\nB1 held 0 i=v(held) > 1 ? " f"{amps} : 0\n"
            f"Rc held cap {held.charge_ohm}\nVd2 cap out {HOUSE.hold_up_diode_v}\n"
            f"D2 out held ideal\nC1 cap 0 {farad:.9g} ic={held.start_v:.6g}\n"
            ".model ideal d(n=0.001 is=1e-9)\n"
            f".tran {whole / 2000:.6g} {1 + whole:.6g}\n"
            f".meas tran low min v(held) from=1.001 to={1 + whole:.6g}\n"
        )  # fmt: skip
        lowest[farad] = found["low"]
    assert lowest[held.needed_farad] == pytest.approx(threshold_v, rel=CLOSE)
    assert lowest[held.capacitor_farad] >= threshold_v * (1 - CLOSE)


@pytest.mark.parametrize(
    ("idle_a", "hold_min", "locks"), [(1.1, 12, 6), (0.9, 10, 8), (0.9, 12, 14)]
)
def test_what_staying_awake_takes_in_a_day(
    simulate: Measure, idle_a: float, hold_min: float, locks: int
) -> None:
    every_s = 86400 / locks
    found = simulate(
        f"I1 0 out pulse(0 {idle_a} 60 1 1 {hold_min * 60 - 1} {every_s})\nR1 out 0 1\n"
        ".tran 20 86400 0 20\n.meas tran as integ v(out) from=0 to=86400\n"
    )
    latch = latch_charge(idle_a, hold_min, locks, HOUSE)
    assert latch.ah_per_day == pytest.approx(found["as"] / 3600, rel=CLOSE)
