"""What a conductor size means: diameter, area, resistance, hot, stranded, aluminium or metric."""

from __future__ import annotations

from functools import cache
from math import pi

from builder.figures import shown
from builder.planning.power.tables import (
    AWG_ANCHOR_MM,
    AWG_STEP,
    COPPER_OHM_MM2_PER_M,
    COPPER_PER_KELVIN,
    FLEXIBLE_MAX_OHM_PER_KM,
    REFERENCE_C,
    SMALL_CRAFT_AMPACITY_A,
)
from builder.units import Amperes, require_positive

_ZEROS = {"1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3}
_THINNEST_AWG = 40


def awg_number(size_awg: str) -> int:
    """Return the number that the gauge law counts with: 18 for "18", 0 for "1/0", -3 for "4/0".

    Raises:
        ValueError: not a whole number from 1 to 40, nor 1/0, 2/0, 3/0, 4/0.

    >>> awg_number("4/0")
    -3
    """
    if size_awg in _ZEROS:
        return _ZEROS[size_awg]
    if size_awg.isascii() and size_awg.isdigit() and 1 <= int(size_awg) <= _THINNEST_AWG:
        return int(size_awg)
    raise ValueError(f"{size_awg!r} is no AWG size")


def awg_diameter_mm(size_awg: str) -> float:
    """Return the diameter of a solid conductor, 0.005 in x 92^((36-n)/39). [mm]

    Raises:
        ValueError: the size is unknown.
    Source: ASTM B258; diameters of handbooks in tests/vectors/wire_gauge.json.

    >>> round(awg_diameter_mm("4"), 3)
    5.189
    """
    return float(AWG_ANCHOR_MM * AWG_STEP ** ((36 - awg_number(size_awg)) / 39))


@cache  # of a few sizes, asked for thousands of times by one plan
def awg_area_mm2(size_awg: str) -> float:
    """Return the metal area of an AWG size. [mm²]

    Raises:
        ValueError: the size is unknown.

    >>> round(awg_area_mm2("4"), 2)
    21.15
    """
    return pi / 4 * awg_diameter_mm(size_awg) ** 2


def copper_ohm_per_km(area_mm2: float) -> float:
    """Return the resistance at 20 °C of copper of a real metal area. [Ω/km]

    A nominal metric size is a name, not an area: for that take `metric_ohm_per_km`.

    Raises:
        ValueError: the area is not positive and finite.
    Source: 100 % IACS, IEC 60028.

    >>> round(copper_ohm_per_km(1.0), 2)
    17.24
    """
    return 1000 * COPPER_OHM_MM2_PER_M / require_positive("area_mm2", area_mm2)


def copper_area_mm2(ohm_per_km: float) -> float:
    """Return the area of copper that has this resistance at 20 °C. [mm²] Inverse of the above.

    Raises:
        ValueError: the resistance is not positive and finite.

    >>> round(copper_area_mm2(17.24), 2)
    1.0
    """
    return 1000 * COPPER_OHM_MM2_PER_M / require_positive("ohm_per_km", ohm_per_km)


def awg_ohm_per_km(size_awg: str) -> float:
    """Return the resistance at 20 °C of a solid copper conductor. [Ω/km]

    Raises:
        ValueError: the size is unknown.

    >>> round(awg_ohm_per_km("4"), 3)
    0.815
    """
    return copper_ohm_per_km(awg_area_mm2(size_awg))


def temperature_factor(celsius: float) -> float:
    """Return copper's resistance at a temperature over that at 20 °C: 1 + 0.00393·(t - 20).

    Raises:
        ValueError: outside -60 to 250 °C, where the straight line is not to be trusted.
    Source: IEC 60028.

    >>> round(temperature_factor(40.0), 4)
    1.0786
    """
    if not -60 <= celsius <= 250:
        raise ValueError(f"no conductor of a car is at {celsius} °C")
    return 1 + COPPER_PER_KELVIN * (celsius - REFERENCE_C)


def metric_ohm_per_km(size_mm2: float) -> float:
    """Return the most that a flexible copper conductor of a nominal size may have. [Ω/km] 20 °C

    A size between two of the standard takes the worse resistance-times-size of its neighbours.

    Raises:
        ValueError: the size is outside 0.14 to 240 mm².
    Source: IEC 60228 class 5; under 0.5 mm² DIN VDE 0295.

    >>> metric_ohm_per_km(16.0)
    1.21
    """
    limits = FLEXIBLE_MAX_OHM_PER_KM
    if size_mm2 in limits:
        return limits[size_mm2]
    below = [size for size in limits if size < size_mm2]
    above = [size for size in limits if size > size_mm2]
    if not (below and above):
        low, high = shown(min(limits)), shown(max(limits))
        raise ValueError(f"{size_mm2} mm² is outside {low} to {high} mm²")
    return max(limits[size] * size for size in (max(below), min(above))) / size_mm2


def small_craft_ampacity_a(size_awg: str, insulation_c: int) -> Amperes:
    """Return what a boat's wire may carry in 30 °C air, a published value to hold ours against.

    Raises:
        ValueError: the size is not in the table, or the insulation is not 60 or 105 °C.
    Source: 33 CFR 183.425 table 5.

    >>> small_craft_ampacity_a("4", 60)
    105.0
    """
    if size_awg not in SMALL_CRAFT_AMPACITY_A or insulation_c not in (60, 105):
        raise ValueError(f"no ampacity for {size_awg} AWG with {insulation_c} °C insulation")
    return float(SMALL_CRAFT_AMPACITY_A[size_awg][insulation_c == 105])
