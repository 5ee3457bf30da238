"""The pads of a plan as parts: which pairs get one, of how many ohms, and what it must stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.model.parts import Converter
from builder.model.words import Channel
from builder.planning.levels.level_pad import ohm_words, pad_rating_w
from builder.planning.levels.line_gain import pad_ratio
from builder.planning.plan import LevelCheck
from builder.units import Ohms, VoltsRms, Watts


@dataclass(frozen=True, slots=True)
class FittedPad:
    """One resistor in each leg of one pair, before the converter's input."""

    channel: Channel
    ohm_per_leg: Ohms
    rating_w: Watts  # of each resistor, as sold
    behind_v_rms: VoltsRms  # at the input, loudest clean
    input_max_v_rms: VoltsRms

    @property
    def resistor(self) -> str:
        """One of its two resistors in words, the same on every sheet: "560 Ω 0.25 W"."""
        return f"{ohm_words(self.ohm_per_leg)} {self.rating_w:g} W"


def fitted_pads(checks: Sequence[LevelCheck], converter: Converter) -> tuple[FittedPad, ...]:
    """Return the pad of each pair that gets one, in the order of the checks."""
    input_ohm = converter.input.impedance_ohm
    return tuple(
        FittedPad(
            check.channel,
            check.pad_ohm_per_leg,
            pad_rating_w(check.source_v_rms, input_ohm, check.pad_ohm_per_leg),
            check.source_v_rms * pad_ratio(input_ohm, check.pad_ohm_per_leg),
            check.converter_max_v_rms,
        )
        for check in checks
        if check.pad_ohm_per_leg
    )
