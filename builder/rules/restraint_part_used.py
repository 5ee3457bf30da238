"""Something of the restraint system is tapped, spliced or built on.

What it catches
---------------
A yellow plug used by the plan, a route that begins or ends at a restraint zone of the record,
or an amplifier or converter placed in one by its very name of bag, belt or tensioner.

Why it matters in the bay
-------------------------
Yellow is airbag. A meter on it can set it off, a splice sets the lamp, and either is for the
insurer.

Example
-------
Fails::

    plugs: [{id: Y, shell_colours: [yellow]}]
    routes: [{from: roof rails, to: converter, carries: signal, length_m: 2.0, zones: []}]

Passes::

    plugs: [{id: A, shell_colours: [grey]}]
    routes: [{from: radio, to: converter, carries: signal, length_m: 2.0, zones: [roof rails]}]

How to mend it
--------------
Use another plug, place or ground.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from builder.findings import DataPath, Fault, Severity
from builder.model.names import channel_name
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import use_path
from builder.rules.rule import Scope, rule

_WORDS = frozenset({"airbag", "restraint", "srs", "tensioner"})


_YELLOW: Final = "yellow"
"""The colour of restraint plugs; shell colours are any words."""


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each use of a yellow plug, and each end that is a restraint part."""
    yellow = {plug.id for plug in parts.vehicle.plugs if _YELLOW in plug.shell_colours}
    for feed in pack.plan.feeds:
        if feed.plug in yellow:
            yield Fault(
                use_path(parts.job, feed.channel),
                f"{channel_name(feed.channel)} is taken at plug {feed.plug}, whose housing is "
                "yellow: yellow is "
                "the restraint system",
                "look again which plug this is, and leave yellow ones alone",
            )
    zones = frozenset(parts.vehicle.safety.restraint_zones)
    for route in parts.job.routes:
        for key, place in (("from", route.from_place), ("to", route.to_place)):
            if place in zones or _names_a_part(place):
                yield _built_on((*route.path, key), place)
    for amplifier in parts.job.amplifiers:
        if _names_a_part(amplifier.place):
            yield _built_on((*amplifier.path, "place"), amplifier.place)
    if _names_a_part(parts.job.converter_place):
        yield _built_on(("converter_place",), parts.job.converter_place)


def _names_a_part(place: str) -> bool:
    return bool(_WORDS & set(place.lower().split()))


def _built_on(path: DataPath, place: str) -> Fault:
    return Fault(
        path,
        f'"{place}" is a part of the restraint system: nothing may be joined or fixed there',
        "use another place",
    )


RULE = rule("SAF101", Severity.STOP, Scope.JOB, check, hazard=True)
