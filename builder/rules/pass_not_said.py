"""Nobody said where the supply goes through the bulkhead.

What it catches
---------------
A job whose supply comes from the engine's side of a bulkhead, and no entry of `passes` that carries
the supply. It is caught as well in a car whose record lists no way through.

Why it matters in the bay
-------------------------
The supply lead is the one wire that can burn the car. Sheet metal cuts it where no grommet keeps
its edge off, and water runs along it into the cabin where it has no drip loop.

Example
-------
Fails::

    power: {battery: {location: engine bay}}
    passages: [{name: main grommet, between: [engine bay, footwell], grommet: own}]
    passes: []

Passes::

    power: {battery: {location: engine bay}}
    passages: [{name: main grommet, between: [engine bay, footwell], grommet: own}]
    passes: [{through: main grommet, carries: [supply], seal: grommet, drip_loop: yes}]

How to mend it
--------------
Choose a way through, and type it at `passes` with what closes it.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.car.supply_way import unsaid_supply_way
from builder.rules.rule import Scope, rule


def check(job: Job, _shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield the supply when no way through the bulkhead is chosen for it."""
    way = unsaid_supply_way(job, vehicle) if vehicle else None
    if way is not None:
        yield Fault(
            _supply_path(job),
            "nobody said where the supply goes through the bulkhead; the car's record lists "
            f"{way.listed}",
            "choose one, and type it at passes with seal and drip_loop"
            + ("" if way.on_record else "; write it into the car's record too, at passages"),
        )


_BATTERY: Final = "battery"  # as a place of a route


def _supply_path(job: Job) -> DataPath:
    """The route of the supply, or the length that stands in its place."""
    routes = (route.path for route in job.routes if _BATTERY in (route.from_place, route.to_place))
    return next(routes, ("supply",))


RULE = rule("SAF116", Severity.NOTE, Scope.NAMES, check, not_known=Severity)
