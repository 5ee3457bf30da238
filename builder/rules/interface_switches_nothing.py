"""A data interface of a job that can switch nothing on.

What it catches
---------------
A job that fits a data interface which goes between no plug of the car, reads a bus that the plug
does not carry, or has no output that may switch an amplifier on: an accessory output or an
amplifier turn-on output. Lights and reverse never switch anything on.

Why it matters in the bay
-------------------------
It is bought, and on the bench its plug turns out to be another one. Nobody makes it fit by tapping
a data wire: the car's brakes talk on the same two wires.

Example
-------
Fails::

    interfaces: [ok-7n]      # no plug of the car has a housing that it goes between

Passes::

    interfaces: [tsm-9n]

How to mend it
--------------
Name an interface whose plug and bus the car has, or take the key out: the plan then looks for a
wire of the car.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.parts import Interface
from builder.model.vehicle import Vehicle
from builder.planning.car.interface_fit import plug_for, switching_outputs
from builder.rules.rule import Scope, rule


def check(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield every interface of the job that can switch nothing on."""
    for index, name in enumerate(job.interfaces):
        interface = shelf.interfaces.get(name)
        why = _against(interface, vehicle) if interface and vehicle else None
        if why is not None:
            yield Fault(
                ("interfaces", index),
                f"{name} switches nothing on: {why}",
                "name an interface that fits the car, or take it out of the job",
            )


def _against(interface: Interface, vehicle: Vehicle) -> str | None:
    if plug_for(interface, vehicle) is None:
        return (
            f"it goes between {' or '.join(interface.needs.plugs)}, and no such plug of "
            f"{vehicle.id} carries the bus that it reads"
        )
    if not switching_outputs(interface):
        return "it has neither an accessory output nor an amplifier turn-on output"
    return None


RULE = rule("ONN109", Severity.FIX, Scope.NAMES, check)
