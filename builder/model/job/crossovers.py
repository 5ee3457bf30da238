"""A passive crossover: what parts the bands of one amplifier channel before two speakers."""

from __future__ import annotations

from builder.declaring import figure, record

DB_A_PART = 6
"""What each part in a way adds to its slope. [dB/octave]"""


@record
class Crossover:
    """The passive crossover beside the amplifier, between its channel and the car's two pairs."""

    corner_hz: float = figure(
        "Where it parts the bands, in hertz.", "Hz", None, least=200, most=20000,
        label="parts at",
    )  # fmt: skip
    slope_db_per_octave: int = figure(
        "How steep it is, in decibels an octave: 6, 12, 18 or 24.", "dB/octave", 12, least=6,
        most=24,
        label="slope",
    )  # fmt: skip
    woofer_ohm: float = figure(
        "The woofer that it is made for, in ohms.", "Ω", 4, least=0.5, most=32,
        label="made for a woofer of",
    )  # fmt: skip
    tweeter_ohm: float = figure(
        "The tweeter that it is made for, in ohms.", "Ω", 4, least=0.5, most=32,
        label="and a tweeter of",
    )  # fmt: skip
    rated_w_rms: float = figure(
        "What it takes for ever, in watts RMS.", "W", 80, above=0, most=20000,
        label="takes",
    )  # fmt: skip

    @property
    def order(self) -> int:
        """How many parts it has in each way."""
        return max(1, self.slope_db_per_octave // DB_A_PART)
