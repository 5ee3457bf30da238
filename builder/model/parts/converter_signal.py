"""What a converter takes and gives: its inputs, its gain, its outputs."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, record, when, word

InputReference = Literal["floating", "ground_referenced", "switchable"]
GainKind = Literal["adjustable", "fixed"]


@record
class ConverterInput:
    """What one input takes."""

    type: InputReference = word(
        "How the input is referenced.", "floating",
        means={"floating": "Neither wire is ground; safe on bridged outputs.",
        "ground_referenced": "The negative wire is ground; can destroy a bridged radio.",
        "switchable": "Either, by a switch or a link."},
        label="Input type", ask="Input: floating, ground_referenced or switchable",
        option="input-type",
    )  # fmt: skip
    max_v_rms: float = figure(
        "The most one input takes clean, in volts RMS.", "V", 20, above=0, most=100,
        label="One input takes, clean", ask="Most an input takes, clean, in V RMS",
        option="input-max",
    )  # fmt: skip
    after_sum_max_v_rms: float | None = figure(
        "The most it takes after summing inside, in volts RMS, or unknown.", "V", 20, above=0,
        most=100, unknown=True, default=None,
        label="After summing",
    )  # fmt: skip
    impedance_ohm: float = figure(
        "The resistance across one input pair, in ohms.", "Ω", 10000, above=0, most=10000000,
        label="Across one input", ask="Input impedance in ohms", option="input-ohm",
    )  # fmt: skip
    common_mode_max_v: float | None = figure(
        "How far both legs may sit above ground together, in volts, or unknown.", "V", 16, least=0,
        most=100, unknown=True, default=None,
        label="Both legs above ground, at most",
    )  # fmt: skip


@record
class Gain:
    """Line volts out over speaker volts in."""

    kind: GainKind = word(
        "Whether the gain can be set.", "adjustable",
        means={"adjustable": "It has a control; give min and max.",
        "fixed": "It has none; give value."},
        label="",
    )  # fmt: skip
    min: float | None = figure(
        "The least gain, as line volts over speaker volts.", "V/V", 0.05, least=0, most=100,
        default=None,
        label="from",
    )  # fmt: skip
    max: float | None = figure(
        "The most gain, as line volts over speaker volts.", "V/V", 2.0, above=0, most=100,
        default=None,
        label="to",
    )  # fmt: skip
    value: float | None = figure(
        "The fixed gain, as line volts over speaker volts.", "V/V", 0.2, above=0, most=100,
        default=None,
        label="at",
    )  # fmt: skip
    RULES = (
        when("An adjustable gain has min and max, and no value.", "kind", "adjustable")
        .needs("min", "max")
        .bars("value"),
        when("A fixed gain has one value, and neither min nor max.", "kind", "fixed")
        .needs("value")
        .bars("min", "max"),
    )

    @property
    def fixed(self) -> bool:
        """Whether the gain cannot be set."""
        return self.kind == "fixed"

    @property
    def minimum(self) -> float:
        """The least gain; that of a fixed one is its value."""
        return _stated(self.value if self.fixed else self.min)

    @property
    def maximum(self) -> float:
        """The most gain; that of a fixed one is its value."""
        return _stated(self.value if self.fixed else self.max)


def _stated(figure: float | None) -> float:
    """A figure that the schema asks for."""
    assert figure is not None
    return figure


@record
class Output:
    """What one line output gives."""

    max_v_rms: float = figure(
        "The most it gives clean, in volts RMS.", "V", 8.0, above=0, most=60,
        label="Line out, clean", ask="Most it gives, in V RMS", option="output-max",
    )  # fmt: skip
    at_supply_v: float | None = figure(
        "The supply at which it was stated, in volts, or unknown.", "V", 13.8, above=0, most=60,
        unknown=True, default=None,
        label="Line out was stated at a supply of",
    )  # fmt: skip
    impedance_ohm: float | None = figure(
        "The output's own resistance, in ohms, or unknown.", "Ω", 100, least=0, most=1000000,
        unknown=True, default=None,
        label="Output impedance",
    )  # fmt: skip


@record
class Band:
    """The frequencies that pass."""

    from_hz: float = figure(
        "The lowest frequency that passes, in hertz.", "Hz", 10, least=0, most=1000,
        label="from",
    )  # fmt: skip
    to_hz: float = figure(
        "The highest frequency that passes, in hertz.", "Hz", 60000, least=100, most=1000000,
        label="to",
    )  # fmt: skip
