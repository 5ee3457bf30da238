"""What the shop decides of a speaker's filters itself, in place of the starting values."""

from __future__ import annotations

from typing import Literal, TypeAlias

from builder.declaring import figure, record, word

Corner: TypeAlias = Literal["off"] | float
Turned = Literal["normal", "inverted"]
Correcting = Literal["on", "off"]

_OFF = {"off": "Not used."}


@record
class SetFilters:
    """Filters of one speaker as the shop has decided them; what is left out starts as printed."""

    high_pass_hz: Corner | None = figure(
        "The corner of its high-pass in hertz, or off.", "Hz", 80, "off", above=0, most=20000,
        means=_OFF, default=None,
        label="high-pass",
    )  # fmt: skip
    low_pass_hz: Corner | None = figure(
        "The corner of its low-pass in hertz, or off.", "Hz", 80, "off", above=0, most=20000,
        means=_OFF, default=None,
        label="low-pass",
    )  # fmt: skip
    subsonic_hz: Corner | None = figure(
        "The corner of its subsonic filter in hertz, or off.", "Hz", 30, "off", above=0, most=120,
        means=_OFF, default=None,
        label="subsonic",
    )  # fmt: skip
    slope_db_per_octave: int | None = figure(
        "How steep they are, in decibels an octave.", "dB/octave", 24, least=6, most=96,
        default=None,
        label="slope",
    )  # fmt: skip
    polarity: Turned | None = word(
        "Whether its polarity is turned round.", "normal",
        means={"normal": "As wired.", "inverted": "Turned round."}, default=None,
        label="polarity",
    )  # fmt: skip
    delay_ms: float | None = figure(
        "How long it is held back, in milliseconds.", "ms", 1.2, least=0, most=200, default=None,
        label="delay",
    )  # fmt: skip
    correction: Correcting | None = word(
        "Whether the converter's bass correction is used for it.", "on",
        means={"on": "It is used.", "off": "It is not used."}, default=None,
        label="bass correction",
    )  # fmt: skip
