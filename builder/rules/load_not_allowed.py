"""A test load that this pin must not get.

What it catches
---------------
A reading whose `load` is not for a pin of that function: any load on data, speaker,
illumination or microphone wires; a lamp on a turn-on output; 50 mA on one that reads under
9 V open; more than the stated rating or fuse.

Why it matters in the bay
-------------------------
A lamp on a data wire takes modules off the network; on a turn-on output it ends the output
stage. Whoever repeats the recorded reading repeats the damage.

Example
-------
Fails::

    - cavity: 11
      function: amplifier_on
      readings:
        - {session: s1, state: tuner, load: lamp_0.4a, quantity: dc_v, value: 11.2, battery_v: 12.4}

Passes::

    - cavity: 11
      function: amplifier_on
      readings:
        - {session: s1, state: tuner, quantity: dc_v, value: 12.1, battery_v: 12.4}
        - {session: s1, state: tuner, load: 50ma, quantity: dc_v, value: 11.9, battery_v: 12.4}

How to mend it
--------------
Correct the load if it was mistyped. If it was really used, repeat the reading with the load
that the finding allows, and replace it.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.names import LOAD_NAMES
from builder.model.plugs import Pin, Reading
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import is_ground_volts, value_of
from builder.proof.signatures.loads import limit_of_pin, load_refusal
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield loaded readings whose load the pin must not carry."""
    for site, reading in wiring_of(vehicle).measured:
        if reading.load == "none":
            continue
        pin = site.pin
        why = load_refusal(
            pin.function, reading.load, open_v=_open_v(pin, reading), limit_ma=limit_of_pin(pin)
        )
        if why is not None:
            yield Fault(
                (*reading.path, "load"),
                f"{called(site)} was read under {LOAD_NAMES[reading.load]}: {why}",
                "correct the load, or repeat the reading with one that is allowed",
            )


def _open_v(pin: Pin, loaded: Reading) -> float | None:
    """The highest unloaded reading of the pin, of the same state where there is one [V]."""
    free = [
        reading for reading in pin.readings if reading.load == "none" and is_ground_volts(reading)
    ]
    same = [reading for reading in free if reading.state == loaded.state]
    return max((value_of(reading) for reading in same or free), default=None)


RULE = rule("MET123", Severity.WARN, Scope.RECORD, check)
