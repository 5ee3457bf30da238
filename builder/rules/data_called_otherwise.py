"""A data wire is called something else.

What it catches
---------------
A pin not called data that reads 54 to 130 Ω **(house default)** to another cavity of a dead
circuit, or a supply, turn-on or pair of speaker legs that rests at 2.3 to 2.7 V **(house
default)** in a waking car.

Why it matters in the bay
-------------------------
Sixty ohms and 2.5 V are the marks of a two-wire data bus. A lamp, a tap or an amplifier's
turn-on lead on it takes modules off the network, sometimes with the engine on.

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

How to mend it
--------------
Type `function: data_high` or `data_low` (the higher average is data_high), and leave both
wires alone.

Source
------
Two 120 Ω ends in parallel and 2.5 V at rest: ISO 11898-2 (memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Reading
from builder.model.vehicle import Vehicle
from builder.model.words import SUPPLIES
from builder.proof.contradictions.clashes import at_data_level, is_data_pair, resting_as_data
from builder.proof.pin_readings import value_of
from builder.rules.house import prints
from builder.rules.pair_readings import biases_of
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called, ohms, volts

_HELP = "type function: data_high or data_low, and put no load or tap on it"


@prints(
    "data_pair_min_ohm",
    "data_pair_max_ohm",
    "logic_level_max_v",
    "data_level_min_v",
    "data_level_max_v",
)
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield readings that only a data pair gives, on pins called something else."""
    defaults, wiring = shelf.defaults, wiring_of(vehicle)
    for site, reading in wiring.ohms:
        if is_data_pair(site.pin, reading, defaults):
            yield _ohms_fault(site, reading, defaults)
    for site in wiring.having(*SUPPLIES, "amplifier_on"):
        for reading in resting_as_data(site.pin, defaults):
            yield _volts_fault(site, reading, defaults)
    for bias in biases_of(vehicle):
        if bias.pair.function == "speaker" and all(
            at_data_level(value_v, defaults) for value_v in (bias.low_v, bias.high_v)
        ):
            yield _volts_fault(bias.low, bias.low_reading, defaults)


def _ohms_fault(site: Site, reading: Reading, defaults: HouseDefaults) -> Fault:
    return Fault(
        (*reading.path, "value"),
        f"{called(site)} reads {ohms(reading.value)} to cavity {reading.against} "
        f"({shown(defaults.data_pair_min_ohm)} to {ohms(defaults.data_pair_max_ohm)} is a data "
        "pair): "
        "a load or tap on it disturbs the car's network",
        _HELP,
    )


def _volts_fault(site: Site, reading: Reading, defaults: HouseDefaults) -> Fault:
    return Fault(
        (*reading.path, "value"),
        f"{called(site)} reads {volts(value_of(reading))} ({shown(defaults.data_level_min_v)} to "
        f"{volts(defaults.data_level_max_v)} is the rest of a data wire): a load or tap on it "
        "disturbs the car's network",
        _HELP,
    )


RULE = rule("MET114", Severity.STOP, Scope.VEHICLE, check, hazard=True)
