"""Lines that read each level of the way from radio to amplifier, at one volume."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.figures import read_as
from builder.model.names import channel_name
from builder.model.parts import Converter
from builder.model.sound import SpeakerChannel
from builder.model.words import Channel
from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.bay.looked_at import cavities_of, line_outputs_of
from builder.planning.bay.work import BayWork
from builder.planning.circuit.terminal_names import SIGNS, pair_input
from builder.planning.levels.bass_at_tone import bass_at_tone
from builder.planning.levels.fitted_pads import FittedPad, fitted_pads
from builder.planning.levels.loudest_step import FOUND_BY, at_step, loudest_step
from builder.planning.levels.pair_tone import Span, pair_tone_hz, tone_words
from builder.planning.pack_details import LevelChain
from builder.planning.power.tables import BASS_TONE_HZ
from builder.planning.work_pack import BayTest
from builder.units import db_to_ratio


def level_tests(work: BayWork) -> Iterator[BayTest]:
    """Each pair with a tone that its own band carries, and each line output with one of those."""
    vehicle = work.parts.vehicle
    carried = {tap.pair.channel: tap.pair.carries for tap in work.selection.taps}
    step = loudest_step(vehicle, work.parts.job)
    if step is None:
        yield _step_test(work)
    for check in work.plan.levels:
        carries = carried.get(check.channel) or vehicle.channel(check.channel)
        tone, share = _pair_tone(carries, work.parts.converter)
        where, probes = _read_at(work, check.channel) or (
            _end(carries), cavities_of(work, check.channel)
        )  # fmt: skip
        low, _ = _around((check.read_v_rms or check.source_v_rms) * share)
        _, high = _around(check.source_v_rms * share)
        yield measure(
            speakable(check.channel, "pair level"), "level",
            f"pair {channel_name(check.channel)} {where}, {tone_words(tone)} tone at "
            f"{at_step(step)}",
            "radio_on_tone", "ac_v", low, high, "what every level after it was computed from",
            probes,
        )  # fmt: skip
    for pad in fitted_pads(work.plan.levels, work.parts.converter):
        tone, share = _pair_tone(carried.get(pad.channel), work.parts.converter)
        yield _padded_test(pad, tone_words(tone), share)
        if work.plan.turn_on.pair == pad.channel and work.plan.turn_on.kind == "offset_wake":
            yield _wake_test(pad, work.parts.converter)
    lines: dict[tuple[tuple[str, ...], str], list[LevelChain]] = {}
    for chain in work.chains:
        if chain.converter_target_v_rms is not None:
            outputs = line_outputs_of(work, chain)
            lines.setdefault((outputs, _line_tone(chain)), []).append(chain)
    done: set[str] = set()
    for (outputs, played), chains in lines.items():
        to = _set_to(chains[0]) if not {*outputs} <= done else ""
        done |= {*outputs}
        yield _line_test(chains, played, to, outputs)


def _step_test(work: BayWork) -> BayTest:
    """What finds the step where nobody wrote it down: a pair at the level that the plan counts."""
    check = work.plan.levels[0]
    volts = check.read_v_rms or check.source_v_rms
    low, high = _around(volts)
    return measure(
        FOUND_BY, "level",
        f"volume up step by step until pair {channel_name(check.channel)} reads {volts:.2f} V or "
        "its sine begins to flatten, whichever comes first; then one step back if it flattened: "
        "write that step down, here and on the customer's sheet, and the volts", "radio_on_tone",
        "ac_v", low, high,
        "every level and gain after it is read and set at this step; a sine that flattens below it "
        "means that the plan counts too much: its volts go into the car's record, then plan again",
        since=WITH_THE_CIRCUIT,
    )  # fmt: skip


def _pair_tone(carries: SpeakerChannel | None, converter: Converter) -> tuple[Span, float]:
    """The tone for a pair, and its volts there over its loudest: a bass tone may come weaker."""
    tone = pair_tone_hz(carries)
    bass = bass_at_tone(carries, converter, tone, corrects=False) if tone == BASS_TONE_HZ else None
    return (
        (tone, 1.0) if bass is None else ((bass.hz, bass.hz), db_to_ratio(min(0.0, bass.source_db)))
    )


def _padded_test(pad: FittedPad, played: str, share: float) -> BayTest:
    low, high = _around(pad.behind_v_rms * share)
    return measure(
        speakable(pad.channel, "padded level"), "level",
        f"converter input {channel_name(pad.channel)} behind its pad, {played} tone, same step",
        "radio_on_tone",
        "ac_v", low, min(high, pad.input_max_v_rms),
        "more is a pad that is missing or wrong, and overdrives the input",
    )  # fmt: skip


def _line_tone(chain: LevelChain) -> str:
    """The tone that sets the channel's gain, and with a correction what the line reads without."""
    low, high = chain.tone_low_hz, chain.tone_high_hz
    assert low is not None and high is not None, "a chain is set with a tone"
    off = chain.correction_off_line_v_rms
    read = "" if off is None else f"off it reads {read_as(off, 'V')} V"
    said = f" with the converter's correction on ({read})" if read else ""
    return f"{tone_words((low, high))} tone{said}"


def _wake_test(pad: FittedPad, converter: Converter) -> BayTest:
    """Nobody records an input's ohms to ground, so what a pad leaves of a bias is read."""
    return measure(
        speakable(pad.channel, "padded bias"), "silence",
        f"converter input {channel_name(pad.channel)} behind its pad, each leg to ground",
        "radio_on_zero",
        "dc_v", converter.offset_wake_min_v, None,
        "the converter wakes from this; less and it stays asleep, so give it a turn-on wire",
    )  # fmt: skip


def _read_at(work: BayWork, channel: Channel) -> tuple[str, tuple[str, ...]] | None:
    """Where a pair is read that goes through a loom: its plug is in the radio and taped, so at the
    converter's terminals, which are the same two wires; None where there is neither loom nor way
    without a resistor between."""
    padded = {pad.channel for pad in fitted_pads(work.plan.levels, work.parts.converter)}
    taps = [tap for tap in work.selection.taps if tap.pair.channel == channel]
    if channel in padded or not any(t.pair.positive.plug.id in work.looms for t in taps):
        return None
    converter, number = work.parts.converter.name, taps[0].converter_input
    ends = tuple(pair_input(converter, number, sign) for sign in SIGNS)
    return f"at {converter} in {number}", ends


def _end(carries: SpeakerChannel | None) -> str:
    behind = carries is not None and carries.driven_by == "amplifier"
    return "at the factory amplifier" if behind else "at the radio end"


def _set_to(chain: LevelChain) -> str:
    """What the converter's gain is turned up to, with what hangs on the output; "" where fixed."""
    if chain.gain_min == chain.gain_max:
        return ""
    return f"; its gain up until it reads {read_as(_read_on_line(chain), 'V')} V"


def _read_on_line(chain: LevelChain) -> float:
    """What the output reads at its gain, with what hangs on it where that is known. [V RMS]"""
    target = chain.loaded_v_rms or chain.converter_target_v_rms
    assert target is not None, "a line that is read has a target"
    return target


def _line_test(
    chains: Sequence[LevelChain], played: str, to: str, outputs: tuple[str, ...]
) -> BayTest:
    """One line for all that the same outputs feed: they are the same terminals."""
    chain, names = chains[0], " and ".join(each.speaker for each in chains)
    low, high = _around(_read_on_line(chain))
    off = chain.correction_off_line_v_rms
    if (
        off is not None
    ):  # what it reads with the correction off fails: half way, in dB, is the limit
        low = max(low, (off * _read_on_line(chain)) ** 0.5)
    centres = outputs[::2]  # each is read against the shield beside it
    return measure(
        speakable(chain.speaker, "line level"), "level",
        f"{' and '.join(centres)}, line output for {names}: {played}{to or ', same step'}",
        "radio_on_tone", "ac_v",
        low, min(high, chain.amplifier_max_v_rms),
        "more clips the amplifier's input, less brings up the hiss", outputs,
    )  # fmt: skip


def _around(volts: float) -> tuple[float, float]:
    return volts * (1 - bands.LEVEL_BAND), volts * (1 + bands.LEVEL_BAND)
