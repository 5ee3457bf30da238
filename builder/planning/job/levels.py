"""Levels and gains of a job: each speaker from radio to amplifier, one line level for all."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSpeaker
from builder.model.parts import Converter
from builder.planning.car.output_sums import behind_pad_v_rms, corners_of
from builder.planning.car.selection import LineOutput, Selection
from builder.planning.car.treatments import sources_of
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.levels.gain_setting import SetVolts, ToneReading, set_volts, tone_reading
from builder.planning.levels.line_gain import LineDemand, LineGain, choose_common_gains, pad_ratio
from builder.planning.levels.pair_tone import Span, shared_tone_hz
from builder.planning.pack_details import GainSetting, LevelRung, PackFlag
from builder.planning.plan import LevelCheck
from builder.planning.work_pack import LevelChain
from builder.units import voltage_ratio_db


@dataclass(frozen=True, slots=True)
class JobLevels:
    """The chains in the order of the job's speakers, and the gains in the order of setting."""

    chains: tuple[LevelChain, ...]
    gains: tuple[GainSetting, ...]
    flags: tuple[PackFlag, ...]


@dataclass(frozen=True, slots=True)
class _Link:
    """One speaker with all that its chain is made of."""

    speaker: JobSpeaker
    load: ChannelLoad
    checks: tuple[LevelCheck, ...]
    summed: int
    pad_ohm: float
    at_input_v_rms: float
    volts: SetVolts
    tone_hz: Span

    @property
    def loudest(self) -> LevelCheck:
        return max(self.checks, key=lambda check: check.source_v_rms)


def job_levels(
    selection: Selection,
    checks: tuple[LevelCheck, ...],
    loads: dict[tuple[str, int], ChannelLoad],
    converter: Converter,
    defaults: HouseDefaults,
) -> JobLevels:
    """Return every speaker's chain; speakers whose sources have no known level are left out."""
    links = [
        link
        for load in loads.values()
        for speaker in load.speakers
        if (link := _link(speaker, load, selection, checks, converter, defaults)) is not None
    ]
    if not links:
        return JobLevels((), (), ())
    demands = [_demand(link, converter) for link in links]
    lines = choose_common_gains(demands, defaults)
    chains = tuple(
        _chain(link, line, converter, defaults) for link, line in zip(links, lines, strict=True)
    )
    return JobLevels(
        chains,
        _settings(links, chains, converter),
        tuple(flag for pair in zip(links, lines, strict=True) for flag in _flags(*pair)),
    )


def _link(
    speaker: JobSpeaker,
    load: ChannelLoad,
    selection: Selection,
    checks: tuple[LevelCheck, ...],
    converter: Converter,
    defaults: HouseDefaults,
) -> _Link | None:
    pairs = {tap.pair.channel: tap for tap in selection.taps}
    names = sources_of(speaker, pairs)
    mine = tuple(check for check in checks if check.channel in names)
    if not mine or len(mine) < len(names):
        return None
    loudest = max(mine, key=lambda check: check.source_v_rms)
    return _Link(
        speaker,
        load,
        mine,
        _summed(names, selection.outputs or ()),
        loudest.pad_ohm_per_leg or 0.0,
        max(behind_pad_v_rms(check, converter) for check in mine),
        set_volts(load.power_w, load.speaker_w, load.load_ohm),
        shared_tone_hz(use_of(speaker, load), [pairs[name].pair.carries for name in names]),
    )


def _summed(names: tuple[str, ...], outputs: tuple[LineOutput, ...]) -> int:
    """How many corners the converter adds up; bands of one corner count once."""
    joined = any(output.joined and set(output.channels) == set(names) for output in outputs)
    return len(corners_of(names)) if joined else 1


def _demand(link: _Link, converter: Converter) -> LineDemand:
    return LineDemand(
        source_v_rms=link.loudest.source_v_rms,
        gain=converter.gain,
        output_max_v_rms=converter.output_max_v_rms,
        sensitivity_min_v_rms=link.load.group.sensitivity_min_v_rms,
        sensitivity_max_v_rms=link.load.group.sensitivity_max_v_rms,
        pad_factor=pad_ratio(converter.input.impedance_ohm, link.pad_ohm),
        summed=link.summed,
        full_v_rms=link.volts.full_v_rms,
        set_v_rms=link.volts.v_rms,
    )


def use_of(link_speaker: JobSpeaker, load: ChannelLoad) -> str:
    """Return sub or door: which tone a channel is set with."""
    return "sub" if link_speaker.channel == "sub" or load.group.use == "sub" else "door"


def _tone(link: _Link, defaults: HouseDefaults) -> ToneReading:
    overlap = link.speaker.overlap
    use, volts = use_of(link.speaker, link.load), link.volts.v_rms
    return tone_reading(
        volts, use, defaults, quiet_tone=overlap, overlap=overlap, tone_hz=link.tone_hz
    )


def _chain(
    link: _Link, line: LineGain, converter: Converter, defaults: HouseDefaults
) -> LevelChain:
    tone, group, loudest = _tone(link, defaults), link.load.group, link.loudest
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
        amplifier_min_v_rms=group.sensitivity_min_v_rms,
        amplifier_max_v_rms=group.sensitivity_max_v_rms,
        set_v_rms=link.volts.v_rms,
        set_w=link.volts.power_w,
        limited_by=link.volts.limited_by,
        tone_hz=_span(tone),
        tone_v_rms=tone.read_v_rms,
        tone_note=tone.says,
        because="; ".join((loudest.because, *line.steps)),
        load_ohm=link.load.load_ohm,
        tone_low_hz=tone.low_hz,
        tone_high_hz=tone.high_hz,
    )


def _span(tone: ToneReading) -> str:
    if tone.low_hz == tone.high_hz:
        return f"{tone.low_hz:g}"
    return f"{tone.low_hz:g} to {tone.high_hz:g}"


def _settings(
    links: list[_Link], chains: tuple[LevelChain, ...], converter: Converter
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
        )
        for link, chain in paired
    )


def _is_sub(link: _Link) -> bool:
    return use_of(link.speaker, link.load) == "sub"


def _rungs(link: _Link, chain: LevelChain, converter: Converter) -> tuple[LevelRung, ...]:
    line = chain.converter_target_v_rms or 0.0
    steps = (
        ("converter input", link.at_input_v_rms, link.loudest.converter_max_v_rms),
        ("converter output", line, converter.output_max_v_rms),
        ("amplifier input", line, chain.amplifier_max_v_rms),
        ("speaker", chain.set_v_rms, link.volts.full_v_rms),
    )
    return tuple(
        LevelRung(name, now, most, voltage_ratio_db(most, now)) for name, now, most in steps if now
    )


def _flags(link: _Link, line: LineGain) -> list[PackFlag]:
    where = link.speaker.name
    units = {"gain_out_of_range": ""}
    return [
        PackFlag(flag.kind, where, flag.says, flag.value, flag.limit, units.get(flag.kind, "V"))
        for flag in line.flags
    ]
