"""The bay sheet of a job: what is measured when, and the band computed for this car."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.model.house_defaults import HouseDefaults
from builder.planning import bay_bands as bands
from builder.planning.bay_build_tests import build_tests
from builder.planning.bay_close_tests import close_tests
from builder.planning.pack_details import GainSetting, HoldUpPart
from builder.planning.plan import Plan, ProofReading
from builder.planning.restart_hold_up import highest_threshold_v
from builder.planning.selection import Selection
from builder.planning.turn_on_loads import WAKES_BY_ITSELF, turn_on_pin
from builder.planning.work_pack import BayTest, JobParts, LevelChain


@dataclass(frozen=True, slots=True)
class BayWork:
    """What the bay sheet is made from."""

    parts: JobParts
    plan: Plan
    selection: Selection
    chains: tuple[LevelChain, ...]
    gains: tuple[GainSetting, ...]
    hold_up: HoldUpPart | None
    defaults: HouseDefaults


def bay_sheet(work: BayWork) -> tuple[BayTest, ...]:
    """Return every line in the order of the work, numbered T1 onwards."""
    lines = (
        *before_tests(work),
        *(proof_line(reading) for reading in work.plan.tests),
        *_restart_line(work),
        *build_tests(work.parts, work.selection, work.defaults),
        *bench_tests(work),
        *close_tests(work.parts, work.selection),
    )
    return number_lines(lines)


def number_lines(lines: tuple[BayTest, ...]) -> tuple[BayTest, ...]:
    """Give each line its id. It stays the same while the job and its records do."""
    return tuple(replace(line, id=f"T{at}") for at, line in enumerate(lines, 1))


def line(
    phase: str,
    what: str,
    state: str,
    quantity: str,
    low: float | None,
    high: float | None,
    unit: str,
    why: str,
) -> BayTest:
    """Return a line of the bay sheet that still wants its id."""
    return BayTest("", phase, what, state, quantity, low, high, unit, why, None)


_UNITS = {"dc_v": "V", "ac_v": "V", "ohm": "Ω", "hz": "Hz", "ma": "mA", "duty_percent": "%"}


def proof_line(reading: ProofReading) -> BayTest:
    """Return the line of a reading that proves a pin."""
    where = reading.fuse_position or f"{reading.plug}.{reading.cavity}"
    unit = _UNITS[reading.quantity]
    return BayTest(
        "", "before", f"{where}: {reading.how}", reading.state, reading.quantity, reading.low,
        reading.high, unit, reading.settles, reading,
    )  # fmt: skip


def before_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield what is recorded of the car before anything is touched."""
    yield line(
        "before", "battery at its posts", "asleep", "dc_v", bands.BATTERY_REST_MIN_V, None, "V",
        "charge it first when it is lower, or every other reading is wrong",
    )  # fmt: skip
    known = work.parts.job.supply.parked_ma
    said = "" if known is None else f"; the job says {known:g} mA"
    yield line(
        "before", "parked draw before work begins, clamp or across the fuse", "asleep", "ma", None,
        bands.PARKED_MAX_MA, "mA", f"what it is compared with at the end{said}",
    )  # fmt: skip
    yield line(
        "before", "warning lamps: write down which are lit, restraint lamp above all", "run",
        "check", None, None, "", "a lamp that was lit before is not ours afterwards",
    )  # fmt: skip
    for sound in _sounds(work.parts):
        yield line(
            "before", f"listen to it as it is now: {sound}", "run", "check", None, None, "",
            "it must be the same at the end, with the key off too where it plays then",
        )  # fmt: skip


def _sounds(parts: JobParts) -> tuple[str, ...]:
    """What the record protects, then what the customer named besides."""
    named = [sound.sound for sound in parts.vehicle.protected_sounds]
    return tuple(dict.fromkeys((*named, *parts.job.protect)))


def _restart_line(work: BayWork) -> Iterator[BayTest]:
    """The turn-on wire while the engine restarts, where nobody read it."""
    pin = turn_on_pin(work.parts.vehicle, work.plan.turn_on)
    start_stop = work.parts.vehicle.features.start_stop
    if pin is None or start_stop == "no":
        return
    dips = [reading for reading in pin.readings if reading.state == "auto_restart"]
    if dips and (work.hold_up or all(reading.lasts_s for reading in dips)):
        return
    yield line(
        "before", "turn-on wire while the engine restarts: lowest volts, and for how long",
        "auto_restart", "dc_v", highest_threshold_v(work.parts), None, "V",
        "below this the sound drops out; with a length the capacitor can be sized",
    )  # fmt: skip


def bench_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield what is measured with everything connected and the trim still off."""
    yield from _turn_on_tests(work)
    yield from _supply_tests(work)
    yield from _level_tests(work)
    yield from _gain_tests(work)
    yield from _sound_tests(work)


def _turn_on_tests(work: BayWork) -> Iterator[BayTest]:
    waking = work.plan.turn_on.kind in WAKES_BY_ITSELF
    why = "off means off, or the battery is flat in days"
    for state in ("asleep", "retained") if not waking else ("asleep",):
        yield line(
            "bench", "turn-on terminal of the amplifier", state, "dc_v", None,
            bands.TURN_ON_OFF_MAX_V if state == "asleep" else None, "V",
            why if state == "asleep" else "note when it lets go: at the key, at the door or later",
        )  # fmt: skip
    yield line(
        "bench", "turn-on terminal of the amplifier", "radio_on_zero", "dc_v",
        bands.TURN_ON_MIN_V, None, "V", "less and the amplifier may drop out",
    )  # fmt: skip
    if work.parts.vehicle.features.start_stop != "no":
        yield line(
            "bench", "turn-on terminal of the amplifier in a restart, lowest", "auto_restart",
            "dc_v", highest_threshold_v(work.parts), None, "V", "below this an input lets go",
        )  # fmt: skip


def _supply_tests(work: BayWork) -> Iterator[BayTest]:
    supplies = [amplifier.supply for amplifier in work.parts.amplifiers.values()]
    supplies += [work.parts.converter.supply] if work.parts.converter.supply else []
    idle = sum(supply.idle_a for supply in supplies)
    low, high = idle * (1 - bands.IDLE_BAND), idle * (1 + bands.IDLE_BAND)
    yield line(
        "bench", "main fuse in, volume 0: current of everything added", "radio_on_zero", "a",
        low, high, "A", "more is a short or an output that is shorted, less is something not on",
    )  # fmt: skip
    limit = work.defaults.supply_path_drop_v
    yield line(
        "bench", "battery posts to amplifier terminals, loudest clean music", "engine", "dc_v",
        None, limit, "V", "what the whole path loses, joints and ground included",
    )  # fmt: skip
    yield line(
        "bench", "amplifier ground to battery negative, loudest clean music", "engine", "dc_v",
        None, bands.GROUND_RISE_MAX_V, "V", "a poor ground whines and heats",
    )  # fmt: skip


def _level_tests(work: BayWork) -> Iterator[BayTest]:
    if work.parts.converter.kind == "active":
        yield line(
            "bench", "each line output of the converter, AC", "radio_on_zero", "ac_v", None,
            bands.SILENT_MAX_AC_V, "V", "hum or hiss before the amplifier only gets louder",
        )  # fmt: skip
        yield line(
            "bench", "each line output of the converter, DC", "radio_on_zero", "dc_v",
            -bands.SILENT_MAX_DC_V, bands.SILENT_MAX_DC_V, "V", "DC thumps at every turn-on",
        )  # fmt: skip
    for check in work.plan.levels:
        low, high = _around(check.source_v_rms)
        yield line(
            "bench", f"pair {check.channel} at the radio end, 1 kHz tone at the loudest clean step",
            "radio_on_tone", "ac_v", low, high, "V",
            "what every level after it was computed from",
        )  # fmt: skip
    for chain in work.chains:
        if chain.converter_target_v_rms is not None:
            low, high = _around(chain.converter_target_v_rms)
            yield line(
                "bench", f"line output for {chain.speaker}, same tone, same step", "radio_on_tone",
                "ac_v", low, min(high, chain.amplifier_max_v_rms), "V",
                "more clips the amplifier's input, less brings up the hiss",
            )  # fmt: skip


def _around(volts: float) -> tuple[float, float]:
    return volts * (1 - bands.LEVEL_BAND), volts * (1 + bands.LEVEL_BAND)


def _gain_tests(work: BayWork) -> Iterator[BayTest]:
    chains = {chain.speaker: chain for chain in work.chains}
    for gain in work.gains:
        chain = chains[gain.speaker]
        yield line(
            "bench",
            f"gain for {gain.speaker} ({gain.amplifier} channel {gain.amplifier_channel}), its "
            f"speaker unplugged: {chain.tone_note}",
            "radio_on_tone", "ac_v", chain.tone_v_rms * bands.GAIN_LOW_SHARE, chain.tone_v_rms,
            "V", f"limited by the {chain.limited_by}; never beyond, whatever it sounds like",
        )  # fmt: skip


def _sound_tests(work: BayWork) -> Iterator[BayTest]:
    if any(chain.sources_summed > 1 or len(chain.channels) > 1 for chain in work.chains):
        yield line(
            "bench", f"{bands.PHASE_HZ:g} Hz tone: each side alone, then both; both must be louder",
            "radio_on_tone", "check", None, None, "", "if it gets quieter one pair is reversed",
        )  # fmt: skip
    yield line(
        "bench", "balance and fader to each corner in turn: only that corner plays, new and old",
        "radio_on_tone", "check", None, None, "", "catches swapped ends and swapped sides",
    )  # fmt: skip
    yield line(
        "bench", "switch on and off five times at volume 0", "accessory", "check", None, None, "",
        "a thump means the amplifier is on before the converter has settled, or stays on after it",
    )  # fmt: skip
