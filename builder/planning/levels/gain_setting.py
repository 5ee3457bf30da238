"""The volts an amplifier is set to: what it can, what the speaker may, which tone to play."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.figures import at_most, shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.levels.pair_tone import tone_words
from builder.planning.power.tables import BASS_TONE_HZ, DOOR_TONE_HZ
from builder.planning.words import LimitedBy, SpeakerUse
from builder.units import (
    Decibels,
    Hertz,
    Ohms,
    VoltsRms,
    Watts,
    db_to_ratio,
    require_positive,
    volts_for_power,
)


def amplifier_power_w(power_w: Mapping[Ohms, Watts], load_ohm: Ohms, least_ohm: Ohms) -> Watts:
    """Return what an amplifier is sure to give into a load, from its stated powers. [W]

    Between stated loads no more than it has shown it can: the volts that it drives into a lower
    load, or the amperes that it drives into a higher one, whichever gives more. Chosen by this
    project: a straight line between data-sheet points would promise power nobody stated.

    Args:
        power_w: W RMS by load in ohms. At least one.
        load_ohm: The actual load.
        least_ohm: The least the amplifier may drive.
    Raises:
        ValueError: the load is under the least, nothing is stated, or a figure is not positive.
    """
    require_positive("load_ohm", load_ohm)
    if load_ohm < least_ohm * (1 - 1e-9):
        load = shown(load_ohm, beside=least_ohm)
        raise ValueError(f"{load} Ω is under the {shown(least_ohm)} Ω the amplifier may drive")
    sure = [
        require_positive("power_w", watts) * min(stated / load_ohm, load_ohm / stated)
        for stated, watts in power_w.items()
    ]
    if not sure:
        raise ValueError("no power is stated")
    return max(sure)


@dataclass(frozen=True, slots=True)
class SetVolts:
    """What a channel is set to and what sets the limit."""

    v_rms: VoltsRms
    power_w: Watts
    limited_by: LimitedBy
    full_v_rms: VoltsRms  # of the amplifier into this load


def set_volts(amplifier_w: Watts, speaker_w: Watts, load_ohm: Ohms) -> SetVolts:
    """Return √(P·R) of the smaller power, the amplifier's into this load or the speaker's. [V]

    Raises:
        ValueError: an argument is not positive and finite.

    >>> round(set_volts(600.0, 500.0, 2.0).v_rms, 1)
    31.6
    """
    power = min(require_positive("w", amplifier_w), require_positive("w", speaker_w))
    by: LimitedBy = "speaker" if speaker_w < amplifier_w else "amplifier"
    full = volts_for_power(amplifier_w, load_ohm)
    return SetVolts(volts_for_power(power, load_ohm), power, by, full)


@dataclass(frozen=True, slots=True)
class ToneReading:
    """Which tone to play and what the meter must show, speakers unplugged, everything flat."""

    low_hz: Hertz
    high_hz: Hertz  # equal to low_hz where one tone is meant
    tone_db: Decibels  # against full scale
    overlap_db: Decibels
    read_v_rms: VoltsRms
    says: str


def tone_range_hz(use: SpeakerUse) -> tuple[Hertz, Hertz]:
    """Return the test tone for a subwoofer or a door. [Hz]

    Raises:
        ValueError: the use is neither sub nor door.
    """
    if use == "sub":
        return BASS_TONE_HZ
    if use != "door":
        raise ValueError(f"a channel drives a door or a sub, not {use!r}")
    return DOOR_TONE_HZ, DOOR_TONE_HZ


def tone_reading(
    set_v_rms: VoltsRms,
    use: SpeakerUse,
    defaults: HouseDefaults,
    *,
    quiet_tone: bool = False,
    overlap: bool = False,
    tone_hz: tuple[Hertz, Hertz] | None = None,
) -> ToneReading:
    """Return what to play and what to read, and say which of the three ways it is.

    Args:
        set_v_rms: The channel's limit; no way reads beyond it.
        use: sub or door.
        defaults: Holds the overlap, which is also the level of the quiet tone.
        quiet_tone: The tone stands that far under full scale.
        overlap: Music is to reach the limit that far before full scale.
        tone_hz: Played instead of the usual tone, where what feeds the channel lacks that one.
    Raises:
        ValueError: overlap with a full-scale tone, which would read beyond the limit.
    """
    require_positive("set_v_rms", set_v_rms)
    if overlap and not quiet_tone:
        raise ValueError("an overlap is set with the quiet tone, a full tone would pass the limit")
    low, high = tone_hz or tone_range_hz(use)
    tone_db = -defaults.overlap_db if quiet_tone else 0.0
    overlap_db = defaults.overlap_db if overlap else 0.0
    read = set_v_rms * db_to_ratio(tone_db + overlap_db)
    under = f"{-tone_db:g} dB under full scale" if quiet_tone else "full scale"
    more = f": music reaches that {overlap_db:g} dB before its own full scale" if overlap else ""
    tone = f"{tone_words((low, high))} at {under} ({tone_db:g} dBFS)"
    says = f"play {tone}, read {at_most(read, 'V')} V{more}"
    return ToneReading(low, high, tone_db, overlap_db, read, says)
