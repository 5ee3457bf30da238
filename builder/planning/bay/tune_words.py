"""One row of the tune sheet as a line."""

from __future__ import annotations

from builder.figures import shown
from builder.planning.tune_sheet import TuneRow


def tune_words(row: TuneRow) -> str:
    """Return a channel with its values: "subwoofer, sub amp channel 1: low-pass 80 Hz, …"."""
    corners = (
        ("high-pass", row.high_pass_hz), ("low-pass", row.low_pass_hz),
        ("subsonic", row.subsonic_hz),
    )  # fmt: skip
    said = [f"{name} {corner_words(hz)}" for name, hz in corners]
    said.append(f"{row.slope_db_per_octave} dB an octave")
    said.append(f"polarity {row.polarity}")
    if row.delay_ms:
        said.append(f"delay {shown(row.delay_ms)} ms")
    at = "" if row.set_at == row.amplifier else f" (at {row.set_at})"
    return f"{row.speaker}, {row.amplifier} channel {row.channel}{at}: {', '.join(said)}"


def corner_words(hz: float | None) -> str:
    """Return a corner: "80 Hz", or "off"."""
    return "off" if hz is None else f"{shown(hz)} Hz"
