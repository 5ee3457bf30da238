"""A bridged leg has continuity to the body.

What it catches
---------------
A leg of a bridged pair that reads at most 100 Ω to the body (a stop), or under 10 kΩ (a
warning) **(house defaults)** with the plug out.

Why it matters in the bay
-------------------------
A bridged output that meets the body shorts the radio's output stage. Either the wire is
pinched, or the output is common-ground after all: then a floating amplifier must not return
through it.

Example
-------
Fails::

    # radio: {outputs: bridged}
    - cavity: 4
      function: speaker
      channel: front-left
      leg: negative
      readings: [{session: s1, state: unplugged, against: body, quantity: ohm, value: 0.3}]

Passes::

    # radio: {outputs: bridged}
    - cavity: 4
      function: speaker
      channel: front-left
      leg: negative
      readings: [{session: s1, state: unplugged, against: body, quantity: ohm, value: open}]

How to fix
----------
Follow the wire to the door and look for a pinched place. If every negative reads the same,
type `outputs: common_ground` for the radio.

Source
------
Neither lead of a bridge is ground: TI TPA005D02 evaluation manual (read). The limits are
house defaults.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Reading, Vehicle
from builder.rules.pair_readings import is_bridged, ohms_to_body
from builder.rules.pin_readings import exceeds
from builder.rules.rule import Rule, Scope
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called, ohms


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield ohms readings that tie a bridged leg to the body."""
    open_ohm = shelf.defaults.body_open_ohm
    for pair in wiring_of(vehicle).pairs:
        found = [
            (site, reading)
            for site in (*pair.positives, *pair.negatives)
            for reading in ohms_to_body(site)
            if reading.value is not None and exceeds(open_ohm, reading.value)
        ]
        if found and is_bridged(pair, vehicle, shelf):
            for site, reading in found:
                yield _fault(site, reading, shelf)


def _fault(site: Site, reading: Reading, shelf: Shelf) -> Fault:
    value_ohm = reading.value or 0.0
    joined = not exceeds(value_ohm, shelf.defaults.joined_max_ohm)
    return Fault(
        (*reading.path, "value"),
        f"{called(site)} reads {ohms(value_ohm)} to the body (at least "
        f"{ohms(shelf.defaults.body_open_ohm)} is expected of a bridged leg): "
        "the body would short the output stage",
        "look for a pinched wire; if all negatives read so, type outputs: common_ground",
        None if joined else Severity.WARN,
    )


RULE = Rule(
    id="MET111",
    slug="bridged-leg-on-chassis",
    severity=Severity.STOP,
    scope=Scope.VEHICLE,
    check=check,
    title="A bridged leg has continuity to the body",
    hazard=True,
)
