"""A source too loud for an input, brought down by a resistor in each leg instead of refused."""

from __future__ import annotations

from dataclasses import replace

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.planning.levels.level_pad import pad_resistor_ohm
from builder.planning.levels.line_gain import pad_ratio
from builder.planning.levels.signal_levels import level_verdict
from builder.planning.plan import LevelCheck
from builder.units import Ohms, VoltsRms, Watts, voltage_ratio_db


def pad_ohm_for(check: LevelCheck, converter: Converter, defaults: HouseDefaults) -> Ohms:
    """Return the resistor for each leg, or 0 where the source fits as it is. [Ω]

    An input whose negative terminal is ground gets none: a resistor in its ground leg would
    lift it.
    """
    if check.source_v_rms <= check.converter_max_v_rms:
        return 0.0
    if converter.input.type == "ground_referenced":
        return 0.0
    return pad_resistor_ohm(
        check.source_v_rms,
        check.converter_max_v_rms,
        converter.input.impedance_ohm,
        defaults.margin_thin_db,
    )


def pad_down(check: LevelCheck, converter: Converter, defaults: HouseDefaults) -> LevelCheck:
    """Return the check behind its pad: the source stays, the margin is that at the input."""
    ohm = pad_ohm_for(check, converter, defaults)
    if ohm == 0:
        return check
    at_input = check.source_v_rms * pad_ratio(converter.input.impedance_ohm, ohm)
    margin = voltage_ratio_db(check.converter_max_v_rms, at_input)
    heat = pad_heat_w(check.source_v_rms, converter.input.impedance_ohm, ohm)
    because = (
        f"{check.because}; {ohm:g} Ω in each leg brings it to {at_input:.2f} V, {margin:.1f} dB "
        f"to spare, {heat:.2f} W in both"
    )
    verdict = level_verdict(margin, defaults)
    return replace(check, converter_margin_db=margin, verdict=verdict, because=because)


def pad_heat_w(source_v_rms: VoltsRms, input_ohm: Ohms, pad_ohm: Ohms) -> Watts:
    """Return what both resistors of a pad turn into heat, V²·2R/(Z + 2R)². [W]"""
    return source_v_rms**2 * 2 * pad_ohm / (input_ohm + 2 * pad_ohm) ** 2
