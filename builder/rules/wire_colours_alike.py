"""Two wires of one plug have the same colours.

What it catches
---------------
Two wires with the same base and stripe in one plug that do different jobs.

Why it matters in the bay
-------------------------
Ten centimetres behind the plug only the colour is left. Whoever cuts by colour has an even
chance.

Example
-------
Fails::

    pins:
      - {cavity: 4, function: speaker, channel: front-left, leg: negative, wire: {base: white}}
      - {cavity: 9, function: illumination, wire: {base: white}}

Passes::

    pins:
      - {cavity: 4, function: speaker, channel: front-left, leg: negative, wire: {base: white}}
      - {cavity: 9, function: illumination, wire: {base: white, stripe: red}}

How to mend it
--------------
Look again for a thin stripe. If they are truly alike, leave the finding: pages and plans
then tell the reader to go by the cavity, not by the colour.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.model.wire import Wire
from builder.model.words import PAIRED
from builder.rules.conditions import can_coexist
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield each wire that an earlier one of its plug cannot be told from by colour."""
    seen: defaultdict[tuple[str, str, str | None], list[Site]] = defaultdict(list)
    for site in wiring_of(vehicle).sites:
        wire = site.pin.wire
        if wire is None:
            continue
        earlier = seen[site.plug.id, wire.base, wire.stripe]
        other = next((found for found in earlier if _confused(found.pin, site.pin)), None)
        if other is not None:
            yield _fault(site, other, wire)
        earlier.append(site)


def _confused(first: Pin, second: Pin) -> bool:
    same_job = first.function == second.function and first.function not in PAIRED
    return not same_job and first.cavity != second.cavity and can_coexist(first, second)


def _fault(site: Site, other: Site, wire: Wire) -> Fault:
    colours = f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base
    return Fault(
        (*site.pin.path, "wire"),
        f"{called(site)} is {colours}, and so is {called(other)}: "
        "behind the plug nothing tells the two apart",
        "look for a thin stripe; if there is none, go by the cavity and leave this note",
    )


RULE = rule("PIN111", Severity.NOTE, Scope.RECORD, check)
