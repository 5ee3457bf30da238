"""Levels and gains of a job: each speaker from radio to amplifier, one line level for all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.planning.car.selection import Selection
from builder.planning.job.speaker_links import SpeakerLink, speaker_link, use_of
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.levels.bass_words import bass_steps, correction_note
from builder.planning.levels.gain_setting import ToneReading, tone_reading
from builder.planning.levels.line_gain import LineGain, choose_common_gains, pad_ratio
from builder.planning.levels.line_limits import LineDemand
from builder.planning.pack_details import GainSetting, LevelChain, LevelRung, PackFlag
from builder.planning.plan import LevelCheck
from builder.planning.words import LadderStage, LineFlagKind
from builder.units import gain_factor_db, voltage_ratio_db


@dataclass(frozen=True, slots=True)
class JobLevels:
    """The chains in the order of the job's speakers, and the gains in the order of setting."""

    chains: tuple[LevelChain, ...]
    gains: tuple[GainSetting, ...]
    flags: tuple[PackFlag, ...]


def job_levels(
    selection: Selection,
    checks: tuple[LevelCheck, ...],
    loads: dict[tuple[str, int], ChannelLoad],
    converter: Converter,
    defaults: HouseDefaults,
    shares: Mapping[int, float],
) -> JobLevels:
    """Return every speaker's chain; speakers whose sources have no known level are left out.

    `shares` are what is left of each line output's volts with its inputs joined, by its number.
    """
    links = [
        link
        for load in loads.values()
        for speaker in load.speakers
        if (link := speaker_link(speaker, load, selection, checks, converter, defaults)) is not None
    ]
    if not links:
        return JobLevels((), (), ())
    loaded = [_loaded_share(link, selection, shares) for link in links]
    demands = [_demand(*each, converter) for each in zip(links, loaded, strict=True)]
    lines = choose_common_gains(demands, defaults)
    chains = tuple(
        _chain(link, line, share, converter, defaults)
        for link, line, share in zip(links, lines, loaded, strict=True)
    )
    return JobLevels(
        chains,
        _settings(links, chains, converter),
        tuple(flag for pair in zip(links, lines, strict=True) for flag in _flags(*pair)),
    )


def _loaded_share(
    link: SpeakerLink, selection: Selection, shares: Mapping[int, float]
) -> float | None:
    """The least that is left of the outputs a speaker hears; None where nobody knows."""
    known = [shares[at] for at in selection.outputs_to(link.heard) if at in shares]
    return min(known, default=None)


def _demand(link: SpeakerLink, share: float | None, converter: Converter) -> LineDemand:
    return LineDemand(
        source_v_rms=link.tone.v_rms,
        gain=converter.gain,
        output_max_v_rms=converter.output.max_v_rms,
        sensitivity_min_v_rms=link.load.group.sensitivity.min_v_rms,
        sensitivity_max_v_rms=link.load.group.sensitivity.max_v_rms,
        pad_factor=pad_ratio(converter.input.impedance_ohm, link.pad_ohm),
        summed=link.summed,
        full_v_rms=link.volts.full_v_rms,
        set_v_rms=link.volts.v_rms,
        full_band_ratio=link.tone.full_band_ratio,
        loaded_share=1.0 if share is None else share,
        sum_most=link.heard.most,
        sum_least=link.heard.least,
    )


def _tone(link: SpeakerLink, defaults: HouseDefaults) -> ToneReading:
    overlap = link.speaker.overlap
    use, volts = use_of(link.speaker, link.load), link.volts.v_rms
    return tone_reading(
        volts, use, defaults, quiet_tone=overlap, overlap=overlap, tone_hz=link.tone_hz
    )


def _bass(link: SpeakerLink, line_v_rms: float, read_v_rms: float) -> dict[str, Any]:
    """The fields of a chain that say how its bass was counted, for a pair that has a table."""
    tone = link.tone
    if tone.bass is None:
        return {}
    off = tone.off_ratio if tone.bass.corrected else None
    return {
        "tone_source_v_rms": tone.uncorrected_v_rms,
        "bass_db": tone.bass.source_db,
        "correction": "on" if tone.bass.corrected else "off",
        "correction_off_line_v_rms": off and line_v_rms * off,
        "correction_off_tone_v_rms": off and read_v_rms * off,
    }


def _chain(
    link: SpeakerLink,
    line: LineGain,
    share: float | None,
    converter: Converter,
    defaults: HouseDefaults,
) -> LevelChain:
    tone, loudest, limits = _tone(link, defaults), link.loudest, _demand(link, share, converter)
    return LevelChain(
        speaker=link.speaker.name,
        channels=tuple(check.channel for check in link.checks),
        source_v_rms=loudest.source_v_rms,
        source_basis=loudest.basis,
        pad_ohm_per_leg=link.pad_ohm or None,
        converter_margin_db=min(check.converter_margin_db for check in link.checks),
        sources_summed=link.summed,
        converter_target_v_rms=line.line_v_rms,
        converter_gain=line.gain,
        gain_min=converter.gain.minimum,
        gain_max=converter.gain.maximum,
        amplifier_min_v_rms=limits.least_in_v_rms,
        amplifier_max_v_rms=limits.most_in_v_rms,
        set_v_rms=link.volts.v_rms,
        set_w=link.volts.power_w,
        limited_by=link.volts.limited_by,
        tone_hz=_span(tone),
        tone_v_rms=tone.read_v_rms,
        tone_note=tone.says + correction_note(link.tone, tone.read_v_rms),
        because="; ".join((loudest.because, *bass_steps(link.tone), *line.steps)),
        load_ohm=link.load.load_ohm,
        tone_low_hz=tone.low_hz,
        tone_high_hz=tone.high_hz,
        line_loss_db=None if share is None else -gain_factor_db(share),
        loaded_v_rms=None if share is None else line.line_v_rms * share,
        **_bass(link, line.line_v_rms * (1.0 if share is None else share), tone.read_v_rms),
    )


def _span(tone: ToneReading) -> str:
    if tone.low_hz == tone.high_hz:
        return f"{tone.low_hz:g}"
    return f"{tone.low_hz:g} to {tone.high_hz:g}"


def _settings(
    links: list[SpeakerLink], chains: tuple[LevelChain, ...], converter: Converter
) -> tuple[GainSetting, ...]:
    """Doors first, the subwoofer last: it is matched to them by ear afterwards, downwards only."""
    paired = sorted(zip(links, chains, strict=True), key=lambda both: _is_sub(both[0]))
    return tuple(
        GainSetting(
            link.speaker.name,
            link.speaker.channel,
            link.speaker.amplifier,
            link.speaker.amplifier_channel,
            _rungs(link, chain, converter),
            link.speaker.driven_by.bridged_with,
        )
        for link, chain in paired
    )


def _is_sub(link: SpeakerLink) -> bool:
    return use_of(link.speaker, link.load) == "sub"


def _rungs(link: SpeakerLink, chain: LevelChain, converter: Converter) -> tuple[LevelRung, ...]:
    line = chain.converter_target_v_rms
    steps: tuple[tuple[LadderStage, float | None, float], ...] = (
        ("converter input", link.at_input_v_rms, link.loudest.converter_max_v_rms),
        ("converter output", line, converter.output.max_v_rms),
        ("amplifier input", line, chain.amplifier_max_v_rms),
        ("speaker", chain.set_v_rms, link.volts.full_v_rms),
    )
    return tuple(
        LevelRung(name, now, most, voltage_ratio_db(most, now)) for name, now, most in steps if now
    )


def _unit(kind: LineFlagKind) -> str:
    return "" if kind == "gain_out_of_range" else "V"


def _flags(link: SpeakerLink, line: LineGain) -> list[PackFlag]:
    where = link.speaker.name
    return [
        PackFlag(flag.kind, where, flag.says, flag.value, flag.limit, _unit(flag.kind))
        for flag in line.flags
    ]
