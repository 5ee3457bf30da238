"""A woofer and a tweeter with a pair each, on one channel of the new amplifier.

What it catches
---------------
A speaker of a job that leads one channel over the wires of a woofer pair and of a tweeter pair.
The factory parted the bands before its outputs; behind one channel nothing does so any more.

Why it matters in the bay
-------------------------
A bare tweeter that gets bass burns within seconds, and both speakers side by side are a smaller
load than either: 4 Ω beside 4 Ω is 2 Ω, which an amplifier for 4 Ω does not carry.

Example
-------
Fails::

    speakers:
      - {channel: front-left, from: [front-left-woofer, front-left-tweeter], …}

Passes::

    speakers:
      - {channel: front-left-woofer, from: [front-left-woofer], …}
      - {channel: front-left-tweeter, from: [front-left-tweeter], …}

How to mend it
--------------
Give the tweeter a channel of its own with a high-pass. Or fit a passive crossover between the
channel and the two pairs, and say so: `crossover` of the speaker, with its corner, its slope and
the ohms that it is made for. The capacitor that the finding names is the least of that:
1/(2·π·R·C) at the car's own corner, 6 dB an octave.

Source
------
The corner of a capacitor before a resistance and resistances side by side: textbook laws (memory).
That a tweeter needs it: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.model.names import channel_name
from builder.model.sound import SpeakerChannel
from builder.planning.car.treatments import is_crossed
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import returns_to, sound_of
from builder.rules.rule import Scope, rule
from builder.units import Hertz, Ohms


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker whose one channel drives a tweeter's pair beside another."""
    for speaker in parts.job.speakers:
        names = returns_to(speaker, parts.vehicle)
        sounds = [sound for name in names if (sound := sound_of(parts, name))]
        high = next((each for each in sounds if each.band == "high"), None)
        if high is not None and len(sounds) > 1 and not is_crossed(speaker, names):
            yield _fault(speaker, high, sounds)


def _fault(speaker: JobSpeaker, high: SpeakerChannel, sounds: list[SpeakerChannel]) -> Fault:
    both = " and ".join(channel_name(each.channel) for each in sounds)
    drives = f"{speaker.amplifier} channel {speaker.channel_name}"
    return Fault(
        (*speaker.path, "driven_by"),
        f"{drives} drives {both}, and nothing keeps its bass from {channel_name(high.channel)}: "
        f"the tweeter burns{_load_words(sounds)}",
        f"give {channel_name(high.channel)} a channel of its own with a high-pass, or fit a "
        f"crossover{_capacitor_words(high)}, and write crossover: beside driven_by",
    )


def _load_words(sounds: list[SpeakerChannel]) -> str:
    ohms = [each.speaker_ohm for each in sounds if each.speaker_ohm]
    if len(ohms) < len(sounds):
        return ""
    together = 1 / sum(1 / ohm for ohm in ohms)
    return f"; joined bare, the speakers are {shown(together, 1)} Ω together"


def _capacitor_words(high: SpeakerChannel) -> str:
    if not high.speaker_ohm or not high.highpass_hz:
        return ""
    least = capacitor_uf(high.speaker_ohm, high.highpass_hz)
    return (
        f", the least of it {shown(least, 1)} µF without polarity in series with the tweeter "
        f"({shown(high.highpass_hz)} Hz at {shown(high.speaker_ohm)} Ω)"
    )


def capacitor_uf(speaker_ohm: Ohms, corner_hz: Hertz) -> float:
    """Return the capacitor in series that has a corner before a speaker, 1/(2·π·R·f). [µF]

    >>> round(capacitor_uf(4.0, 3000.0), 1)
    13.3
    """
    return 1e6 / (2 * pi * speaker_ohm * corner_hz)


RULE = rule("TOP129", Severity.STOP, Scope.JOB, check)
