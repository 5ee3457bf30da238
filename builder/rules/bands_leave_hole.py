"""The pairs taken for a speaker leave a hole between their bands.

What it catches
---------------
A speaker fed by a low and a high band whose corners lie more than 1.2 times apart (house
default), or one band of a split corner without the other.

Why it matters in the bay
-------------------------
Voices sound hollow, and no equaliser brings back what is on no wire.

Example
-------
Fails::

    channels:
      - {channel: front-left-woofer, band: low, lowpass_hz: 2500}
      - {channel: front-left-tweeter, band: high, highpass_hz: 4000}
    speakers: [{name: left, from: [front-left-woofer, front-left-tweeter]}]

Passes::

    channels:
      - {channel: front-left-woofer, band: low, lowpass_hz: 2800}
      - {channel: front-left-tweeter, band: high, highpass_hz: 3000}
    speakers: [{name: left, from: [front-left-woofer, front-left-tweeter]}]

How to mend it
--------------
Add the pair that carries what is missing, or take a source that has the whole band.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import DataPath, Fault, Severity
from builder.model.job import JobSpeaker
from builder.model.names import channel_name
from builder.model.sound import SpeakerChannel
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import sound_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each full-range speaker whose sources do not reach over the whole band."""
    most = parts.shelf.defaults.band_gap_ratio
    for speaker in parts.job.speakers:
        sounds = [sound for name in speaker.plays if (sound := sound_of(parts, name))]
        low = next((s for s in sounds if s.band == "low" and s.channel != "sub"), None)
        high = next((s for s in sounds if s.band == "high"), None)
        path = (*speaker.path, "from")
        if low and high and low.lowpass_hz and high.highpass_hz:
            if high.highpass_hz > most * low.lowpass_hz:
                yield Fault(
                    path,
                    f"{channel_name(low.channel)} ends at {shown(low.lowpass_hz)} Hz and "
                    f"{channel_name(high.channel)} begins at {shown(high.highpass_hz)} Hz, more "
                    f"than {shown(most)} times as high: what lies between is missing "
                    f"from {speaker.name}",
                    "add the pair that carries it, or measure the corners again",
                )
        else:
            yield from _half(path, speaker, sounds)


def _half(path: DataPath, speaker: JobSpeaker, sounds: list[SpeakerChannel]) -> Iterator[Fault]:
    """A speaker that should play the whole band and gets one half of it."""
    bands = {sound.band for sound in sounds}
    whole = not speaker.channel.endswith(("sub", "-woofer", "-tweeter"))
    if whole and bands in ({"low"}, {"high"}):
        have, lacks = ("low", "high") if bands == {"low"} else ("high", "low")
        yield Fault(
            path,
            f"{speaker.name} gets only the {have} band: the {lacks} one is missing",
            f"add the pair that carries the {lacks} band of the same corner",
        )


RULE = rule("TOP118", Severity.FIX, Scope.JOB, check)
