"""Tests before anything is touched: how the car is, and what its turn-on does in a restart."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import at_most, shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.kept_lines import sounds_before, while_it_plays
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure, tick
from builder.planning.bay.work import BayWork
from builder.planning.car.kept_sounds import key_off_sounds
from builder.planning.pack_details import PowerSheet
from builder.planning.power.asleep_draws import PARKED_BEFORE, parked_is_read, parked_words
from builder.planning.power.battery_kinds import battery_kind
from builder.planning.turn_on.loads import turn_on_pin
from builder.planning.turn_on.restart_hold_up import highest_threshold_v
from builder.planning.work_pack import BayTest, JobParts

BATTERY_REST = "battery-rest"
STRAP_READ_A = 10.0
"""Lamps, fan and heated screen take this much: enough for a meter to read millivolts across a
strap. Common practice, no source. [A]"""


def before_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield what is recorded of the car before anything is touched."""
    parts = work.parts
    yield measure(
        BATTERY_REST, "as_found", "battery at its posts", "asleep", "dc_v",
        _rest_min_v(parts, work.defaults), None,
        "charge it first when it is lower, or every other reading is wrong",
    )  # fmt: skip
    yield _parked(parts, work.defaults)
    yield from _strap(work.power)
    yield tick(
        "lamps-before", "as_found",
        "warning lamps: write down which are lit, restraint lamp above all", "run",
        "a lamp that was lit before is not ours afterwards",
    )  # fmt: skip
    yield from sounds_before(parts)


def _rest_min_v(parts: JobParts, defaults: HouseDefaults) -> float:
    """The least at rest to begin with, by what the battery is."""
    stated = parts.job.supply.battery
    return battery_kind(stated.type if stated else "unknown", defaults).accepted_v


def _parked(parts: JobParts, defaults: HouseDefaults) -> BayTest:
    """What it draws as it came: at most what a car asleep draws, and the measure of what is added.

    What the job counts with is no limit of its own: what is read here takes its place.
    """
    known_ma = parts.job.supply.parked_ma
    why = "more is a car that is not asleep"
    if known_ma is not None and not parked_is_read(parts.job):
        why = f"the job counts with {shown(known_ma)} mA until then; {why}"
    return measure(
        PARKED_BEFORE, "as_found", parked_words("draw before work", defaults),
        "asleep", "ma", None, bands.PARKED_MAX_MA, why,
    )  # fmt: skip


def _strap(power: PowerSheet | None) -> Iterator[BayTest]:
    """The car's straps and body, where they lie in the loop and nobody read them.

    As volts at the current of the clamp, which needs no division with a pencil.
    """
    if power is None or power.strap_mohm is not None or not power.strap_max_mohm:
        return
    most = at_most(power.strap_max_mohm, "mΩ")
    yield measure(
        "strap", "as_found",
        f"loads on until a clamp at the battery negative reads {shown(STRAP_READ_A)} A: battery "
        "negative to bare body that lies open with the trim on, at the amplifier's end (bolt "
        "of a striker, of no restraint)",
        "run", "dc_v", None, power.strap_max_mohm / 1000 * STRAP_READ_A,
        f"at most {most} mΩ, before cable is bought; write it into the job as strap",
        since=WITH_THE_CIRCUIT,
    )  # fmt: skip


def key_off_lines(work: BayWork) -> Iterator[BayTest]:
    """Yield the turn-on wire while a sound plays with the key off, where that sound will need the
    new amplifier: dead then, the work would take the sound away."""
    turn_on = work.plan.turn_on
    if turn_on_pin(work.parts.vehicle, turn_on) is None:
        return
    where = turn_on.fuse_position or f"{turn_on.plug}.{turn_on.cavity}"
    for sound in key_off_sounds(work.parts.vehicle, work.selection):
        state, how = while_it_plays(work.parts, sound.sound)
        yield measure(
            speakable(where, sound.sound), "proof",
            f"{where}, the turn-on wire, {how}", state, "dc_v",
            highest_threshold_v(work.parts), None,
            "below this the amplifier is off and the sound is lost: nothing is cut then",
            since=WITH_THE_CIRCUIT,
        )  # fmt: skip


def restart_line(work: BayWork) -> Iterator[BayTest]:
    """Yield the turn-on wire while the engine restarts, where nobody read it."""
    turn_on = work.plan.turn_on
    pin = turn_on_pin(work.parts.vehicle, turn_on)
    if pin is None or work.parts.vehicle.features.start_stop == "no":
        return
    dips = [reading for reading in pin.readings if reading.state == "auto_restart"]
    if dips and (work.hold_up or all(reading.lasts_s for reading in dips)):
        return
    where = turn_on.fuse_position or f"{turn_on.plug}.{turn_on.cavity}"
    yield measure(
        speakable(where, "restart dip"), "proof",
        f"{where}, the turn-on wire, while the engine restarts: lowest volts, and for how long",
        "auto_restart", "dc_v", highest_threshold_v(work.parts), None,
        "below this the sound drops out; with a length the capacitor can be sized",
    )  # fmt: skip
