"""Two pairs that should be apart are joined.

What it catches
---------------
At most 100 Ω **(house default)** between legs of two different channels, plug out, unless
the record says that their return is shared.

Why it matters in the bay
-------------------------
A low reading across two pairs means that the legs are swapped between them. Tapped or
intercepted like that, each converter input hears half of two speakers.

Example
-------
Fails::

    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: unplugged, against: 8, quantity: ohm, value: 3.4}]
    - {cavity: 8, function: speaker, channel: front-right, leg: negative}

Passes::

    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: unplugged, against: 8, quantity: ohm, value: open}]
    - {cavity: 8, function: speaker, channel: front-right, leg: negative}

How to mend it
--------------
Swap the legs in the record to where the ohms are low, or, in an old car with one return for
several speakers, state `shared_return: yes` for the channels.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import PAIRED
from builder.proof.pin_readings import exceeds
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, Wiring, wiring_of
from builder.rules.wording import called, ohms


@prints("joined_max_ohm")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield low readings from one channel to another."""
    limit_ohm = shelf.defaults.joined_max_ohm
    wiring = wiring_of(vehicle)
    for site, reading in wiring.ohms:
        if site.pin.function not in PAIRED:
            continue
        if reading.value is not None and not exceeds(reading.value, limit_ohm):
            for other in wiring.target(site, reading.against):
                if _apart(site, other) and not _return_shared(site, other, vehicle, wiring):
                    yield Fault(
                        (*reading.path, "value"),
                        f"{called(site)} reads {ohms(reading.value, limit_ohm)} to "
                        f"{called(other)} (more "
                        f"than {ohms(limit_ohm)} is expected between two pairs): "
                        "the legs of the two are swapped or joined",
                        "correct channel and leg of both, or state shared_return: yes",
                    )


def _apart(site: Site, other: Site) -> bool:
    return other.pin.channel is not None and other.pin.channel != site.pin.channel


def _return_shared(site: Site, other: Site, vehicle: Vehicle, wiring: Wiring) -> bool:
    if vehicle.radio.outputs == "common_ground" and site.pin.leg == other.pin.leg == "negative":
        return True
    channels = (wiring.carried(leg) for leg in (site, other))
    return any(channel is not None and channel.shared_return == "yes" for channel in channels)


RULE = rule("MET113", Severity.STOP, Scope.VEHICLE, check, hazard=True)
