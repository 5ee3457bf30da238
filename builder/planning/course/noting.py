"""The acts before and after the work: noted, pointed out, written down, handed over."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.vehicle import Vehicle
from builder.model.zones import all_known, known
from builder.planning.car.route_zones import restraint_zones_touched
from builder.planning.course import trade
from builder.planning.course.car_states import RADIO_SET
from builder.planning.course.job_acts import act
from builder.planning.course.model import Act, Needs, Said, needs
from builder.planning.work_pack import JobParts

TO_NOTE = (
    "faults, lit lamps, radio presets and code, balance, fader and tone, clock, window positions"
)
"""What a car forgets, or says otherwise, when its battery has been off."""


def noting_acts(vehicle: Vehicle) -> Iterator[Act]:
    """Yield what is written down and minded before anything is touched."""
    cautions = tuple(f"mind: {each}" for each in vehicle.safety.cautions)
    yield act(
        "note", "before",
        Said(f"write down {TO_NOTE}", cautions),
        trade.NOTED, minutes=5.0,
    )  # fmt: skip
    zones = vehicle.safety.high_voltage_zones
    if zones or vehicle.features.hybrid != "no":
        others = () if zones and all_known(zones) else ("elsewhere not ruled out",)
        where = ", ".join((*known(zones), *others))
        text = (
            f"orange cables ({where}): stay 0.10 m away with every lead and tool, share no "
            "grommet, pull no service plug"
        )
        yield act("high voltage", "before", Said(text), trade.NOTED)


def zone_acts(parts: JobParts) -> Iterator[Act]:
    """Yield each restraint part that the work comes near; it is pointed out after the wait."""
    named = known(parts.vehicle.safety.restraint_zones)
    for zone in restraint_zones_touched(parts.job, parts.vehicle):
        near = "near the work" if zone in named else "not ruled out, so taken as near"
        text = (
            f"restraint part {near}: {zone}. Slide a seat on its rails only; unbolt or "
            "unplug there only now. Never probe, tap, tie to or ground on yellow plugs and sleeves"
        )
        gate = "after the wait; never switch on with such a plug apart"
        yield act(
            f"zone {zone}", "before", Said(text, gate=gate), trade.ZONES,
            wanted=needs(battery="waited"),
        )  # fmt: skip


def as_noted_act(whole: Needs, *, fades: bool = True) -> Act:
    """Return what brings the car's own settings back: they fall when its battery comes off.

    `fades` says that its fader still does what it did.
    """
    fader = "balance, fader and tone" if fades else "balance and tone"
    stays = "" if fades else "; the fader stays in the centre"
    text = (
        f"radio presets, {fader}, clock and window positions set again as they were written "
        f"down{stays}; faults and lamps compared with what was written down"
    )
    wanted = {**whole, **needs(battery="on", key="run")}
    return act(
        "as noted", "close", Said(text), trade.AS_NOTED, wanted=wanted, minutes=5.0,
        does={RADIO_SET: "noted"},
    )  # fmt: skip


def last_acts(whole: Needs, *, fades: bool) -> Iterator[Act]:
    """Yield what is written down and handed over once the car is whole."""
    yield as_noted_act(whole, fades=fades)
    wanted = {**whole, **needs(key="off")}
    text = "fill in gains, volume step and readings; send them in with the record"
    yield act("fill in", "close", Said(text), trade.TOLD, wanted=wanted, minutes=10.0)
    said = Said("go through the customer's sheet with the customer")
    yield act("hand over", "close", said, trade.TOLD, wanted=wanted)
