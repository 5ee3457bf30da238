"""What each amplifier channel of a job drives: its load, its power, what its speakers take."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job, JobSpeaker
from builder.model.parts import Amplifier, AmplifierChannels
from builder.planning.car.output_sums import corner_of
from builder.planning.levels.bridged_channels import as_driven, group_at, why_not_bridged
from builder.planning.levels.gain_setting import amplifier_power_w
from builder.planning.levels.speaker_loads import side_by_side_ohm
from builder.planning.objections import Objection, object_to
from builder.planning.power.supply import efficiency_of, full_current_a
from builder.planning.tables import AMPLIFIER_RECORD, COMMON_PRACTICE
from builder.units import Amperes, Ohms, Watts


@dataclass(frozen=True, slots=True)
class ChannelLoad:
    """One amplifier channel in use, or two bridged ones, told by the first.

    `speaker_w` is what the channel may put into its load, `group` has the limits that count for it.
    """

    amplifier: str
    number: int
    group: AmplifierChannels
    speakers: tuple[JobSpeaker, ...]
    load_ohm: Ohms
    power_w: Watts
    speaker_w: Watts


def channel_loads(
    job: Job, amplifiers: Mapping[str, Amplifier]
) -> tuple[dict[tuple[str, int], ChannelLoad], list[Objection]]:
    """Return the channels in use by (amplifier, number), and why some cannot be used."""
    loads: dict[tuple[str, int], ChannelLoad] = {}
    objections: list[Objection] = []
    for (name, number), speakers in _by_channel(job).items():
        amplifier = amplifiers.get(name)
        group = None if amplifier is None else group_at(amplifier, number)
        if amplifier is None or group is None:
            found: ChannelLoad | Objection = _no_such_channel(name, number, amplifier)
        elif against := _not_bridged(job, amplifier, speakers):
            found = object_to("the channels cannot be bridged", against, AMPLIFIER_RECORD)
        else:
            found = _load(name, number, as_driven(group, speakers[0]), speakers)
        if isinstance(found, Objection):
            objections.append(found)
        else:
            loads[name, number] = found
    return loads, objections


def amplifier_current_a(
    name: str,
    amplifier: Amplifier,
    loads: Mapping[tuple[str, int], ChannelLoad],
    defaults: HouseDefaults,
) -> Amperes:
    """Return what an amplifier draws at full power of its channels in use; 0 without one. [A]"""
    watts: dict[float, Watts] = {}
    for load in loads.values():
        if load.amplifier == name and load.power_w > 0:
            share = efficiency_of(amplifier, load.group, defaults)
            watts[share] = watts.get(share, 0.0) + load.power_w
    return sum(full_current_a(power_w, share, defaults) for share, power_w in watts.items())


def _by_channel(job: Job) -> dict[tuple[str, int], tuple[JobSpeaker, ...]]:
    found: dict[tuple[str, int], tuple[JobSpeaker, ...]] = {}
    for speaker in job.speakers:
        key = (speaker.amplifier, speaker.amplifier_channel)
        found[key] = (*found.get(key, ()), speaker)
    return found


def _not_bridged(job: Job, amplifier: Amplifier, speakers: tuple[JobSpeaker, ...]) -> str:
    """Why the channels of these speakers cannot be bridged as the job says, or ""."""
    first = speakers[0]
    others = [each for each in job.speakers if each.amplifier == first.amplifier]
    return next(
        (
            against
            for each in speakers
            if (against := why_not_bridged(amplifier, each, [o for o in others if o is not each]))
        ),
        "",
    )


def _no_such_channel(name: str, number: int, amplifier: Amplifier | None) -> Objection:
    if amplifier is None:
        because = f"the job has no amplifier of the name {name}"
    else:
        count = sum(group.count for group in amplifier.channels)
        because = f"{name} has {count} channels, the job drives a speaker from channel {number}"
    return object_to("no such amplifier channel", because, AMPLIFIER_RECORD)


def _load(
    name: str, number: int, group: AmplifierChannels, speakers: tuple[JobSpeaker, ...]
) -> ChannelLoad | Objection:
    if len({frozenset(speaker.plays) for speaker in speakers}) > 1:
        names = " and ".join(speaker.name for speaker in speakers)
        because = f"{names} hang on channel {number} of {name} and are to play different pairs"
        return object_to("one channel cannot play two things", because, COMMON_PRACTICE)
    load = load_ohm(speakers)
    if load < group.min_ohm * (1 - 1e-9):
        because = (
            f"{shown(load, beside=group.min_ohm)} Ω on channel {speakers[0].channel_name} of "
            f"{name}, which may drive {shown(group.min_ohm)} Ω at least. Wire the coils otherwise"
        )
        return object_to("the load is too low", because, AMPLIFIER_RECORD)
    power = amplifier_power_w(group.power_w, load, group.min_ohm)
    speaker_w = min(each.rated_w_rms * each.nominal_ohm for each in speakers) / load
    return ChannelLoad(name, number, group, speakers, load, power, speaker_w)


def load_ohm(speakers: tuple[JobSpeaker, ...]) -> Ohms:
    """Speakers side by side; bands of one corner sit behind a crossover and share no current."""
    bands = {speaker.channel for speaker in speakers}
    corners = {corner_of(channel) for channel in bands}
    if len(corners) == 1 and len(bands) == len(speakers) > 1:
        return min(speaker.nominal_ohm for speaker in speakers)
    return side_by_side_ohm(speaker.nominal_ohm for speaker in speakers)
