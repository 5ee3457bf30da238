"""A passive crossover that is made for other speakers than it stands before.

What it catches
---------------
A `crossover` of a job that has no woofer and tweeter behind it; whose corner lies below the
high-pass that the car gives its tweeter; that is made for other ohms than the car's record gives
its speakers; that takes less than its speaker is driven with; whose slope is none that a crossover
has; or a `nominal_ohm` above what the channel sees through it.

Why it matters in the bay
-------------------------
The parts of a crossover and the ohms behind it make the corner together. Behind one for 4 Ω a
tweeter of 8 Ω gets an octave more of the bass, and burns. In each band the channel sees the one
speaker that plays there: with a woofer of 2 Ω it is a load of 2 Ω, whatever the tweeter has.

Example
-------
Fails::

    speakers:  # before a woofer of 2 Ω and a tweeter of 4 Ω
      - {nominal_ohm: 4, crossover: {woofer_ohm: 4, tweeter_ohm: 4, …}, …}

Passes::

    speakers:
      - {nominal_ohm: 2, crossover: {woofer_ohm: 2, tweeter_ohm: 4, …}, …}

How to mend it
--------------
Read on the crossover, or in its maker's sheet, what it is made for, and take one for these two
speakers. `nominal_ohm` is the lower of the two.

Source
------
The corner of a coil or a capacitor with a resistance, R/(2·π·L) and 1/(2·π·R·C): textbook laws
(memory). How far the ohms may differ: chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.job import Crossover, JobSpeaker
from builder.model.job.crossovers import DB_A_PART
from builder.model.names import channel_name
from builder.model.sound import SpeakerChannel
from builder.planning.car.treatments import is_crossed
from builder.planning.circuit.crossover_links import band_of
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import returns_to, sound_of
from builder.rules.rule import Scope, rule
from builder.rules.wording import ohms

OHMS_SHARE = 0.25
"""How far the ohms of a speaker may be from those that a crossover is made for: the corner moves as
far. Nominal ohms are rounded. Chosen by this project."""
_HAIR = 1e-9


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what of each crossover does not fit the speakers of the car that it stands before."""
    for speaker in parts.job.speakers:
        made = speaker.crossover
        if made is None:
            continue
        names = returns_to(speaker, parts.vehicle)
        if not is_crossed(speaker, names):
            yield _before_one(speaker, names)
            continue
        sounds = [sound for name in names if (sound := sound_of(parts, name))]
        yield from _in_itself(speaker, made)
        yield from _before(speaker, made, sounds)


def _fault(speaker: JobSpeaker, key: str, message: str, help: str, severity: Severity) -> Fault:
    return Fault((*speaker.path, *key.split(".")), message, help, severity=severity)


def _before_one(speaker: JobSpeaker, names: tuple[str, ...]) -> Fault:
    there = " and ".join(names) or "no pair of the car"
    return _fault(
        speaker, "crossover",
        f"a crossover parts a woofer's pair from a tweeter's, and {speaker.name} hangs on {there}",
        "take the crossover out, or give channel the corner whose woofer and tweeter the car's "
        "record has on two pairs, front-left",
        Severity.STOP,
    )  # fmt: skip


def _in_itself(speaker: JobSpeaker, made: Crossover) -> Iterator[Fault]:
    if made.slope_db_per_octave % DB_A_PART:
        yield _fault(
            speaker, "crossover.slope_db_per_octave",
            f"a passive crossover has a slope of 6, 12, 18 or 24 dB an octave, not "
            f"{made.slope_db_per_octave}",
            "read it on the crossover or in its maker's sheet", Severity.FIX,
        )  # fmt: skip
    if made.rated_w_rms < speaker.rated_w_rms * (1 - _HAIR):
        yield _fault(
            speaker, "crossover.rated_w_rms",
            f"the crossover takes {shown(made.rated_w_rms, beside=speaker.rated_w_rms)} W, and "
            f"{speaker.name} is driven up to "
            f"{shown(speaker.rated_w_rms, beside=made.rated_w_rms)} W",
            "lower rated_w_rms of the speaker to what the crossover takes", Severity.FIX,
        )  # fmt: skip


def _before(speaker: JobSpeaker, made: Crossover, sounds: list[SpeakerChannel]) -> Iterator[Fault]:
    seen: list[float] = []
    for sound in sounds:
        band = band_of(sound.channel)
        for_ohm = made.tweeter_ohm if band == "tweeter" else made.woofer_ohm
        seen.append(sound.speaker_ohm or for_ohm)
        if abs(seen[-1] / for_ohm - 1) > OHMS_SHARE + _HAIR:
            yield _fault(
                speaker, f"crossover.{band}_ohm",
                f"made for a {band} of {ohms(for_ohm)}, and {channel_name(sound.channel)} has "
                f"{ohms(seen[-1])}: its corner is no longer at {shown(made.corner_hz)} Hz",
                f"take a crossover for a {band} of {ohms(seen[-1])}", Severity.FIX,
            )  # fmt: skip
        yield from _too_low(speaker, made, sound)
    least = min(seen)
    if speaker.nominal_ohm > least * (1 + OHMS_SHARE):
        yield _fault(
            speaker, "nominal_ohm",
            f"the channel sees {ohms(least)} through the crossover, not "
            f"{ohms(speaker.nominal_ohm)}",
            f"write nominal_ohm: {shown(least)}", Severity.FIX,
        )  # fmt: skip


def _too_low(speaker: JobSpeaker, made: Crossover, sound: SpeakerChannel) -> Iterator[Fault]:
    """The car keeps more from its tweeter than the crossover does."""
    least_hz = sound.highpass_hz
    if band_of(sound.channel) == "tweeter" and least_hz and made.corner_hz < least_hz * (1 - _HAIR):
        yield _fault(
            speaker, "crossover.corner_hz",
            f"the crossover parts at {shown(made.corner_hz, beside=least_hz)} Hz, and the car "
            f"keeps all below {shown(least_hz, beside=made.corner_hz)} Hz from "
            f"{channel_name(sound.channel)}",
            f"take one that parts at {shown(least_hz)} Hz or higher", Severity.FIX,
        )  # fmt: skip


RULE = rule("TOP130", Severity.FIX, Scope.JOB, check, hazard=True)
