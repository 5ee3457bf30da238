"""Hold-up capacitors and latch-off charge."""

from __future__ import annotations

import pytest
from vector_reading import groups

from builder.model.house_defaults import HouseDefaults
from builder.planning.preferred import next_preferred
from builder.planning.tables import E6, E12
from builder.planning.turn_on.hold_up import dip_flags, latch_charge, size_hold_up

HELD = groups("small_capacitors")
HOUSE = HouseDefaults()


@pytest.mark.parametrize(("least", "chosen"), HELD["e6"]["cases"])
def test_preferred_values(least: float, chosen: float) -> None:
    assert next_preferred(least, E6) == pytest.approx(chosen)


@pytest.mark.parametrize("least", HELD["e6"]["refused"])
def test_no_preferred_value(least: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        next_preferred(least, E6)


@pytest.mark.parametrize(("series", "steps"), [(E6, 6), (E12, 12)])
def test_preferred_values_divide_a_decade_evenly(series: tuple[float, ...], steps: int) -> None:
    """Value n is 10^(n/steps) in two figures, within half a step. Source: IEC 60063 (memory)."""
    assert len(series) == steps
    for place, value in enumerate(series):
        assert round(value, 1) == value
        assert value == pytest.approx(10 ** (place / steps), rel=0.05)


@pytest.mark.parametrize(
    ("amps", "dip", "resting", "threshold", "needed", "chosen"), HELD["hold_up"]["cases"]
)
def test_hold_up(
    amps: float, dip: float, resting: float, threshold: float, needed: float, chosen: float
) -> None:
    held = size_hold_up(amps, dip, resting, threshold, HOUSE)
    assert held.held_s == pytest.approx(0.5)
    assert held.needed_farad == pytest.approx(needed, abs=HELD["hold_up"]["tolerance"])
    assert held.capacitor_farad == pytest.approx(chosen)
    assert held.inrush_a == pytest.approx(14.0 / 47)
    worst = held.capacitor_farad * 0.8
    assert worst >= held.needed_farad
    # Q = C·V: a part as short as it may be, charged to the least, lasts exactly as long.
    assert worst * (held.least_v - held.end_v) == pytest.approx(amps * held.held_s)
    assert amps * held.after_s == pytest.approx(held.capacitor_farad * (held.start_v - held.end_v))


@pytest.mark.parametrize(("gives", "ohm"), [(None, 47), (0.012, 47), (0.5, 47), (0.2, 82)])
def test_a_capacitor_never_asks_more_than_the_source_gives(gives: float | None, ohm: float) -> None:
    """Ohm's law at 14.4 V less the diode; the next smaller of E12 would ask too much."""
    held = size_hold_up(0.012, 0.35, 12.3, 9.5, HOUSE, gives)
    assert held.charge_ohm == ohm
    if gives is not None and gives > 0.012:
        assert held.inrush_a + 0.012 <= gives


@pytest.mark.parametrize(("amps", "dip", "resting", "threshold"), HELD["hold_up"]["refused"])
def test_a_capacitor_that_cannot_hold(
    amps: float, dip: float, resting: float, threshold: float
) -> None:
    with pytest.raises(ValueError, match="positive"):
        size_hold_up(amps, dip, resting, threshold, HOUSE)


@pytest.mark.parametrize(
    ("amps", "minutes", "locks", "a_lock", "a_day", "heavy"), HELD["latch"]["cases"]
)
def test_latch_charge(
    amps: float, minutes: float, locks: float, a_lock: float, a_day: float, heavy: bool
) -> None:
    latch = latch_charge(amps, minutes, locks, HOUSE)
    tolerance = HELD["latch"]["tolerance"]
    assert latch.ah_per_lock == pytest.approx(a_lock, abs=tolerance)
    assert latch.ah_per_day == pytest.approx(a_day, abs=tolerance)
    assert latch.heavy is heavy


@pytest.mark.parametrize(("amps", "minutes", "locks"), HELD["latch"]["refused"])
def test_latch_needs_figures(amps: float, minutes: float, locks: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        latch_charge(amps, minutes, locks, HOUSE)


def test_the_main_supply_has_its_own_minimum() -> None:
    assert not dip_flags("AMN-600", 9.2, 8.5)
    (flag,) = dip_flags("AMN-1200", 8.9, 9.0)
    assert (flag.kind, flag.value, flag.limit) == ("supply_dips", 8.9, 9.0)
    (flag,) = dip_flags("AMN-600", 0.0, 8.5)
    assert flag.value == 0
