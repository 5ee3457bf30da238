"""The pad that brings a loud source down to what an input takes: two equal resistors."""

from __future__ import annotations

from builder.planning.levels.line_gain import pad_ratio
from builder.planning.preferred import next_preferred, next_size
from builder.planning.tables import E12, PAD_RATINGS_W
from builder.units import Decibels, Ohms, VoltsRms, Watts, require_positive, voltage_ratio_db


def pad_resistor_ohm(
    source_v_rms: VoltsRms, limit_v_rms: VoltsRms, input_ohm: Ohms, margin_db: Decibels
) -> Ohms:
    """Return the smallest E12 value, one in each leg, that leaves `margin_db` at the input. [Ω]

    The divider is Z/(Z + 2·R). 0 when no pad is needed. Nothing is rounded: a value that leaves
    2.9988 dB where 3 dB are wanted is not enough, and the next one is taken.

    Raises:
        ValueError: a voltage or the impedance is not positive and finite.
    Source: voltage divider; preferred values of IEC 60063.

    >>> pad_resistor_ohm(17.3, 20.0, 10_000.0, 3.0)
    1200.0
    """
    require_positive("input_ohm", input_ohm)
    straight_in_db = voltage_ratio_db(limit_v_rms, source_v_rms)
    if straight_in_db >= margin_db:
        return 0.0
    # Computed backwards the last bit may fall short of the margin: begin a hair below, and try.
    least = input_ohm / 2 * (10 ** ((margin_db - straight_in_db) / 20) - 1)
    ohm = next_preferred(least * (1 - 1e-9), E12)
    while padded_margin_db(source_v_rms, limit_v_rms, input_ohm, ohm) < margin_db:
        ohm = next_preferred(ohm * (1 + 1e-6), E12)
    return ohm


def padded_margin_db(
    source_v_rms: VoltsRms, limit_v_rms: VoltsRms, input_ohm: Ohms, pad_ohm: Ohms
) -> Decibels:
    """Return the margin at an input behind a resistor of `pad_ohm` in each leg. [dB]

    Raises:
        ValueError: a voltage or the impedance is not positive and finite.

    >>> round(padded_margin_db(17.3, 20.0, 10_000.0, 1200.0), 2)
    3.13
    """
    return voltage_ratio_db(limit_v_rms, source_v_rms * pad_ratio(input_ohm, pad_ohm))


def pad_heat_w(source_v_rms: VoltsRms, input_ohm: Ohms, pad_ohm: Ohms) -> Watts:
    """Return what both resistors of a pad turn into heat, V²·2R/(Z + 2R)². [W]

    >>> round(pad_heat_w(17.3, 10_000.0, 1200.0), 4)
    0.0047
    """
    return source_v_rms**2 * 2 * pad_ohm / (input_ohm + 2 * pad_ohm) ** 2


def pad_rating_w(source_v_rms: VoltsRms, input_ohm: Ohms, pad_ohm: Ohms) -> Watts:
    """Return the size of resistor that stands a pad's heat twice over, as sold. [W]

    Each of the two takes half the heat, and a hard-clipped source holds twice the power.

    >>> pad_rating_w(17.3, 10_000.0, 1200.0)
    0.25
    """
    needed = pad_heat_w(source_v_rms, input_ohm, pad_ohm)
    return next_size(needed, PAD_RATINGS_W) or PAD_RATINGS_W[-1]


def ohm_words(value: Ohms) -> str:
    """Return resistor ohms as people say them: "560 Ω", "3.9 kΩ".

    >>> ohm_words(3900.0)
    '3.9 kΩ'
    """
    return f"{value / 1000:g} kΩ" if value >= 1000 else f"{value:g} Ω"
