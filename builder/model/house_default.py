"""What one house default is: a value with its unit, and the limits between which it makes sense."""

from __future__ import annotations

from typing import Any, Literal

from builder.declaring import figure

Unit = Literal[
    "V", "min", "s", "dB", "A", "mA", "Ah", "Ah/day", "A/Ah", "W", "Ω", "m", "mm", "mm²", "°C",
    "cavities", "ΔE00", "",
]  # fmt: skip
MOST: dict[Unit, float] = {
    "V": 60, "min": 10080, "s": 60, "dB": 60, "A": 1000, "mA": 1000, "Ah": 1000, "Ah/day": 1000,
    "A/Ah": 5, "W": 20000, "Ω": 100, "m": 100, "mm": 1000, "mm²": 300, "°C": 250, "cavities": 199,
    "ΔE00": 150, "": 1,
}  # fmt: skip
"""The most that a default of a unit can sensibly be, where it does not say so itself.

60 V is where low voltage ends (from memory), a week is longer than any car is watched, a plain
number is a share of a whole. The rest is chosen by this project, well beyond any value of the
trade.
"""
UNNAMED: tuple[Unit, ...] = ("", "cavities")
"""Units that a description does not name: there is none, or it is what is counted."""


def house_default(
    value: float,
    unit: Unit,
    what: str,
    *,
    least: float = 0,
    above: float | None = None,
    most: float | None = None,
) -> Any:
    """Return the declaration of a default: from 0, unless it says `least` or `above`, to `most`."""
    said = what[0].upper() + what[1:] + ("." if unit in UNNAMED else f", in {unit}.")
    limits = {"least": least} if above is None else {"above": above}
    limits["most"] = MOST[unit] if most is None else most
    return figure(said, unit, value, default=value, label=what, **limits)
