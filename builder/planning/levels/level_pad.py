"""The pad that brings a loud source down to what an input takes: two equal resistors."""

from __future__ import annotations

from builder.planning.tables import E12
from builder.units import Decibels, Ohms, VoltsRms, db_to_ratio, require_positive


def pad_resistor_ohm(
    source_v_rms: VoltsRms, limit_v_rms: VoltsRms, input_ohm: Ohms, margin_db: Decibels
) -> Ohms:
    """Return the smallest E12 value, one in each leg, that leaves `margin_db` at the input. [Ω]

    The divider is Z/(Z + 2·R). 0 when no pad is needed.

    Raises:
        ValueError: a voltage or the impedance is not positive and finite.
    Source: voltage divider; preferred values of IEC 60063.
    """
    require_positive("source_v_rms", source_v_rms)
    require_positive("input_ohm", input_ohm)
    target = require_positive("limit_v_rms", limit_v_rms) / db_to_ratio(margin_db)
    least = input_ohm / 2 * (source_v_rms / target - 1)
    return 0.0 if least <= 0 else next_e12_ohm(least)


def next_e12_ohm(least_ohm: Ohms) -> Ohms:
    """Return the smallest E12 value that is not below `least_ohm`. [Ω]

    Raises:
        ValueError: the argument is not positive and finite.
    Source: IEC 60063, series E12.
    """
    require_positive("least_ohm", least_ohm)
    decade = 1.0
    while decade > least_ohm:
        decade /= 10
    while decade * 10 <= least_ohm:
        decade *= 10
    steps = [value * decade for value in (*E12, 10.0)]
    return next(value for value in steps if value >= least_ohm * (1 - 1e-12))
