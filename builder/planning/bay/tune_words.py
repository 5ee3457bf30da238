"""One row of the tune sheet as a line."""

from __future__ import annotations

from collections.abc import Sequence

from builder.figures import shown
from builder.model.names import channel_name
from builder.planning.bay import bands
from builder.planning.tune_sheet import TuneRow


def tune_words(row: TuneRow) -> str:
    """Return a channel with its values: "subwoofer, sub amp channel 1: low-pass 80 Hz, …"."""
    corners = (("high-pass", row.high_pass_hz), ("low-pass", row.low_pass_hz))
    said = [f"{name} {corner_words(hz)}" for name, hz in corners]
    said.append(f"subsonic {subsonic_words(row)}")
    said.append(f"{row.slope_db_per_octave} dB an octave")
    said.append(f"polarity {row.polarity}{_TURNED if row.polarity == 'inverted' else ''}")
    if row.delay_ms:
        said.append(delay_words(row))
    said += held_back_words(row)
    at = "" if row.set_at == row.amplifier else f" (at {row.set_at})"
    return f"{row.speaker}, {row.amplifier} channel {row.channel}{at}: {', '.join(said)}"


_TURNED = " (by its switch; without one + and − of its lead change places)"


def subsonic_words(row: TuneRow) -> str:
    """Return the subsonic corner, or that it waits for the box: "ask first"."""
    open_box = any("box" in asked for asked in row.asked)
    return "ask first" if open_box else corner_words(row.subsonic_hz)


def again_limits_v(row: TuneRow) -> tuple[float, float]:
    """Return what a gain's tone reads once the filters are set, least and most. [V RMS]

    Never more than the gain was set to: filters take away.
    """
    most = row.again_most_v_rms * (1 + bands.LEVEL_BAND)
    return row.again_least_v_rms * (1 - bands.LEVEL_BAND), min(row.tone_v_rms, most)


def delay_words(row: TuneRow) -> str:
    """Return the delay with where it is set: "delay 1.5 ms at CVN-2A"."""
    at = f" at {row.delay_at}" if row.delay_at not in ("", row.set_at) else ""
    return f"delay {shown(row.delay_ms)} ms{at}"


def held_back_words(row: TuneRow) -> list[str]:
    """Return the pairs that wait at the converter: "front left tweeter held back 0.8 ms …"."""
    return [
        f"{channel_name(each.channel)} held back {shown(each.delay_ms)} ms at the converter, "
        "before it is added"
        for each in row.held_back
    ]


def correction_words(tune: Sequence[TuneRow]) -> str:
    """Return how the converter's bass correction stands: gains hold with it as it will be used."""
    using = [row.speaker for row in tune if row.correction == "on"]
    return f"bass correction on for {', '.join(using)}" if using else "bass correction off"


def corner_words(hz: float | None) -> str:
    """Return a corner: "80 Hz", or "off"."""
    return "off" if hz is None else f"{shown(hz)} Hz"
