"""Resistors that stand in for speakers at a radio that looks for them."""

from __future__ import annotations

from dataclasses import replace

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.names import channel_name
from builder.model.words import Channel
from builder.planning.car.selection import Selection
from builder.planning.levels.signal_levels import source_level
from builder.planning.levels.speaker_loads import StandInLoad, stand_in_load
from builder.planning.levels.unloaded import without_speaker
from builder.planning.plan import LevelCheck
from builder.planning.tables import STAND_IN_LOAD_OHM
from builder.planning.work_pack import JobParts
from builder.units import Volts, VoltsRms

StandIns = dict[Channel, StandInLoad]
"""The resistor of each broken pair that gets one."""


def stand_in_loads(
    parts: JobParts,
    selection: Selection,
    checks: tuple[LevelCheck, ...],
    defaults: HouseDefaults,
) -> StandIns:
    """Return a resistor by broken pair, unless the radio does not look or has them.

    Whoever did not look gets them too: unknown is not "no".
    """
    if parts.vehicle.radio.open_load_check == "no" or parts.converter.input_load_ohm is not None:
        return {}
    volts = {check.channel: (check.source_v_rms, check.square_wave_v) for check in checks}
    for tap in selection.silent:
        level = source_level(parts.vehicle, tap.pair, defaults)
        if level is not None:
            alone = without_speaker(level, tap.pair, tap.treatment, defaults)
            volts[tap.pair.channel] = (alone.v_rms, None)
    return {
        tap.pair.channel: _load(*volts[tap.pair.channel])
        for tap in selection.broken
        if tap.pair.channel in volts
    }


def _load(source_v_rms: VoltsRms, square_v: Volts | None) -> StandInLoad:
    """Twice the sine, or a rail that clips to a square wave where that is more. [W]"""
    load = stand_in_load(source_v_rms, STAND_IN_LOAD_OHM)
    if square_v is None:
        return load
    square = square_v**2 / STAND_IN_LOAD_OHM
    return replace(load, square_w=square, rating_w=max(2 * load.sine_w, square))


def stand_in_remarks(loads: StandIns) -> dict[str, str]:
    """Return what is to say of each resistor on the parts list, by its purpose."""
    return {
        f"stand-in load of {channel_name(channel)}": _remark(load)
        for channel, load in loads.items()
    }


def _remark(load: StandInLoad) -> str:
    most = load.rating_w
    return (
        "in air, across each broken pair, on the side of the car's output; "
        f"{shown(load.sine_w, 2, beside=most)} W sine, "
        f"{shown(load.square_w, 2, beside=most)} W square, so at least {shown(most, 2)} W"
    )
