"""A data wire is called something else.

What it catches
---------------
A pin not called data that reads 54 to 130 Ω **(house default)** to another cavity of a dead
circuit, or a supply, turn-on or pair of speaker legs that rests at 2.3 to 2.7 V **(house
default)** in a waking car.

Why it matters in the bay
-------------------------
Sixty ohms and 2.5 V are the marks of a two-wire data bus. A lamp, a tap or an amplifier's
turn-on lead on it takes modules off the network, sometimes with the engine running.

Example
-------
Fails::

    - cavity: 5
      function: accessory
      readings:
        - {session: s1, state: run, quantity: dc_v, value: 2.48, battery_v: 12.4}

Passes::

    - cavity: 5
      function: data_low
      readings:
        - {session: s1, state: run, quantity: dc_v, value: 2.48, battery_v: 12.4}

How to fix
----------
Type `function: data_high` or `data_low` (the higher average is data_high), and leave both
wires alone.

Source
------
Two 120 Ω ends in parallel and 2.5 V at rest: ISO 11898-2 (memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Pin, Reading, Vehicle
from builder.model.words import SUPPLIES
from builder.rules.pair_readings import biases, ohms_to_cavity
from builder.rules.pin_readings import LIVE_STATES, exceeds, ground_volts, value_of
from builder.rules.rule import Rule, Scope
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called, ohms, volts

_MAY_BE_LIKE_DATA = frozenset(
    {
        "data_high", "data_low", "data_single", "unknown", "not_used", "wheel_keys",
        "microphone", "shield", "camera_signal",
    }
)  # fmt: skip
_HELP = "type function: data_high or data_low, and put no load or tap on it"


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield readings that only a data pair gives, on pins called something else."""
    defaults, wiring = shelf.defaults, wiring_of(vehicle)
    for site in wiring.sites:
        if site.pin.readings and site.pin.function not in _MAY_BE_LIKE_DATA:
            yield from _ohms(site, defaults)
    for site in wiring.having(*SUPPLIES, "amplifier_on"):
        for reading in ground_volts(site.pin, LIVE_STATES[site.pin.function]):
            if _rests_like_data(reading, site.pin, defaults):
                yield _volts_fault(site, reading, defaults)
    for pair in wiring.pairs:
        for legs in biases(pair) if pair.function == "speaker" else ():
            readings = (legs.positive_reading, legs.negative_reading)
            if all(_at_data_level(reading, defaults) for reading in readings):
                yield _volts_fault(legs.positive, legs.positive_reading, defaults)


def _ohms(site: Site, defaults: HouseDefaults) -> Iterator[Fault]:
    low, high = defaults.data_pair_min_ohm, defaults.data_pair_max_ohm
    for reading in ohms_to_cavity(site):
        value = reading.value
        if value is not None and not exceeds(low, value) and not exceeds(value, high):
            yield Fault(
                (*reading.path, "value"),
                f"{called(site)} reads {ohms(value)} to cavity {reading.against} ({low:g} to "
                f"{ohms(high)} is a data pair): a load or tap on it disturbs the car's network",
                _HELP,
            )


def _rests_like_data(reading: Reading, pin: Pin, defaults: HouseDefaults) -> bool:
    logic = pin.level_v is not None and pin.level_v < defaults.logic_level_max_v
    return reading.load == "none" and not logic and _at_data_level(reading, defaults)


def _at_data_level(reading: Reading, defaults: HouseDefaults) -> bool:
    value = value_of(reading)
    low, high = defaults.data_level_min_v, defaults.data_level_max_v
    return not exceeds(low, value) and not exceeds(value, high)


def _volts_fault(site: Site, reading: Reading, defaults: HouseDefaults) -> Fault:
    return Fault(
        (*reading.path, "value"),
        f"{called(site)} reads {volts(value_of(reading))} ({defaults.data_level_min_v:g} to "
        f"{volts(defaults.data_level_max_v)} is the rest of a data wire): a load or tap on it "
        "disturbs the car's network",
        _HELP,
    )


RULE = Rule(
    id="MET114",
    slug="data-called-otherwise",
    severity=Severity.STOP,
    scope=Scope.VEHICLE,
    check=check,
    title="A data wire is called something else",
    hazard=True,
)
