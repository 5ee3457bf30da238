"""Where the filters of a channel start: what it drives, the box it sits in, what plays beside it.

Starting values protect a speaker and divide the sound; the ear ends the work. Each is said with
its source, and those that have none say so.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Literal

from builder.figures import shown
from builder.model.job import JobSpeaker
from builder.model.sound import SpeakerChannel
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, RECORD
from builder.planning.words import SpeakerUse
from builder.units import Hertz

Part = Literal["sub", "low", "high", "full"]
"""What of the sound a channel plays: the lowest, a woofer's or a tweeter's share, all of it."""

HAND_OVER_HZ: Hertz = 80.0
"""Between a subwoofer and the doors. Common practice, no source."""
ALONE_HZ: Hertz = 50.0
"""The lowest that a door is asked for without a subwoofer. Common practice, no source."""
TWEETER_HZ: Hertz = 3000.0
"""Between woofer and tweeter where nobody measured the car's own corner. Common practice."""
FREE_AIR_HZ: Hertz = 30.0
"""The lowest that a subwoofer without a box is asked for. Common practice, no source."""
STEEP_DB = 24
"""The slope that keeps two bands in step at their corner. Source: Linkwitz 1976 (memory)."""
EASY_DB = 12
"""The slope that nearly every amplifier has. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Start:
    """One starting value with where it comes from; `hz` None is off."""

    hz: Hertz | None
    because: Reason


def part_of(speaker: JobSpeaker, carries: SpeakerChannel | None, use: SpeakerUse) -> Part:
    """Return what a speaker plays: by its use, its channel's name, the band of its pair."""
    if use == "sub":
        return "sub"
    if speaker.channel.endswith("-tweeter") or (carries and carries.band == "high"):
        return "high"
    if speaker.channel.endswith("-woofer") or (carries and carries.band == "low"):
        return "low"
    return "full"


def high_pass(part: Part, carries: SpeakerChannel | None, *, with_sub: bool) -> Start:
    """Return the corner under which a channel plays nothing."""
    if part == "sub":
        return _off("high-pass", "the lowest is its own; what may harm it the subsonic keeps away")
    if part == "high":
        return _split("high-pass", carries.highpass_hz if carries else None)
    if with_sub:
        return _practice("high-pass", HAND_OVER_HZ, "the subwoofer plays what lies under it")
    return _practice("high-pass", ALONE_HZ, "no subwoofer; a door moves too far under it")


def low_pass(part: Part, carries: SpeakerChannel | None) -> Start:
    """Return the corner above which a channel plays nothing."""
    if part == "sub":
        return _practice("low-pass", HAND_OVER_HZ, "above it one hears where the box stands")
    if part == "low":
        return _split("low-pass", carries.lowpass_hz if carries else None)
    return _off("low-pass", "it plays to the top")


def subsonic(speaker: JobSpeaker, part: Part) -> Start | None:
    """Return the corner that keeps a cone from its stop; None where the box has to say it first.

    Source: under its tuning a vented box no longer holds the cone, textbook law (memory); half an
    octave under it is common practice, no source.
    """
    box = speaker.box
    if part != "sub":
        return _off("subsonic", "no subwoofer")
    if box is None or (box.kind == "vented" and box.tuned_hz is None):
        return None
    if box.kind == "sealed":
        return _off("subsonic", "the air in a sealed box holds the cone")
    if box.kind == "free_air":
        return _practice("subsonic", FREE_AIR_HZ, "no box holds the cone")
    hz = round((box.tuned_hz or 0.0) / sqrt(2), 1)
    said = f"half an octave under the {shown(box.tuned_hz or 0.0)} Hz that the box is tuned to"
    return _practice("subsonic", hz, said)


def _practice(what: str, hz: Hertz, because: str) -> Start:
    return Start(hz, Reason(f"{what} {shown(hz)} Hz", because, COMMON_PRACTICE))


def _off(what: str, because: str) -> Start:
    return Start(None, Reason(f"{what} off", because, COMMON_PRACTICE))


def _split(what: str, corner_hz: Hertz | None) -> Start:
    if corner_hz is None:
        return _practice(what, TWEETER_HZ, "nobody measured where the car itself divides its bands")
    said = "the car itself divides its bands there"
    return Start(corner_hz, Reason(f"{what} {shown(corner_hz)} Hz", said, RECORD))
