"""Names for the units that figures carry, and the few laws that turn one into another.

Plain floats with names: the suffix of a variable says its unit, these aliases say it in a
signature. Nothing here rounds.
"""

from __future__ import annotations

from math import inf, isfinite, log10, sqrt
from typing import TypeAlias

Volts: TypeAlias = float
VoltsRms: TypeAlias = float
Amperes: TypeAlias = float
Ohms: TypeAlias = float
Watts: TypeAlias = float
Decibels: TypeAlias = float
Hertz: TypeAlias = float
Metres: TypeAlias = float
Milliseconds: TypeAlias = float


def require_positive(name: str, value: float) -> float:
    """Return `value`, or raise ValueError naming it when it is not positive and finite."""
    if not (isfinite(value) and value > 0):
        raise ValueError(f"{name} must be positive and finite, got {value}")
    return value


def require_not_negative(name: str, value: float) -> float:
    """Return `value`, or raise ValueError naming it when it is negative or not finite."""
    if not (isfinite(value) and value >= 0):
        raise ValueError(f"{name} must be finite and not negative, got {value}")
    return value


def voltage_ratio_db(volts: Volts, reference: Volts) -> Decibels:
    """Return 20·log10(volts/reference). [dB]

    Raises:
        ValueError: an argument is not positive and finite.
    Source: definition of the level of a field quantity, ISO 80000-3.

    >>> round(voltage_ratio_db(2.0, 1.0), 2)
    6.02
    """
    require_positive("volts", volts)
    require_positive("reference", reference)
    return 20 * log10(volts / reference)


def gain_factor_db(factor: float) -> Decibels:
    """Return 20·log10 of a plain factor; minus infinity for 0 (nothing comes through). [dB]

    >>> gain_factor_db(10.0)
    20.0
    """
    return 20 * log10(factor) if factor > 0 else -inf


def db_to_ratio(decibels: Decibels) -> float:
    """Return the voltage ratio of a level difference, 10^(dB/20). Inverse of the above.

    >>> db_to_ratio(20.0)
    10.0
    """
    return float(10 ** (decibels / 20))


def volts_for_power(power_w: Watts, resistance_ohm: Ohms) -> VoltsRms:
    """Return √(P·R), the voltage across a load that takes `power_w`. [V RMS]

    Raises:
        ValueError: an argument is not positive and finite.
    Source: Ohm's law; the meaning of amplifier power in CTA-2006, P = V²/R at the terminals.

    >>> volts_for_power(100.0, 4.0)
    20.0
    """
    return sqrt(require_positive("power_w", power_w) * require_positive("ohm", resistance_ohm))


def parallel_ohm(first_ohm: Ohms, second_ohm: Ohms) -> Ohms:
    """Return the resistance of two in parallel. [Ω]

    Raises:
        ValueError: an argument is not positive and finite.

    >>> parallel_ohm(4.0, 4.0)
    2.0
    """
    require_positive("first_ohm", first_ohm)
    require_positive("second_ohm", second_ohm)
    return first_ohm * second_ohm / (first_ohm + second_ohm)
