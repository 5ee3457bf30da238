"""Tests with everything connected and the trim still off: turn-on, supply, levels, gains, ears."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay import bands
from builder.planning.bay.crossover_tests import band_tests
from builder.planning.bay.feed_tests import feed_tests
from builder.planning.bay.ids import speakable
from builder.planning.bay.level_tests import level_tests
from builder.planning.bay.line import measure, tick
from builder.planning.bay.looked_at import driven_speakers
from builder.planning.bay.second_battery_lines import second_battery_tests
from builder.planning.bay.supply_tests import supply_tests
from builder.planning.bay.tune_tests import corner_tests, tune_tests
from builder.planning.bay.turn_on_tests import turn_on_tests
from builder.planning.bay.work import BayWork, fader_end
from builder.planning.car.heard_ends import ENDS
from builder.planning.circuit.model import Circuit
from builder.planning.circuit.terminal_names import (
    LEAD_TO_MAIN_FUSE,
    channel_of,
    legs_of,
    supply_wire,
)
from builder.planning.levels.loudest_step import at_step, loudest_step
from builder.planning.pack_details import LevelChain
from builder.planning.power.idle_current import idle_a, idle_limits_a
from builder.planning.work_pack import BayTest, JobParts


def bench_tests(work: BayWork, circuit: Circuit) -> Iterator[BayTest]:
    """Yield what is measured with everything connected and the trim still off."""
    yield from turn_on_tests(work)
    yield from feed_tests(work, circuit)
    yield _idle_test(work)
    yield from _silence_tests(work.parts)
    yield from level_tests(work)
    yield from _gain_tests(work)
    yield from tune_tests(work.tune, corrects=_corrects(work))
    yield from band_tests(work)
    for name in work.parts.amplifiers:  # with loud music, so after the filters
        yield from supply_tests(work, name)
    yield from second_battery_tests(work)
    yield from _sound_tests(work)


def _corrects(work: BayWork) -> bool:
    """Whether the converter has a correction and no gain is read with it: no level tells of it."""
    told = any(chain.correction_off_tone_v_rms is not None for chain in work.chains)
    return work.parts.converter.bass_rolloff_correction is not None and not told


def _idle_test(work: BayWork) -> BayTest:
    where = f"clamp round the {LEAD_TO_MAIN_FUSE}"
    if work.plan.supplied_at:
        where += f", then round the {supply_wire(work.parts.converter.name)}, both added"
    return measure(
        "idle-current", "idle", f"main fuse in, volume 0, {where}: what everything added draws",
        "radio_on_zero", "a", *idle_limits_a(idle_a(work.parts)),
        "more is a short or an output that is shorted, less is something not on",
    )  # fmt: skip


def _silence_tests(parts: JobParts) -> Iterator[BayTest]:
    if parts.converter.kind != "active":
        return
    yield measure(
        "line-noise", "silence", "each line output of the converter, AC", "radio_on_zero", "ac_v",
        None, bands.SILENT_MAX_AC_V, "hum or hiss before the amplifier only gets louder",
    )  # fmt: skip
    yield measure(
        "line-dc", "silence", "each line output of the converter, DC", "radio_on_zero", "dc_v",
        -bands.SILENT_MAX_DC_V, bands.SILENT_MAX_DC_V, "DC thumps at every turn-on",
    )  # fmt: skip


def _gain_tests(work: BayWork) -> Iterator[BayTest]:
    chains = {chain.speaker: chain for chain in work.chains}
    at = at_step(loudest_step(work.parts.vehicle, work.parts.job))
    for gain in work.gains:
        chain = chains[gain.speaker]
        yield measure(
            speakable(gain.speaker, "gain"), "gain",
            f"gain for {gain.speaker} ({gain.amplifier} channel {gain.channel_name}), its "
            f"speaker unplugged, radio at {at}: {chain.tone_note}",
            "radio_on_tone", "ac_v", chain.tone_v_rms * bands.GAIN_LOW_SHARE, chain.tone_v_rms,
            f"limited by the {chain.limited_by}; never beyond, whatever it sounds like"
            f"{_correction_why(chain)}",
            legs_of(channel_of(gain.amplifier, gain.channel_name)),
        )  # fmt: skip


def _correction_why(chain: LevelChain) -> str:
    """Why the correction is on while the meter reads."""
    off = chain.correction_off_tone_v_rms
    if off is None:
        return ""
    times = chain.tone_v_rms / off
    return (
        f". Set with the correction off and switched on later, it would ask the amplifier for "
        f"{times:.2f} times its volts"
    )


_LOW = "volume low"
"""A tone at the loudest clean step is all that a speaker stands, and only for a moment."""


def _sound_tests(work: BayWork) -> Iterator[BayTest]:
    if any(chain.sources_summed > 1 or len(chain.channels) > 1 for chain in work.chains):
        yield tick(
            "sum-phase", "sound",
            f"{_LOW}, {bands.PHASE_HZ:g} Hz tone: both sides louder than each",
            "radio_on_tone", "if it gets quieter one pair is reversed",
        )  # fmt: skip
    yield from corner_tests(work.tune)
    yield tick(
        "balance-and-fader", "sound",
        _corners(work), "radio_on_tone",
        "catches swapped sides" if fader_end(work) else "catches swapped ends and swapped sides",
        tuple(leg for name in driven_speakers(work) for leg in legs_of(name)),
    )  # fmt: skip
    yield tick(
        "switch-on-thump", "sound", "switch on and off five times at volume 0", "accessory",
        "a thump means the amplifier is on before the converter has settled, or stays on after it",
    )  # fmt: skip


def _corners(work: BayWork) -> str:
    """What is turned, and what plays then; where all sound comes from one end, the fader mutes."""
    end = fader_end(work)
    if end is None:
        return (
            f"{_LOW}, balance and fader to each corner in turn: only that corner plays, new and old"
        )
    other = ENDS[1 - ENDS.index(end)]
    summed = [chain.speaker for chain in work.chains if len(chain.channels) > 1]
    both = f", {' and '.join(summed)} with either" if summed else ""
    return (
        f"{_LOW}, balance to each side in turn: only that side plays{both}; fader to the {other}: "
        "everything is silent; then back to the centre, where it stays"
    )
