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

How to mend it
--------------
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
from builder.model.plugs import Reading
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES, PAIRED
from builder.proof.pin_readings import exceeds
from builder.rules.house import prints
from builder.rules.pair_readings import biases_of
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called, ohms


@prints("body_open_ohm", "biased_leg_min_v", "joined_max_ohm")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield ohms readings that tie a bridged leg to the body."""
    open_ohm = shelf.defaults.body_open_ohm
    for site, reading in wiring_of(vehicle).ohms:
        if reading.value is None or not exceeds(open_ohm, reading.value):
            continue
        to_body = site.pin.function in PAIRED and reading.against in GROUND_REFERENCES
        if to_body and _is_bridged(site, vehicle, shelf):
            yield _fault(site, reading, shelf)


def _is_bridged(site: Site, vehicle: Vehicle, shelf: Shelf) -> bool:
    """Whether both legs of its pair are driven: the radio says so, or a leg carries a bias."""
    if vehicle.radio.outputs == "bridged" and site.plug.unit == "radio":
        return True
    return any(
        bias.high_v >= shelf.defaults.biased_leg_min_v and site in (bias.low, bias.high)
        for bias in biases_of(vehicle)
    )


def _fault(site: Site, reading: Reading, shelf: Shelf) -> Fault:
    value_ohm = reading.value or 0.0
    joined = not exceeds(value_ohm, shelf.defaults.joined_max_ohm)
    return Fault(
        (*reading.path, "value"),
        f"{called(site)} reads {ohms(value_ohm, shelf.defaults.body_open_ohm)} to the body (at "
        "least "
        f"{ohms(shelf.defaults.body_open_ohm)} is expected of a bridged leg): "
        "the body would short the output stage",
        "look for a pinched wire; if all negatives read so, type outputs: common_ground",
        None if joined else Severity.WARN,
    )


RULE = rule("MET111", Severity.STOP, Scope.VEHICLE, check, hazard=True)
