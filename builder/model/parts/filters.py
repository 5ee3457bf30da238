"""What filters a channel or an output has: how far each goes, how steep, what else it can do."""

from __future__ import annotations

from builder.declaring import figure, listed, part, record, word
from builder.model.forms import TRI
from builder.model.words import Tri


@record
class FilterSpan:
    """How far the control of one filter goes."""

    from_hz: float = figure(
        "The lowest corner it can be set to, in hertz.", "Hz", 40, least=5, most=20000,
        label="from",
    )  # fmt: skip
    to_hz: float = figure(
        "The highest corner it can be set to, in hertz.", "Hz", 250, least=5, most=30000,
        label="to",
    )  # fmt: skip


@record
class Filters:
    """The filters that a channel or an output has; leave out the key when nobody has looked."""

    high_pass: FilterSpan | None = part(
        {"from_hz": 40, "to_hz": 250}, "none", means={"none": "It has none."}, default=None,
        label="high-pass", absent="none",
    )  # fmt: skip
    low_pass: FilterSpan | None = part(
        {"from_hz": 40, "to_hz": 250}, "none", means={"none": "It has none."}, default=None,
        label="low-pass", absent="none",
    )  # fmt: skip
    subsonic: FilterSpan | None = part(
        {"from_hz": 15, "to_hz": 55}, "none", means={"none": "It has none."}, default=None,
        label="subsonic", absent="none",
    )  # fmt: skip
    slopes_db_per_octave: tuple[int, ...] = listed(
        "How steep they can be, in decibels an octave.", [12], [12, 24], least=1, most=8,
        item=figure("", "dB/octave", 12, least=6, most=96), unique=True,
        label="slopes",
    )  # fmt: skip
    polarity_switch: Tri = word(
        "Whether it can turn its polarity round.", "no", form=TRI, default="unknown",
        label="turns its polarity round",
    )  # fmt: skip
    equaliser_bands: int | None = figure(
        "How many bells of an equaliser it has, with middle, gain and Q of their own; leave it out "
        "where it has none.", "", 5, least=1, most=60, default=None,
        label="equaliser bells", absent="none",
    )  # fmt: skip
    all_pass: Tri = word(
        "Whether it has an all-pass that can be set.", "no", form=TRI, default="unknown",
        label="all-pass",
    )  # fmt: skip
    delay_max_ms: float | None = figure(
        "The most it can delay, in milliseconds; leave it out where it cannot.", "ms", 8, above=0,
        most=200, default=None,
        label="delays up to",
    )  # fmt: skip
