"""The tune sheet of a job: what each channel starts with, and what its meter reads afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.model.parts import Converter
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.planning.job.tune_channel import TunedChannel, tuned_channel
from builder.planning.job.tune_delay import Arrivals, arrivals_of, delayed, held_back
from builder.planning.job.tune_heard import heard_tune
from builder.planning.job.tune_polarity import with_polarity
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.levels.filter_loss import passed
from builder.planning.levels.offered_filters import Offered
from builder.planning.levels.starting_filters import part_of
from builder.planning.pack_details import GainSetting, LevelChain
from builder.planning.tune_sheet import TuneRow
from builder.planning.words import SpeakerUse


@dataclass(frozen=True, slots=True)
class TuneWork:
    """What the sheet is made from: levels and gains as set with flat filters."""

    chains: tuple[LevelChain, ...]
    gains: tuple[GainSetting, ...]
    loads: Mapping[tuple[str, int], ChannelLoad]
    vehicle: Vehicle
    converter: Converter


def tune_rows(work: TuneWork) -> tuple[TuneRow, ...]:
    """Return one row a speaker, in the order in which the gains are set."""
    chains = {chain.speaker: chain for chain in work.chains}
    found = [_channel(work, gain, chains[gain.speaker]) for gain in work.gains]
    carried = _carried(work)
    turned = [with_polarity(each, found, carried) for each in found]
    return tuple(
        _row(work, gain, chains[gain.speaker], channel)
        for gain, channel in zip(work.gains, turned, strict=True)
    )


def _channel(work: TuneWork, gain: GainSetting, chain: LevelChain) -> TunedChannel:
    load = work.loads[gain.amplifier, gain.amplifier_channel]
    speaker = next(each for each in load.speakers if each.name == gain.speaker)
    carried = _carried(work)[chain.speaker]
    carries = carried[0] if len(carried) == 1 else None
    use: SpeakerUse = "sub" if gain.channel == "sub" or load.group.use == "sub" else "door"
    at_converter = work.converter.filters is not None
    offered = (
        Offered(work.converter.name, work.converter.filters)
        if at_converter
        else Offered(gain.amplifier, load.group.filters)
    )
    with_sub = any(each.channel == "sub" for each in work.gains)
    part = part_of(speaker, carries, use)
    made = tuned_channel(speaker, part, carries, offered, with_sub=with_sub)
    return delayed(made, _arrivals(work), work.converter)


def _arrivals(work: TuneWork) -> Arrivals:
    speakers = [each for load in work.loads.values() for each in load.speakers]
    carried = _carried(work)
    return arrivals_of([each for each in speakers if each.name in carried], carried)


def _carried(work: TuneWork) -> dict[str, list[SpeakerChannel | None]]:
    """The car's pairs that each speaker plays, by its name."""
    return {
        chain.speaker: [work.vehicle.channel(each) for each in chain.channels]
        for chain in work.chains
    }


def _row(work: TuneWork, gain: GainSetting, chain: LevelChain, channel: TunedChannel) -> TuneRow:
    low, high = chain.tone_low_hz or 1000.0, chain.tone_high_hz or 1000.0
    shares = [passed(channel.filters, hz) for hz in (low, high)]
    stated = channel.speaker.filters
    asked_for = stated.correction if stated else None
    heard = heard_tune(channel, _carried(work)[chain.speaker], work.converter)
    return TuneRow(
        speaker=gain.speaker,
        amplifier=gain.amplifier,
        channel=gain.channel_name,
        set_at=channel.offered.device,
        high_pass_hz=channel.filters.high_pass_hz,
        low_pass_hz=channel.filters.low_pass_hz,
        subsonic_hz=channel.filters.subsonic_hz,
        slope_db_per_octave=channel.slope_db_per_octave,
        polarity=channel.polarity,
        delay_ms=channel.delay_ms,
        delay_at=channel.delay_at,
        held_back=held_back(_carried(work)[chain.speaker], work.converter),
        correction=asked_for or chain.correction,
        tone_v_rms=chain.tone_v_rms,
        again_least_v_rms=chain.tone_v_rms * min(least for least, _ in shares),
        again_most_v_rms=chain.tone_v_rms * max(most for _, most in shares),
        correction_off_line_v_rms=chain.correction_off_line_v_rms,
        correction_off_tone_v_rms=chain.correction_off_tone_v_rms,
        equaliser=heard.equaliser,
        all_pass_order=heard.all_pass.order if heard.all_pass else None,
        all_pass_hz=heard.all_pass.corner_hz.value if heard.all_pass else None,
        stays=heard.stays,
        asked=channel.asked,
        because=(*channel.because, *heard.because),
    )
