"""An amplifier or converter fed from the radio's supply.

What it catches
---------------
A supply route that begins at the radio: a stop for an amplifier, a warning for a converter that
takes more than a fifth of the radio's fuse (house default) or whose share nobody knows.

Why it matters in the bay
-------------------------
The wire of the radio is made for the radio. Its fuse opens, or the wire gets warm in the loom.

Example
-------
Fails::

    routes: [{from: radio, to: amp 1, carries: supply, length_m: 3.0, zones: []}]

Passes::

    routes: [{from: battery, to: amp 1, carries: supply, length_m: 5.2, zones: []}]

How to mend it
--------------
Feed the converter at the amplifier's terminals, behind its own small fuse, and the amplifier
from the battery.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.job import AT_RADIO
from builder.model.vehicle import Vehicle
from builder.planning.power.flags import radio_tap_flags
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each supply that is taken at the radio."""
    for route in parts.job.routes:
        if route.carries != "supply" or route.from_place != AT_RADIO:
            continue
        if route.to_place in parts.amplifiers:
            yield Fault(
                (*route.path, "from"),
                f"{route.to_place} would be fed through the radio's supply: its wire and fuse are "
                "made for the radio",
                "feed it from the battery",
            )
        elif (why := _too_much(parts)) is not None:
            yield Fault(
                (*route.path, "from"),
                f"{route.to_place} would be fed through the radio's supply: {why}",
                "feed it at the amplifier's terminals behind its own fuse",
                Severity.WARN,
            )


def _too_much(parts: JobParts) -> str | None:
    supply, fuse = parts.converter.supply, _radio_fuse_a(parts.vehicle)
    draw = (supply.max_a or supply.fuse_a) if supply else None
    if draw is None:
        return None
    if fuse is None:
        return "nobody knows the fuse of the radio"
    flags = radio_tap_flags(draw, fuse, parts.shelf.defaults)
    return flags[0].says if flags else None


def _radio_fuse_a(vehicle: Vehicle) -> float | None:
    fuses = [
        pin.fuse.rating_a
        for plug in vehicle.plugs
        for pin in plug.pins
        if plug.unit == "radio" and pin.function == "constant" and pin.fuse is not None
    ]
    return next((rating for rating in fuses if rating is not None), None)


RULE = rule("PWR109", Severity.STOP, Scope.JOB, check, hazard=True)
