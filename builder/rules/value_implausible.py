"""A figure that its unit cannot have.

What it catches
---------------
A reading, speaker, level, delay or lead length whose size cannot be right for the unit its
name states: usually millivolts typed as volts, kilohms as ohms, or a slipped point.

Why it matters in the bay
-------------------------
Plans compute with these figures. A speaker of 3600 Ω or a battery of 1.26 V gives a plan
that looks right and is not.

Example
-------
Fails::

    readings:
      - {session: s1, state: unplugged, against: 4, quantity: ohm, value: 3600}

Passes::

    readings:
      - {session: s1, state: unplugged, against: 4, quantity: ohm, value: 3.6}

How to mend it
--------------
Type the figure in the unit of the key: volts, ohms, milliamperes, hertz, percent, metres.
A reading without continuity is `value: open`.

Source
------
Chosen by this project: wide limits around a 12 V car; no published source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import DataPath, Fault, Severity
from builder.model.plugs import Reading
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import Quantity
from builder.rules.pair_readings import is_mate
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, Wiring, wiring_of

READING_LIMITS: dict[Quantity, tuple[float, float, str]] = {
    "dc_v": (-16.0, 18.0, "V"),
    "ac_v": (0.0, 45.0, "V"),
    "ohm": (0.0, 100_000_000.0, "Ω"),
    "ma": (-30_000.0, 30_000.0, "mA"),
}
"""Narrower than the shape of a record allows; a quantity not listed has no narrower limit."""
BATTERY = (4.0, 16.5, "V")
SPEAKER_PAIR = (0.0, 100.0, "Ω")
SPEAKER_NOMINAL = (1.0, 32.0, "Ω")
CLEAN_LEVEL = (0.3, 45.0, "V RMS")
DELAY = (0.0, 50.0, "ms")
LEAD = (0.05, 20.0, "m")


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield every figure outside what its unit can mean in a 12 V car."""
    wiring = wiring_of(vehicle)
    for site, reading in wiring.measured:
        yield from _reading(site, reading, wiring, vehicle.factory_amplifier.rail_v)
    for channel in vehicle.channels:
        yield from _channel(channel)
    power = vehicle.power
    yield from _outside(power.supply_lead_m, LEAD, ("power", "supply_lead_m"))
    yield from _outside(power.ground_lead_m, LEAD, ("power", "ground_lead_m"))


def _within(value: float | None, limits: tuple[float, float, str]) -> bool:
    return value is None or limits[0] <= value <= limits[1]


def _outside(
    value: float | None, limits: tuple[float, float, str], path: DataPath
) -> Iterator[Fault]:
    if value is not None and not _within(value, limits):
        low, high, unit = limits
        yield Fault(
            path,
            f"{shown(value, beside=(low, high))} {unit} cannot be right here: at least "
            f"{shown(low)} and "
            f"at most {shown(high)} {unit} is possible, and plans compute with it",
            f"type the figure in {unit}; look for a slipped point or a thousandfold",
        )


def _reading(site: Site, reading: Reading, wiring: Wiring, rail_v: float | None) -> Iterator[Fault]:
    limits = READING_LIMITS.get(reading.quantity)
    if rail_v is not None and limits and reading.quantity == "dc_v":
        on_rail = site.pin.function == "speaker"
        limits = (limits[0], max(limits[1], rail_v), limits[2]) if on_rail else limits
    if reading.quantity == "ohm" and site.pin.function == "speaker":
        limits = SPEAKER_PAIR if is_mate(site, reading, wiring) else limits
    if limits is not None and not _within(reading.value, limits):
        yield from _outside(reading.value, limits, (*reading.path, "value"))
    if not _within(reading.battery_v, BATTERY):
        yield from _outside(reading.battery_v, BATTERY, (*reading.path, "battery_v"))


def _channel(channel: SpeakerChannel) -> Iterator[Fault]:
    yield from _outside(channel.speaker_ohm, SPEAKER_NOMINAL, (*channel.path, "speaker_ohm"))
    yield from _outside(channel.delay_ms, DELAY, (*channel.path, "delay_ms"))
    if channel.level is not None:
        path = (*channel.path, "level", "clean_max_v_rms")
        yield from _outside(channel.level.clean_max_v_rms, CLEAN_LEVEL, path)


RULE = rule("PIN110", Severity.FIX, Scope.RECORD, check)
