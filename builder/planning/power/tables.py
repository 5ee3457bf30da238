"""Constants of conductors, fuses, supplies and leads, each with its standing.

What a shop may change is a house default and stands in the model instead.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.words import FuseShape

# -- defined -----------------------------------------------------------------------------------

AWG_ANCHOR_MM = 0.127
"""Diameter of 36 AWG: 0.005 in. [mm]"""

AWG_STEP = 92.0
"""Diameter ratio of 4/0 to 36 AWG, spread evenly over 39 steps (ASTM B258)."""

COPPER_OHM_MM2_PER_M = 1 / 58
"""Annealed copper of 100 % IACS at 20 °C. [Ω·mm²/m]
Source: IEC 60028, 58 MS/m (read). The pure element (0.01678) is another number."""

REFERENCE_C = 20.0
"""Temperature of the resistances below. [°C]"""

# -- published ---------------------------------------------------------------------------------

COPPER_PER_KELVIN = 0.00393
"""Temperature coefficient of copper's resistance at 20 °C. [1/K]
Source: IEC 60028 (read)."""

FLEXIBLE_MAX_OHM_PER_KM = {
    0.14: 138.0, 0.22: 99.0, 0.25: 79.0, 0.34: 56.0, 0.5: 39.0, 0.75: 26.0, 1.0: 19.5,
    1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91, 16.0: 1.21, 25.0: 0.780,
    35.0: 0.554, 50.0: 0.386, 70.0: 0.272, 95.0: 0.206, 120.0: 0.161, 150.0: 0.129,
    185.0: 0.106, 240.0: 0.0801,
}  # fmt: skip
"""Most resistance at 20 °C of a flexible plain copper conductor, by nominal mm². [Ω/km]
Source: IEC 60228 class 5 (read); under 0.5 mm² the upper values of DIN VDE 0295 (read)."""

SMALL_CRAFT_AMPACITY_A = {
    "18": (10, 20), "16": (15, 25), "14": (20, 35), "12": (25, 45), "10": (40, 60), "8": (55, 80),
    "6": (80, 120), "4": (105, 160), "3": (120, 180), "2": (140, 210), "1": (165, 245),
    "1/0": (195, 285), "2/0": (225, 330), "3/0": (260, 385), "4/0": (300, 445),
}  # fmt: skip
"""Current of a single core in 30 °C air with 60 °C and with 105 °C insulation. [A]
Source: 33 CFR 183.425 table 5, under 50 V (read). A cross-check: boats, not cars."""

INCH_M = 0.0254
SMALL_CRAFT_FUSE_DISTANCE_M = 7 * INCH_M
"""Most wire without a sheath between the source of power and its fuse. [m]
Source: 33 CFR 183.455(b) (read)."""


@dataclass(frozen=True, slots=True)
class FuseFamily:
    """Fuses of one shape and the ratings they are made in. [A]"""

    name: str
    ratings_a: tuple[float, ...]
    ratings_status: str
    source: str


FUSE_FAMILIES: dict[FuseShape, FuseFamily] = {
    "mini": FuseFamily(
        "mini blade fuse",
        (2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30),
        "memory",
        "ISO 8820-3 type F, from data sheets that state conformity",
    ),
    "blade": FuseFamily(
        "blade fuse",
        (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40),
        "memory; 35 and 40 second-hand",
        "ISO 8820-3 type C, from data sheets that state conformity",
    ),
    "maxi": FuseFamily(
        "maxi blade fuse",
        (20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 120),
        "memory; those with a colour of their own read",
        "ISO 8820-3 type E, from data sheets that state conformity",
    ),
    "bolt_down": FuseFamily(
        "bolt-down strip fuse",
        (23, 30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350),
        "memory; up to 200 with 5 mm studs, from 80 with 8 mm studs too",
        "ISO 8820-5 strip fuses",
    ),
}
"""Fuses by shape."""

# -- common practice, no source ----------------------------------------------------------------

STANDARD_FUSES_A = (
    1.0, 2.0, 3.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 125.0,
    150.0, 175.0, 200.0, 250.0,
)  # fmt: skip
"""Ratings that a plan asks for: those a shop can buy in some family. [A]"""

STOCK_LINE_LEADS_M = (0.5, 1.0, 2.0, 3.0, 5.0)
"""Lengths in which line leads are sold. [m]"""

BASS_TONE_HZ = (40.0, 50.0)
"""Test tone for setting a subwoofer's gain. [Hz]"""

DOOR_TONE_HZ = 1000.0
"""Test tone for setting a door's gain. [Hz]"""

TREBLE_TONE_HZ = 6000.0
"""Test tone for a pair of tweeters whose crossover nobody recorded. [Hz]"""

OCTAVE = 2.0
"""How far inside its band a pair is measured, as a ratio of frequencies."""

# -- chosen by this project --------------------------------------------------------------------

LINE_STEP_V = 0.1
"""Line targets are rounded down to this. [V]"""

LENGTH_STEP_M = 0.1
"""Cut lengths are rounded up to this. [m]"""

CHOICE_AWG = ("22", "20", "18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0")
CHOICE_MM2 = (0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0)
"""Sizes that a plan chooses from, thinnest first."""
