"""What a job does with each factory pair, worked out from the job and its vehicle alone.

Rules need this also where no tap plan could be made, so it does not come from the plan.
"""

from __future__ import annotations

from builder.findings import DataPath
from builder.model.job import Job, JobSpeaker
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import Channel, Treatment
from builder.planning.car.output_sums import corner_of
from builder.planning.car.pairs import Pair, find_pairs
from builder.planning.car.sources import at_the_right_unit
from builder.planning.work_pack import JobParts


def returns_to(speaker: JobSpeaker, vehicle: Vehicle) -> tuple[Channel, ...]:
    """The factory pairs whose wires lead to this speaker; none for one on new wires.

    A speaker of a split corner hangs on the woofer's and the tweeter's wires.
    """
    if not speaker.existing and speaker.existing_lead is None:
        return ()
    split = tuple(
        each.channel
        for each in vehicle.channels
        if each.channel != speaker.channel and corner_of(each.channel) == speaker.channel
    )
    bands = tuple(name for name in split if name in speaker.plays)
    if bands:
        return bands
    known = vehicle.channel(speaker.channel) is not None
    return (speaker.channel,) if known else split


def returned(parts: JobParts) -> frozenset[Channel]:
    """The factory pairs that a new amplifier drives through the car's own wires."""
    speakers = parts.job.speakers
    return frozenset(name for each in speakers for name in returns_to(each, parts.vehicle))


def replaced(parts: JobParts) -> frozenset[Channel]:
    """The pairs, with their bands, whose speaker a new one on new wires stands in for."""
    corners = {
        each.channel for each in parts.job.speakers if each.lead is not None and not each.existing
    }
    return frozenset(
        each.channel
        for each in parts.vehicle.channels
        if each.channel in corners or corner_of(each.channel) in corners
    )


def played(job: Job) -> tuple[Channel, ...]:
    """The factory pairs whose sound the job uses, each once, in the order of the job."""
    return tuple(dict.fromkeys(name for each in job.speakers for name in each.plays))


def treatments(parts: JobParts) -> dict[Channel, Treatment]:
    """What is done with each pair.

    What the job states, else: a pair whose speaker a new amplifier will drive is broken, one
    whose sound is used otherwise is listened to.
    """
    broken, heard = returned(parts), played(parts.job)
    auto: dict[Channel, Treatment] = {
        name: "intercept" if name in broken else "addon" for name in (*heard, *broken)
    }
    return auto | parts.job.treatment


def broken_pairs(parts: JobParts) -> tuple[Channel, ...]:
    """The pairs that are cut, in the order of the vehicle record."""
    done = treatments(parts)
    names = dict.fromkeys(each.channel for each in parts.vehicle.channels)
    return tuple(name for name in names if done.get(name) == "intercept")


def pairs_of(parts: JobParts) -> dict[Channel, Pair]:
    """The complete pairs at the unit that drives the speakers, by channel."""
    found = find_pairs(parts.vehicle, parts.shelf.defaults)
    right = [pair for pair in found if at_the_right_unit(parts.vehicle, pair)]
    return {pair.channel: pair for pair in reversed(right)}


def sound_of(parts: JobParts, name: Channel) -> SpeakerChannel | None:
    """What the record says of a pair, or None."""
    return next((each for each in parts.vehicle.channels if each.channel == name), None)


def use_path(job: Job, name: Channel) -> DataPath:
    """Where the job first names a pair: in `from` of a speaker, else under `treatment`."""
    for speaker in job.speakers:
        if name in speaker.plays:
            index = next(i for i, channel in enumerate(speaker.plays) if channel == name)
            return (*speaker.path, "from", index)
    return treatment_path(job, name)


def treatment_path(job: Job, name: Channel) -> DataPath:
    """Where the job says what is done with a pair; `treatment` as a whole when it leaves that."""
    stated = any(channel == name for channel in job.treatment)
    return ("treatment", name) if stated else ("treatment",)
