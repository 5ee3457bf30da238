"""A ground that is not at zero.

What it catches
---------------
A ground pin that rises more than 0.1 V **(house default)** under a test load or with the
radio running, that reads more than 0.5 Ω **(house default)**, or that reads open.

Why it matters in the bay
-------------------------
What the ground rises, every speaker-level and line signal carries as whine; and a converter
without its ground may take it through a signal shield.

Example
-------
Fails::

    - cavity: 8
      function: ground
      readings:
        - {session: s1, state: run, load: 1a, quantity: dc_v, value: 0.34, battery_v: 12.4}

Passes::

    - cavity: 8
      function: ground
      readings:
        - {session: s1, state: run, load: 1a, quantity: dc_v, value: 0.03, battery_v: 12.4}

How to mend it
--------------
Clean the point and measure again, take the test leads' own ohms off, or choose another
ground; if it is a shield or a signal return, correct the function.

Source
------
Common practice, no source. The limits are house defaults.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.names import LOAD_NAMES
from builder.model.plugs import Reading
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES, State
from builder.proof.pin_readings import exceeds, is_ground_volts, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, ohms, volts

_NO_CURRENT: frozenset[State] = frozenset({"crank", "unplugged", "battery_off"})


@prints("ground_drop_v", "ground_ohm")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield ground readings that are too far from zero."""
    for site in wiring_of(vehicle).having("ground"):
        for reading in site.pin.readings:
            seen = _too_much(reading, shelf.defaults)
            if seen:
                yield Fault(
                    (*reading.path, "value"),
                    f"{called(site)} reads {seen}: what a ground rises is heard as whine",
                    "clean the point, take the leads' own ohms off and measure again, or "
                    "correct the function",
                )


def _too_much(reading: Reading, defaults: HouseDefaults) -> str:
    """The value with its limit, or "" when it is in order."""
    if is_ground_volts(reading) and reading.state not in _NO_CURRENT:
        return _volts_over(reading, defaults.ground_drop_v)
    if reading.quantity == "ohm" and reading.against in GROUND_REFERENCES:
        return _ohms_over(reading, defaults.ground_ohm)
    return ""


def _volts_over(reading: Reading, limit_v: float) -> str:
    risen_v = abs(value_of(reading))
    if not exceeds(risen_v, limit_v):
        return ""
    how = "with" if reading.load == "none" else "under"
    return f"{volts(risen_v, limit_v)} {how} {LOAD_NAMES[reading.load]} (at most {volts(limit_v)})"


def _ohms_over(reading: Reading, limit_ohm: float) -> str:
    if reading.value is not None and not exceeds(reading.value, limit_ohm):
        return ""
    place = reading.against.replace("_", " ")
    return f"{ohms(reading.value, limit_ohm)} to {place} (at most {ohms(limit_ohm)})"


RULE = rule("MET108", Severity.FIX, Scope.VEHICLE, check)
