"""A car read again at another battery: every healthy wire as a healthy wire would then read."""

from __future__ import annotations

from dataclasses import replace

from builder.model.plugs import Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import SUPPLIES
from builder.planning.trust import position_as_pin

BATTERIES_V = (11.9, 12.6, 13.5, 14.2)
FROM_THE_BATTERY = {*SUPPLIES, "amplifier_on", "aerial_on", "illumination", "mute", "reverse"}
"""Wires that carry the battery less a drop: the drop stays."""
STARTING = {"crank", "auto_restart"}
"""The battery itself moves while the reading is taken."""


def at_battery(vehicle: Vehicle, battery_v: float) -> Vehicle:
    """The record as it would be, had every visit found this battery."""
    plugs = tuple(
        replace(
            plug, pins=tuple(replace(pin, readings=_again(pin, battery_v)) for pin in plug.pins)
        )
        for plug in vehicle.plugs
    )
    fuses = tuple(
        replace(one, readings=_again(position_as_pin(one), battery_v))
        for one in vehicle.fuse_positions
    )
    return replace(vehicle, plugs=plugs, fuse_positions=fuses)


def _again(pin: Pin, battery_v: float) -> tuple[Reading, ...]:
    return tuple(_moved(pin, reading, battery_v) for reading in pin.readings)


def _moved(pin: Pin, reading: Reading, battery_v: float) -> Reading:
    if reading.battery_v is None or reading.state in STARTING:
        return reading
    value, was_v = reading.value, reading.battery_v
    if value is not None and reading.quantity == "dc_v":
        if pin.function in FROM_THE_BATTERY and value > was_v - 3.0:
            value = value + battery_v - was_v
        elif pin.function == "speaker" and abs(value - was_v / 2) < 0.6:
            value = value * battery_v / was_v  # a bridge rests at half its supply
    return replace(reading, value=value, battery_v=battery_v)
