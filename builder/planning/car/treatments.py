"""What is done with each factory pair of a job: intercept, add-on or left alone, and why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.model.glossary import ADDON, INTERCEPT, LEFT_ALONE, LINE_TAP
from builder.model.job import Job, JobSpeaker
from builder.model.names import channel_name, crossover_name
from builder.model.words import SPLIT_BANDS, Channel, Treatment
from builder.planning.car.demands import channel_order
from builder.planning.car.output_sums import corner_of
from builder.planning.car.sources import Sources
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, RECORD

_FIGHT = "the new amplifier and the car would drive one wire, and one of them is destroyed"


@dataclass(frozen=True, slots=True)
class Treatments:
    """`of` holds intercept, addon or none for each usable factory channel."""

    of: dict[Channel, Treatment]
    reasons: tuple[Reason, ...]
    objections: tuple[Objection, ...]


def decide_treatments(job: Job, sources: Sources) -> Treatments:
    """Return what is done with each pair; what the job says itself holds where it is lawful."""
    driven = driven_wires(job, sources.pairs)
    played = played_pairs(job, sources.pairs)
    of: dict[Channel, Treatment] = {}
    reasons: list[Reason] = []
    objections = [*_undescribed(job, sources), *_on_two_wires(job, sources)]
    for channel in sorted(sources.pairs, key=channel_order):
        treatment, because = _decide(channel, driven, played)
        asked = job.treatment.get(channel)
        if asked is not None and asked != treatment:
            lawful = _lawful(channel, asked, treatment, driven)
            if isinstance(lawful, Objection):
                objections.append(lawful)
            else:
                treatment, because = asked, lawful
        of[channel] = treatment
        reasons.append(
            Reason(
                f"{channel_name(channel)}: {TREATMENT_WORDS[treatment]}", because, COMMON_PRACTICE
            )
        )
    return Treatments(of, tuple(reasons), tuple(objections))


TREATMENT_WORDS: dict[Treatment, str] = {
    "intercept": INTERCEPT,
    "addon": ADDON,
    "line_tap": LINE_TAP,
    "none": LEFT_ALONE,
}


def wires_of(speaker: JobSpeaker, pairs: Mapping[Channel, object]) -> tuple[Channel, ...]:
    """Return the factory pairs whose wire leads to a speaker: its own, or both of its bands."""
    if not speaker.existing and speaker.existing_lead is None:
        return ()
    return bands_of(speaker.channel, pairs)


def is_crossed(speaker: JobSpeaker, wires: Sequence[Channel]) -> bool:
    """Whether a crossover of the job parts the bands before a woofer's pair and a tweeter's."""
    return speaker.crossover is not None and tuple(wires) == SPLIT_BANDS.get(speaker.channel)


def bands_of(channel: Channel, pairs: Mapping[Channel, object]) -> tuple[Channel, ...]:
    """Return the described pairs of a channel: itself, or its woofer and tweeter."""
    if channel in pairs:
        return (channel,)
    return tuple(name for name in SPLIT_BANDS.get(channel, ()) if name in pairs)


def driven_wires(job: Job, pairs: Mapping[Channel, object]) -> dict[Channel, JobSpeaker]:
    """Return the factory pairs whose speaker a new amplifier drives, with that speaker."""
    return {name: speaker for speaker in job.speakers for name in wires_of(speaker, pairs)}


def sources_of(speaker: JobSpeaker, pairs: Mapping[Channel, object]) -> tuple[Channel, ...]:
    """Return the factory pairs whose sound a speaker plays, in the order of the job."""
    return tuple(
        dict.fromkeys(name for channel in speaker.plays for name in bands_of(channel, pairs))
    )


def played_pairs(job: Job, pairs: Mapping[Channel, object]) -> dict[Channel, list[str]]:
    """Return the factory pairs that feed something, with the names of the speakers they feed."""
    found: dict[Channel, list[str]] = {}
    for speaker in job.speakers:
        for name in sources_of(speaker, pairs):
            found.setdefault(name, []).append(speaker.name)
    return found


def _decide(
    channel: Channel, driven: Mapping[Channel, JobSpeaker], played: Mapping[Channel, list[str]]
) -> tuple[Treatment, str]:
    if channel in driven:
        speaker = driven[channel]
        wires = tuple(name for name, each in driven.items() if each is speaker)
        way = (
            f"this wire, through {crossover_name(speaker.channel)}"
            if is_crossed(speaker, wires)
            else "this wire"
        )
        because = (
            f"a new amplifier drives {speaker.name} over {way}; a speaker that a new "
            "amplifier drives must leave the car's output, or the two outputs fight"
        )
        return "intercept", because
    if channel in played:
        names = ", ".join(played[channel])
        return "addon", f"its own speaker keeps playing from the car; {names} only listens"
    return "none", "nothing of this job plays it or drives its speaker"


def _lawful(
    channel: Channel, asked: Treatment, decided: Treatment, driven: Mapping[Channel, JobSpeaker]
) -> str | Objection:
    """The reason for what the job asks, or the refusal of it."""
    if decided == "intercept":
        because = f"the job says {asked}, but it drives {driven[channel].name} over it: {_FIGHT}"
        return object_to(f"{channel_name(channel)} must be broken", because, COMMON_PRACTICE)
    if asked == "intercept":
        because = (
            "the job breaks this pair and no amplifier channel returns to its speaker, which would "
            "stay silent. Drive it, or only listen"
        )
        return object_to(f"{channel_name(channel)} has no return", because, COMMON_PRACTICE)
    if asked == "line_tap":
        return "joined beside the line feed; the factory amplifier goes on playing its speaker"
    if decided == "addon":
        because = "the job leaves this pair alone, and one of its speakers plays it. Choose one"
        return object_to(
            f"{channel_name(channel)} is asked for and forbidden", because, COMMON_PRACTICE
        )
    return "the job listens to it, although nothing plays it"


def _undescribed(job: Job, sources: Sources) -> list[Objection]:
    """Pairs that the job needs and that may not be used or are in no record."""
    found: dict[Channel, Objection] = {}
    for speaker in job.speakers:
        needed = speaker.plays if not speaker.existing else (*speaker.plays, speaker.channel)
        for channel in needed:
            if not bands_of(channel, sources.pairs) and channel not in found:
                found[channel] = _missing(channel, speaker.name, sources)
    return list(found.values())


def _on_two_wires(job: Job, sources: Sources) -> list[Objection]:
    """A new speaker has two terminals, and hangs on the wires of one pair."""
    found = []
    for speaker in job.speakers:
        wires = wires_of(speaker, sources.pairs)
        if not speaker.existing and len(wires) > 1:
            because = (
                f"the car leads {' and '.join(wires)} to that place by wires of their own. Give "
                f"{speaker.name} channel: {wires[0]}, and what hangs on the other wire is a "
                f"speaker of its own with channel: {wires[1]}"
            )
            said = f"{speaker.name} would hang on two pairs at once"
            found.append(object_to(said, because, COMMON_PRACTICE))
    return found


def _missing(channel: Channel, speaker: str, sources: Sources) -> Objection:
    barred = [why for name, why in sources.barred.items() if channel in (name, corner_of(name))]
    because = "; ".join(barred) or (
        f"{speaker} needs it, and no complete pair of it is described where it may be tapped"
    )
    return object_to(f"{channel_name(channel)} cannot be used", because, RECORD)
