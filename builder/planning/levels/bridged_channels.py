"""Two channels of an amplifier that drive one load together: what they may see and give."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from builder.model.job import JobSpeaker
from builder.model.parts import Amplifier, AmplifierChannels
from builder.model.parts.amplifier_channels import PowerAt


def group_at(amplifier: Amplifier, number: int) -> AmplifierChannels | None:
    """Return the group of a channel counted from 1 through all groups, or None."""
    groups = [group for group in amplifier.channels for _ in range(group.count)]
    return groups[number - 1] if 1 <= number <= len(groups) else None


def as_driven(group: AmplifierChannels, speaker: JobSpeaker) -> AmplifierChannels:
    """Return the limits that count for a speaker: of one channel, or of two that are bridged.

    Where the record states no bridged figures, each of the two sees half the load: they may drive
    twice what one may, and give twice what one gives into half of it.

    Source: each half of a bridged pair carries the whole current and half the volts.
    """
    if speaker.driven_by.bridged_with is None:
        return group
    if group.bridged is not None:
        return replace(group, power=group.bridged.power, min_ohm=group.bridged.min_ohm)
    power = tuple(PowerAt(ohm=2 * each.ohm, w_rms=2 * each.w_rms) for each in group.power)
    return replace(group, power=power, min_ohm=2 * group.min_ohm)


def why_not_bridged(amplifier: Amplifier, speaker: JobSpeaker, others: Iterable[JobSpeaker]) -> str:
    """Return why the channels of a speaker cannot be bridged, or "".

    `others` are the other speakers of the same amplifier.
    """
    first, second = speaker.amplifier_channel, speaker.driven_by.bridged_with
    if second is None:
        return ""
    name = speaker.amplifier
    groups = group_at(amplifier, first), group_at(amplifier, second)
    if second != first + 1 or groups[0] is None or groups[0] is not groups[1]:
        return f"{first} and {second} of {name} are no two neighbours of one group"
    if groups[0].bridgeable != "yes":
        says = "forbids it" if groups[0].bridgeable == "no" else "does not say that they can be"
        return f"the record of {name} {says}"
    taken = [each for each in others if _uses(each, second) or _apart(each, speaker)]
    if taken:
        return f"{taken[0].name} hangs on channel {taken[0].channel_name} of {name} by itself"
    return ""


def _uses(other: JobSpeaker, channel: int) -> bool:
    return other.amplifier_channel == channel


def _apart(other: JobSpeaker, speaker: JobSpeaker) -> bool:
    """Whether another speaker hangs on the same channel and not on both."""
    same = other.amplifier_channel == speaker.amplifier_channel
    return same and other.driven_by.bridged_with != speaker.driven_by.bridged_with
