"""Figures and curves of a recording, each in the unit of its key."""

from __future__ import annotations

from builder.declaring import figure, record

__all__ = ["CurvePoint", "DelayPoint", "RecordedBass", "RecordedFigure", "RecordedStep"]


@record(shared="recorded_figure")
class RecordedFigure:
    """A figure of a recording, in the unit of its key."""

    value: float = figure("The figure.", "", None, least=-1000000, most=1000000)
    plus_minus: float = figure(
        "What it may be wrong by, in 19 cases of 20.", "", None, least=0, most=1000000,
    )  # fmt: skip


@record(shared="curve_point")
class CurvePoint:
    """One sixth of an octave of a curve; those that nobody can tell are left out."""

    hz: float = figure("Its middle, in hertz.", "Hz", None, above=0, most=100000)
    db: float = figure("The level there, in decibels.", "dB", None, least=-200, most=200)


@record
class DelayPoint:
    """One sixth of an octave of a group delay."""

    hz: float = figure("Its middle, in hertz.", "Hz", None, above=0, most=100000)
    ms: float = figure(
        "By how much later the second pair comes there, in milliseconds.", "ms", None, least=-1000,
        most=1000,
    )  # fmt: skip


@record
class RecordedStep:
    """One volume step at one tone; what the recording cannot tell is left out."""

    volume_step: int = figure("The volume shown by the radio.", "step", None, least=0, most=200)
    hz: float = figure("The tone, in hertz.", "Hz", None, above=0, most=100000)
    loud_v_rms: float | None = figure(
        "The pair at full scale, in volts RMS.", "V", None, least=0, most=60, default=None,
    )  # fmt: skip
    loud_plus_minus_v: float | None = figure(
        "What that may be wrong by, in volts.", "V", None, least=0, most=60, default=None,
    )  # fmt: skip
    missing_db: float | None = figure(
        "What is missing of the 20 decibels from the quiet to the loud burst.", "dB", None,
        least=-60, most=60, default=None,
    )  # fmt: skip
    distortion_percent: float | None = figure(
        "Orders 2 to 10 of the loud burst, in percent.", "%", None, least=0, most=1000,
        default=None,
    )  # fmt: skip


@record
class RecordedBass:
    """40 Hz against 1 kHz at one volume step, both quiet."""

    volume_step: int = figure("The volume shown by the radio.", "step", None, least=0, most=200)
    db: float = figure("How much louder 40 Hz is, in decibels.", "dB", None, least=-100, most=100)
    plus_minus: float = figure(
        "What that may be wrong by, in decibels.", "dB", None, least=0, most=100
    )
