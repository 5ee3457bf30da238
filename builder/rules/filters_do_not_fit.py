"""Filters of a channel that harm its speaker, leave nothing, or cannot be set.

What it catches
---------------
A channel for a tweeter whose high-pass lies below the car's own, because the job says so or because
the control goes no higher; a high-pass or a subsonic filter at or above the low-pass of the same
channel; a slope or a delay that the job wants and the record of the device does not offer.

Why it matters in the bay
-------------------------
A tweeter that gets an octave more of the bass burns at the first loud song. A channel whose filters
meet from both sides plays nothing, and its gain is then turned up to look for it. A value that no
control can be set to stays in the sheet as a step that nobody can tick.

Example
-------
Fails::

    speakers:  # the car keeps all below 3000 Hz from this tweeter
      - {channel: front-left-tweeter, filters: {high_pass_hz: 800}, …}

Passes::

    speakers:
      - {channel: front-left-tweeter, filters: {high_pass_hz: 3500}, …}

How to mend it
--------------
Leave the key out: then the sheet begins where the car itself divides its bands. Where the control
does not go that far, fit a capacitor or a crossover before the tweeter, or drive it by a channel
whose control does.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.model.names import channel_name
from builder.model.parts.filters import Filters
from builder.planning.levels.bridged_channels import group_at
from builder.planning.levels.starting_filters import TWEETER_HZ
from builder.planning.tune_sheet import TuneRow
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import sound_of
from builder.rules.rule import Scope, rule

_HAIR = 1e-9


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what is wrong with the filters of each channel of a tap plan."""
    speakers = {each.name: each for each in parts.job.speakers}
    for row in pack.tune:
        speaker = speakers[row.speaker]
        yield from _tweeter(row, speaker, parts)
        yield from _nothing_left(row, speaker)
        yield from _not_offered(row, speaker, parts)


def _fault(
    speaker: JobSpeaker, key: str, message: str, help: str, severity: Severity = Severity.FIX
) -> Fault:
    """At the key that the job states; at what drives the speaker where it states none."""
    stated = speaker.filters is not None and getattr(speaker.filters, key) is not None
    path = ("filters", key) if stated else ("driven_by",)
    return Fault((*speaker.path, *path), message, help, severity=severity)


def _tweeter(row: TuneRow, speaker: JobSpeaker, parts: JobParts) -> Iterator[Fault]:
    """A high-pass that is off holds the channel by itself, since one is still to be fitted."""
    sound = sound_of(parts, speaker.channel)
    is_high = speaker.channel.endswith("-tweeter") or (sound is not None and sound.band == "high")
    own_hz = (sound.highpass_hz if sound else None) or TWEETER_HZ
    if not is_high or row.high_pass_hz is None or row.high_pass_hz >= own_hz * (1 - _HAIR):
        return
    yield _fault(
        speaker, "high_pass_hz",
        f"the high-pass before {channel_name(speaker.channel)} stands at "
        f"{shown(row.high_pass_hz, beside=own_hz)} Hz, and below "
        f"{shown(own_hz, beside=row.high_pass_hz)} Hz nothing may reach it: the tweeter burns",
        "leave high_pass_hz out; where the control goes no higher, fit a capacitor or a crossover",
        Severity.STOP,
    )  # fmt: skip


def _nothing_left(row: TuneRow, speaker: JobSpeaker) -> Iterator[Fault]:
    top_hz = row.low_pass_hz
    if top_hz is None:
        return
    bottom_hz = max(row.high_pass_hz or 0.0, row.subsonic_hz or 0.0)
    if bottom_hz >= top_hz:
        yield _fault(
            speaker, "low_pass_hz",
            f"{row.speaker} gets what lies above {shown(bottom_hz, beside=top_hz)} Hz and below "
            f"{shown(top_hz, beside=bottom_hz)} Hz, which is nothing",
            "leave both keys out, or set the low-pass above the high-pass",
        )  # fmt: skip


def _not_offered(row: TuneRow, speaker: JobSpeaker, parts: JobParts) -> Iterator[Fault]:
    stated = speaker.filters
    if stated is None:
        return
    has, slope = _controls(row.set_at, speaker, parts), stated.slope_db_per_octave
    if has is not None and slope is not None and slope not in has.slopes_db_per_octave:
        offered = ", ".join(map(str, has.slopes_db_per_octave))
        yield _fault(
            speaker, "slope_db_per_octave",
            f"{slope} dB an octave is wanted, and {row.set_at} has {offered}",
            "write one of those, or leave the key out",
        )  # fmt: skip
    has, delay = _controls(row.delay_at or row.set_at, speaker, parts), stated.delay_ms
    if has is not None and delay and delay > (has.delay_max_ms or 0.0):
        most = f"at most {has.delay_max_ms:g} ms" if has.delay_max_ms else "none"
        yield _fault(
            speaker, "delay_ms",
            f"a delay of {delay:g} ms is wanted, and {row.delay_at or row.set_at} has {most}",
            "shorten it, or leave the key out",
        )  # fmt: skip


def _controls(device: str, speaker: JobSpeaker, parts: JobParts) -> Filters | None:
    """What the record of a device says of its filters; None where it is silent."""
    if device == parts.converter.name:
        return parts.converter.filters
    amplifier = parts.amplifiers.get(speaker.amplifier)
    group = None if amplifier is None else group_at(amplifier, speaker.amplifier_channel)
    return None if group is None else group.filters


RULE = rule("LVL116", Severity.FIX, Scope.JOB, check, hazard=True)
