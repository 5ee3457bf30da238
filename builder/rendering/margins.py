"""How a level's room under a limit is said, with its sign."""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.plan import LevelCheck

_AIM_DB = HouseDefaults().margin_thin_db
"""The room a plan aims at where a book says nothing else. [dB]"""


def margin_words(level: LevelCheck) -> str:
    """Return the margin as "+7.0 dB", told from nothing and from what a plan aims at."""
    said = shown(level.converter_margin_db, 1, beside=(0, _AIM_DB))
    return f"{'' if said.startswith('-') else '+'}{said} dB".replace("-", "−")
