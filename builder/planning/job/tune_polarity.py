"""How a channel is turned at first: for filters that would cancel, and for what the car turned."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from builder.model.names import channel_name
from builder.model.recorded_sound import RecordedBetween
from builder.model.sound import SpeakerChannel
from builder.planning.job.tune_channel import TunedChannel
from builder.planning.levels.starting_filters import Part
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, JOB_RECORD, RECORDING

IN_STEP_DB = 12
"""Two filters of twelve decibels at one corner are half a turn apart, of 24 a whole one."""
_PARTNERS: dict[Part, tuple[Part, ...]] = {"sub": ("full", "low"), "high": ("low",)}
"""Which channels play beside one at its corner, and decide how it is turned."""

Carried = Mapping[str, Sequence[SpeakerChannel | None]]


@dataclass(frozen=True, slots=True)
class CarTurned:
    """Two pairs of the car that were recorded together, and what that told of them."""

    one: SpeakerChannel
    other: SpeakerChannel
    told: RecordedBetween


def recorded_together(
    ones: Sequence[SpeakerChannel | None], others: Sequence[SpeakerChannel | None]
) -> CarTurned | None:
    """Return a pair of each of two speakers whose polarity one recording told; None without."""
    for one in ones:
        for other in others:
            if one is None or one.heard is None or other is None:
                continue
            told = one.heard.beside.get(other.channel)
            if told is not None and told.polarity != "unknown":
                return CarTurned(one, other, told)
    return None


def with_polarity(
    channel: TunedChannel, others: Sequence[TunedChannel], carried: Carried
) -> TunedChannel:
    """Return a channel with the polarity that it begins with; what the job says goes first.

    Args:
        channel: The channel.
        others: All channels of the job in the order of its sheet, this one among them.
        carried: The car's pairs that each speaker plays, by its name.
    """
    stated = channel.speaker.filters
    if stated is not None and stated.polarity is not None:
        said = Reason(f"polarity {stated.polarity}", "the job says so", JOB_RECORD)
        return replace(channel, polarity=stated.polarity, because=(*channel.because, said))
    reasons = [
        each for each in (_by_slope(channel, others), _by_car(channel, others, carried)) if each
    ]
    if not reasons:
        said = Reason("polarity normal", "what is louder at the corner stays", COMMON_PRACTICE)
        return replace(channel, because=(*channel.because, said))
    if len(reasons) > 1:
        because = f"{reasons[0].because}; {reasons[1].because}: two turns are none"
        said = Reason("polarity normal", because, RECORDING)
        return replace(channel, because=(*channel.because, said))
    return replace(channel, polarity="inverted", because=(*channel.because, reasons[0]))


def _by_slope(channel: TunedChannel, others: Sequence[TunedChannel]) -> Reason | None:
    """Turned round where two equal filters would cancel.

    Source: two second-order filters at one corner are 180° apart (Linkwitz 1976, memory).
    """
    beside = [each for each in others if each.part in _PARTNERS.get(channel.part, ())]
    slope = channel.slope_db_per_octave
    equal = beside and all(each.slope_db_per_octave == slope for each in beside)
    if not (equal and (slope // IN_STEP_DB) % 2 and slope % IN_STEP_DB == 0):
        return None
    because = (
        f"two filters of {slope} dB at one corner are half a turn apart; what is "
        f"louder at the corner stays{_by_hand(channel)}"
    )
    return Reason("polarity inverted", because, "Linkwitz 1976 (memory)")


def _by_car(
    channel: TunedChannel, others: Sequence[TunedChannel], carried: Carried
) -> Reason | None:
    """Turned back where the car turned its pair over against one of an earlier channel.

    Only of pairs that play alike: between two halves of a crossover a turn may belong to it.
    """
    for each in others:
        if each.speaker.name == channel.speaker.name:
            return None
        found = recorded_together(carried[channel.speaker.name], carried[each.speaker.name])
        if found is not None and found.told.plays == "alike":
            return _turned_back(channel, found) if found.told.polarity == "inverted" else None
    return None


def _turned_back(channel: TunedChannel, found: CarTurned) -> Reason:
    because = (
        f"the car plays {channel_name(found.one.channel)} turned over against "
        f"{channel_name(found.other.channel)}{_by_hand(channel)}"
    )
    return Reason("polarity inverted", because, RECORDING)


def _by_hand(channel: TunedChannel) -> str:
    offered = channel.offered.filters
    if offered is not None and offered.polarity_switch == "yes":
        return ""
    return "; without a switch for it, + and − change places at the amplifier's output"
