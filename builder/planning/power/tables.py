"""Constants of conductors, fuses, supplies and leads, each with its standing.

What a shop may change is a house default and stands in the model instead.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.model.words import FuseShape

# -- defined -----------------------------------------------------------------------------------

AWG_ANCHOR_MM = 0.127
"""Diameter of 36 AWG: 0.005 in. [mm]"""

AWG_STEP = 92.0
"""Diameter ratio of 4/0 to 36 AWG, spread evenly over 39 steps (ASTM B258)."""

CIRCULAR_MIL_MM2 = 5.067074790974977e-4
"""Area of a circle one thousandth of an inch across. [mm²]"""

COPPER_OHM_MM2_PER_M = 1 / 58
"""Annealed copper of 100 % IACS at 20 °C. [Ω·mm²/m]
Source: IEC 60028, 58 MS/m (read). The pure element (0.01678) is another number."""

REFERENCE_C = 20.0
"""Temperature of the resistances below. [°C]"""

# -- published ---------------------------------------------------------------------------------

COPPER_PER_KELVIN = 0.00393
"""Temperature coefficient of copper's resistance at 20 °C. [1/K]
Source: IEC 60028 (read)."""

STRANDED_FACTOR = 1.02
"""Resistance of a stranded conductor over a solid one of the same metal area.
Source: NEC chapter 9 table 8, uncoated, stranded against solid (read): 1.018 to 1.025."""

FLEXIBLE_MAX_OHM_PER_KM = {
    0.14: 138.0, 0.22: 99.0, 0.25: 79.0, 0.34: 56.0, 0.5: 39.0, 0.75: 26.0, 1.0: 19.5,
    1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91, 16.0: 1.21, 25.0: 0.780,
    35.0: 0.554, 50.0: 0.386, 70.0: 0.272, 95.0: 0.206, 120.0: 0.161, 150.0: 0.129,
    185.0: 0.106, 240.0: 0.0801,
}  # fmt: skip
"""Most resistance at 20 °C of a flexible plain copper conductor, by nominal mm². [Ω/km]
Source: IEC 60228 class 5 (read); under 0.5 mm² the upper values of DIN VDE 0295 (read)."""

ROAD_VEHICLE_MAX_OHM_PER_KM = {
    0.13: 136.0, 0.22: 84.8, 0.35: 54.4, 0.5: 37.1, 0.75: 24.7, 1.0: 18.5, 1.5: 12.7,
    2.0: 9.42, 2.5: 7.60, 4.0: 4.71, 6.0: 3.14, 10.0: 1.82, 16.0: 1.16, 25.0: 0.743,
    35.0: 0.527, 50.0: 0.368, 70.0: 0.259, 95.0: 0.196, 120.0: 0.153,
}  # fmt: skip
"""Most resistance at 20 °C of a bare copper road-vehicle cable, by nominal mm². [Ω/km]
Source: ISO 6722-1:2011, ISO 19642-3:2019 (memory; beside the values used, never in them)."""

SMALL_CRAFT_AMPACITY_A = {
    "18": (10, 20), "16": (15, 25), "14": (20, 35), "12": (25, 45), "10": (40, 60), "8": (55, 80),
    "6": (80, 120), "4": (105, 160), "3": (120, 180), "2": (140, 210), "1": (165, 245),
    "1/0": (195, 285), "2/0": (225, 330), "3/0": (260, 385), "4/0": (300, 445),
}  # fmt: skip
"""Current of a single conductor in 30 °C air with 60 °C and with 105 °C insulation. [A]
Source: 33 CFR 183.425 table 5, under 50 V (read). A cross-check: boats, not cars."""

SMALL_CRAFT_FUSE_SHARE = 1.5
"""Largest fuse over the ampacity above, under 50 V. Source: 33 CFR 183.455(c)(1) (read)."""

Sheath = Literal["bare", "sheathed", "sheathed_at_battery"]
INCH_M = 0.0254
SMALL_CRAFT_FUSE_DISTANCE_M: dict[Sheath, float] = {
    "bare": 7 * INCH_M,
    "sheathed": 40 * INCH_M,
    "sheathed_at_battery": 72 * INCH_M,
}
"""Most wire between the source of power and its fuse. [m]
Source: 33 CFR 183.455(b): 7 in, 40 in in a sheath (read); ABYC E-11: 72 in in a sheath straight
from a battery terminal (second-hand)."""

E6 = (1.0, 1.5, 2.2, 3.3, 4.7, 6.8)
"""Preferred values of capacitors within a decade. Source: IEC 60063, series E6 (memory)."""


@dataclass(frozen=True, slots=True)
class FuseFamily:
    """Fuses of one shape. `opens_s` gives (least, most) seconds by percent of the rating."""

    name: str
    ratings_a: tuple[float, ...]
    ratings_status: str
    holds_percent: int
    opens_s: dict[int, tuple[float, float]]
    opens_status: str
    colours: dict[float, str]
    source: str


_BLADE_COLOURS = {
    1.0: "black", 2.0: "grey", 3.0: "violet", 4.0: "pink", 5.0: "tan", 7.5: "brown", 10.0: "red",
    15.0: "blue", 20.0: "yellow", 25.0: "clear", 30.0: "green", 35.0: "blue-green",
    40.0: "orange",
}  # fmt: skip
_MAXI_COLOURS = {
    20.0: "yellow", 30.0: "green", 40.0: "orange", 50.0: "red", 60.0: "blue", 70.0: "tan",
    80.0: "clear", 100.0: "violet", 120.0: "pink",
}  # fmt: skip

FUSE_FAMILIES: dict[FuseShape, FuseFamily] = {
    "mini": FuseFamily(
        "mini blade fuse",
        (2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30),
        "memory",
        110,
        {135: (0.75, 600.0), 200: (0.15, 5.0), 350: (0.08, 0.5), 600: (0.03, 0.1)},
        "second-hand",
        {rating: word for rating, word in _BLADE_COLOURS.items() if 2 <= rating <= 30},
        "ISO 8820-3 type F, from data sheets that state conformity",
    ),
    "blade": FuseFamily(
        "blade fuse",
        (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40),
        "memory; 35 and 40 second-hand",
        110,
        {135: (0.75, 600.0), 200: (0.15, 5.0), 350: (0.08, 0.5)},
        "second-hand",
        _BLADE_COLOURS,
        "ISO 8820-3 type C, from data sheets that state conformity",
    ),
    "maxi": FuseFamily(
        "maxi blade fuse",
        (20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 120),
        "memory; colour rows read",
        100,
        {135: (60.0, 1800.0), 200: (2.0, 50.0), 350: (0.2, 7.0), 600: (0.04, 1.0)},
        "second-hand",
        _MAXI_COLOURS,
        "ISO 8820-3 type E, from data sheets that state conformity",
    ),
    "bolt_down": FuseFamily(
        "bolt-down strip fuse",
        (23, 30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350),
        "memory; up to 200 with 5 mm studs, from 80 with 8 mm studs too",
        100,
        {135: (120.0, 1800.0), 200: (1.0, 15.0), 350: (0.3, 5.0)},
        "memory, low confidence",
        {},
        "ISO 8820-5 strip fuses",
    ),
}
"""Fuses by shape. A colour means nothing without its family: red is 10 A as a blade and 50 A as
a maxi blade. Blade colours read; 1 A is black on some lists and tan on others (contested)."""

# -- common practice, no source ----------------------------------------------------------------

STANDARD_FUSES_A = (
    1.0, 2.0, 3.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 125.0,
    150.0, 175.0, 200.0, 250.0,
)  # fmt: skip
"""Ratings that a plan asks for: those a shop can buy in some family. [A]"""

NOMINAL_SPEAKER_OHMS = (1.0, 2.0, 3.0, 4.0, 6.0, 8.0)
"""Impedances that speakers are sold by. [Ω]"""

STOCK_LINE_LEADS_M = (0.5, 1.0, 2.0, 3.0, 5.0)
"""Lengths in which line leads are sold. [m]"""

BASS_TONE_HZ = (40.0, 50.0)
"""Test tone for setting a subwoofer's gain. [Hz]"""

DOOR_TONE_HZ = 1000.0
DOOR_TONE_SLOW_METER_HZ = 400.0
"""Test tone for setting a door's gain, and for a meter whose AC range falls off early. [Hz]"""

TREBLE_TONE_HZ = 6000.0
"""Test tone for a pair of tweeters whose crossover nobody recorded. [Hz]"""

OCTAVE = 2.0
"""How far inside its band a pair is measured, as a ratio of frequencies."""

BASS_SUM_HZ = 80.0
"""Where a mono bass sum is judged. [Hz]"""

# -- chosen by this project --------------------------------------------------------------------

LINE_STEP_V = 0.1
"""Line targets are rounded down to this. [V]"""

LENGTH_STEP_M = 0.1
"""Cut lengths are rounded up to this. [m]"""

CHOICE_AWG = ("22", "20", "18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0")
CHOICE_MM2 = (0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0)
"""Sizes that a plan chooses from, thinnest first."""
