"""One speaker of a job with all that its levels are worked out from."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSpeaker
from builder.model.parts import Converter
from builder.model.words import Channel
from builder.planning.car.line_feeds import ChannelFeed
from builder.planning.car.output_sums import behind_pad_v_rms, corners_of
from builder.planning.car.selection import LineOutput, Selection, Tap
from builder.planning.car.treatments import sources_of
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.levels.bass_at_tone import ToneSource, bass_at_tone, loudest_at_tone
from builder.planning.levels.gain_setting import SetVolts, set_volts
from builder.planning.levels.pair_tone import Span, shared_tone_hz
from builder.planning.plan import LevelCheck
from builder.planning.words import SpeakerUse


@dataclass(frozen=True, slots=True)
class SpeakerLink:
    """One speaker with all that its chain is made of; `tone` is what its gain acts on."""

    speaker: JobSpeaker
    load: ChannelLoad
    checks: tuple[LevelCheck, ...]
    summed: int
    pad_ohm: float
    at_input_v_rms: float
    volts: SetVolts
    tone_hz: Span
    tone: ToneSource
    heard: ChannelFeed

    @property
    def loudest(self) -> LevelCheck:
        """The loudest of its sources."""
        return max(self.checks, key=lambda check: check.source_v_rms)


def speaker_link(
    speaker: JobSpeaker,
    load: ChannelLoad,
    selection: Selection,
    checks: tuple[LevelCheck, ...],
    converter: Converter,
    defaults: HouseDefaults,
) -> SpeakerLink | None:
    """Return the link of a speaker, or None where one of its sources has no known level."""
    pairs = {tap.pair.channel: tap for tap in selection.taps}
    names = sources_of(speaker, pairs)
    mine = tuple(check for check in checks if check.channel in names)
    if not mine or len(mine) < len(names):
        return None
    loudest = max(mine, key=lambda check: check.source_v_rms)
    use = use_of(speaker, load)
    usual_hz = shared_tone_hz(use, [pairs[name].pair.carries for name in names])
    corrects = speaker.filters is None or speaker.filters.correction != "off"
    tone = _tone_source(
        mine, pairs, converter, usual_hz if use == "sub" else None, corrects=corrects
    )
    return SpeakerLink(
        speaker,
        load,
        mine,
        _summed(names, selection.outputs or ()),
        loudest.pad_ohm_per_leg or 0.0,
        max(behind_pad_v_rms(check) for check in mine),
        set_volts(load.power_w, load.speaker_w, load.load_ohm),
        usual_hz if tone.bass is None else (tone.bass.hz, tone.bass.hz),
        tone,
        selection.heard_by(load.amplifier, load.number),
    )


def _tone_source(
    checks: tuple[LevelCheck, ...],
    pairs: dict[Channel, Tap],
    converter: Converter,
    bass_hz: Span | None,
    *,
    corrects: bool,
) -> ToneSource:
    """What the gain acts on: the loudest pair, for a subwoofer the one loudest at its tone."""
    return loudest_at_tone(
        (
            check.source_v_rms,
            None
            if bass_hz is None
            else bass_at_tone(
                pairs[check.channel].pair.carries, converter, bass_hz, corrects=corrects
            ),
        )
        for check in checks
    )


def _summed(names: tuple[Channel, ...], outputs: tuple[LineOutput, ...]) -> int:
    """How many corners the converter adds up; bands of one corner count once."""
    joined = any(output.joined and set(output.channels) == set(names) for output in outputs)
    return len(corners_of(names)) if joined else 1


def use_of(link_speaker: JobSpeaker, load: ChannelLoad) -> SpeakerUse:
    """Return sub or door: which tone a channel is set with."""
    return "sub" if link_speaker.channel == "sub" or load.group.use == "sub" else "door"
