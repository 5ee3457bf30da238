"""How a level is said: its room under a limit with its sign, and what was read of it."""

from __future__ import annotations

from builder.figures import shown
from builder.planning.plan import LevelCheck


def margin_words(level: LevelCheck) -> str:
    """Return the margin as "+7.0 dB", told from nothing and from what a plan aims at."""
    said = shown(level.converter_margin_db, 1, beside=(0, level.wanted_margin_db))
    return f"{'' if said.startswith('-') else '+'}{said} dB".replace("-", "−")


def read_words(read_v_rms: float | None) -> str:
    """Return what was read before the speaker is gone, to stand behind the level; or nothing."""
    return "" if read_v_rms is None else f" (read {shown(read_v_rms, 2)} V, speaker connected)"
