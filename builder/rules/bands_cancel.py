"""A delay between two bands that are added up.

What it catches
---------------
A woofer and a tweeter pair of one side that are joined in the converter although the factory
delays one of them by more than 1/(4·f) of their crossover, or by nobody knows how much. Where both
were recorded together, the sum that is worked out from their responses counts instead: it may lose
3 dB at most.

Why it matters in the bay
-------------------------
At the crossover they arrive against each other. Voices lose their presence, and the more the
tweeter is turned up, the worse.

Example
-------
Fails::

    channels:
      - {channel: front-right-woofer, lowpass_hz: 2800, delay_ms: 0}
      - {channel: front-right-tweeter, highpass_hz: 3000, delay_ms: 0.12}

Passes::

    channels:
      - {channel: front-right-woofer, lowpass_hz: 2800, delay_ms: 0}
      - {channel: front-right-tweeter, highpass_hz: 3000, delay_ms: 0.03}

How to mend it
--------------
Set the radio's seat setting to all seats and measure again, take the woofer pair alone with a
crossover of your own, or use a converter that delays.

Source
------
The sum of two equal phasors; the limit of 3 dB is chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.model.names import channel_name
from builder.model.parts import Converter
from builder.model.sound import SpeakerChannel
from builder.planning.feeds.band_sums import crossover_hz
from builder.planning.feeds.delay_sum import delay_sum
from builder.planning.feeds.recorded_sum import recorded_sum
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import sound_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each joined couple of bands whose delay is too long or unknown."""
    if parts.converter.delay_adjust == "yes":
        return
    for speaker in parts.job.speakers:
        sounds = [sound for name in speaker.plays if (sound := sound_of(parts, name))]
        low = next((s for s in sounds if s.band == "low" and s.channel != "sub"), None)
        high = next((s for s in sounds if s.band == "high"), None)
        if low and high and low.lowpass_hz and high.highpass_hz:
            hz = crossover_hz(low.lowpass_hz, high.highpass_hz)
            yield from _judge(speaker, low, high, hz, parts.converter)


def _judge(
    speaker: JobSpeaker,
    low: SpeakerChannel,
    high: SpeakerChannel,
    hz: float,
    converter: Converter,
) -> Iterator[Fault]:
    path = (*speaker.path, "from")
    both = " and ".join(channel_name(each.channel) for each in (low, high))
    heard = recorded_sum(low, high, converter)
    if heard is not None:
        if not heard.holds:
            help = "set the radio to all seats and record again, or take the woofer pair alone"
            yield Fault(path, f"{both}: {heard.words}", help)
        return
    if low.delay_ms is None or high.delay_ms is None:
        says = f"nobody measured the delay between {both}: added up they may cancel"
        help = "measure it, or accept this with what you did instead"
        yield Fault(path, says, help, nobody_knows=True)
        return
    found = delay_sum(hz, abs(high.delay_ms - low.delay_ms))
    if not found.holds:
        yield Fault(
            path,
            f"{both} are {shown(found.delay_ms)} ms apart, {shown(found.phase_deg, 1)}° at "
            f"{shown(hz)} Hz (at most "
            f"{shown(1000 * found.limit_ms, 0, beside=1000 * found.delay_ms)} "
            f"µs): {shown(found.loss_db, 2, beside=-3)} dB at the crossover",
            "set the radio to all seats and measure again, or take the woofer pair alone",
        )


RULE = rule("TOP120", Severity.FIX, Scope.JOB, check, partly=(Severity.FIX,))
