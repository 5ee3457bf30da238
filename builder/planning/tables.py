"""Every constant of the planner with its standing, so that a house choice never looks like a
standard. Values a shop may change are house defaults and stand in the model instead.
"""

from __future__ import annotations

from math import sqrt

# -- defined -----------------------------------------------------------------------------------

# -- published ---------------------------------------------------------------------------------

AUDIO_SUPPLY_V = 14.4
"""Supply at which car audio power is rated. [V]
Source: CTA-2006 (read second-hand) and data sheets of bridge output stages (read)."""

SOUND_M_S = 343.2
"""Speed of sound in air of 20 °C. [m/s]
Source: ISO 9613-1:1993, reference value (memory)."""

BRIDGE_ONE_PERCENT_W = 23.0
"""Typical power of a car-radio bridge at 1 % distortion, 14.4 V, 4 Ω, 1 kHz. [W]
Source: TDA7850 data sheet, revision 6, 2013 (read)."""

BRIDGE_ONE_PERCENT_OHM = 4.0
"""Load of the figure above. [Ω]"""

E6 = (1.0, 1.5, 2.2, 3.3, 4.7, 6.8)
"""Preferred values of capacitors within a decade. Source: IEC 60063, series E6 (memory)."""

E12 = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
"""Preferred values of resistors within a decade.
Source: IEC 60063, series E12 (memory)."""

WIRE_OUTSIDE_MM = {
    0.5: (1.6, 2.3), 0.75: (1.9, 2.5), 1.0: (2.1, 2.7), 1.5: (2.4, 3.0), 2.5: (3.0, 3.6),
    4.0: (3.7, 4.4), 6.0: (4.3, 5.0),
}  # fmt: skip
"""Outside diameter of a car's wire over its insulation, by nominal mm²: thin wall, thick wall. [mm]
Source: ISO 6722-1, the most of either class (memory)."""

DATA_SHEET_SOURCE = "TDA7850 data sheet, revision 6, 2013"
E12_SOURCE = "IEC 60063, series E12"

# -- common practice, no source ----------------------------------------------------------------

BRIDGE_LOSS_V = 1.5
"""What a bridge keeps of its supply before it clips. [V]"""

SINGLE_ENDED_LOSS_V = 1.0
"""What a single-ended output keeps of half the supply before it clips. [V]"""

LOGIC_DRAW_MAX_MA = 5.0
"""Most that may be drawn from a 3.3 V or 5 V logic output. [mA]"""

DRIVER_DRAW_MA = 1.0
"""What a transistor driver takes from the logic output that steers it. [mA]"""

STAND_IN_LOAD_OHM = 47.0
"""Resistor that stands in for a speaker at a radio that checks for one. [Ω]"""

PAD_RATINGS_W = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 25.0, 50.0)
"""Sizes in which small resistors are sold. [W]"""

STAND_IN_RATINGS_W = (5.0, 10.0, 17.0, 25.0, 50.0, 100.0)
"""Sizes in which resistors that stand in for a speaker are sold. [W]"""

BARREL_OUTSIDE_MM = (3.4, 4.2, 5.6)
"""Outside diameter of a bare crimp barrel: small, medium, large. [mm]"""

SLEEVE_BORES_MM = (
    (3.0, 1.0), (4.8, 1.6), (6.0, 2.0), (9.0, 3.0), (12.0, 4.0), (19.0, 6.0), (24.0, 8.0),
)  # fmt: skip
"""Bore of the adhesive sleeves that are sold, as bought and after heating: three to one. [mm]"""

PAD_TOLERANCE = 0.1
"""How far a resistor of the E12 series may be from its value, as a share: the series has its
steps for 10 %. Source: IEC 60063 (memory)."""

BASS_TABLE_OCTAVES = 0.5
"""How far a frequency of a bass table may lie from the tone it is used for. [octaves]"""

SUB_SOURCE_SWING_MAX_DB = 10.0
"""Bass loss with volume beyond which a pair is no subwoofer source without correction. [dB]"""

COMMON_PRACTICE = "common practice, no source"

# -- chosen by this project --------------------------------------------------------------------

SUB_SOURCE_LOWPASS_MIN_HZ = 120.0
"""A band-limited pair feeds a subwoofer only if its low-pass corner is at least this. [Hz]"""

SUB_SOURCE_HIGHPASS_MAX_HZ = 60.0
"""A pair with a high-pass corner above this holds no bass for a subwoofer. [Hz]"""

SOURCE_CHANGE_MAX_V = 1.0
"""A turn-on output whose reading differs by more between sources follows the source. [V]"""

SUB_FROM_INPUTS = 5
"""A converter with this many inputs or more also serves a subwoofer."""

DOORS_FROM_INPUTS = 4
"""From this many inputs on a converter is taken to amplify the doors."""

MOST_INSTEAD = 3
"""So many other converters are named at most under a refusal."""

HOUSE_DEFAULT = "house default of this book"
PROJECT_CHOICE = "chosen by this project"
RECORD = "the vehicle's record"
RECORDING = "a recording of the pairs"
DEVICE_RECORD = "the converter's record"
INTERFACE_RECORD = "the data interface's record"
AMPLIFIER_RECORD = "the amplifier's record"
JOB_RECORD = "the job's record"


def bridge_square_v() -> float:
    """Hard-clipped output of an unboosted bridge: supply less its loss, as a square wave. [V]

    >>> round(bridge_square_v(), 1)
    12.9
    """
    return AUDIO_SUPPLY_V - BRIDGE_LOSS_V


def bridge_clean_v_rms(leg_bias_v: float) -> float:
    """Cleanest level a bridge can give, from the DC bias of its legs. [V RMS]

    The bias is half the stage's supply, so the peak is 2·bias less the stage's loss.

    >>> round(bridge_clean_v_rms(6.6), 2)
    8.27
    """
    return (2 * leg_bias_v - BRIDGE_LOSS_V) / sqrt(2)


def single_ended_clean_v_rms() -> float:
    """Clean level of a single-ended output on half of 14.4 V. [V RMS]

    >>> round(single_ended_clean_v_rms(), 2)
    4.38
    """
    return (AUDIO_SUPPLY_V / 2 - SINGLE_ENDED_LOSS_V) / sqrt(2)


def bridge_one_percent_v_rms() -> float:
    """Voltage of the data sheet's typical 1 % point. [V RMS]

    >>> round(bridge_one_percent_v_rms(), 2)
    9.59
    """
    return sqrt(BRIDGE_ONE_PERCENT_W * BRIDGE_ONE_PERCENT_OHM)


SIGNAL_APART = "signal leads stay 0.3 m from the supply or cross it at a right angle"
"""How they are laid. Common practice, no source."""
