"""Nobody has measured or claimed a pin that plans rely on.

What it catches
---------------
A constant, ground, switched or turn-on pin without any reading or claim: a stop when no
other pin can serve in its place, else a warning. A speaker pair without any evidence is a
warning: it may be listed, but no plan will break it.

Why it matters in the bay
-------------------------
A pin that nobody vouches for may have been typed by mistake. Plans made with it put the
risk on the person with the soldering iron.

Example
-------
Fails::

    pins:
      - {cavity: 1, function: constant}

Passes::

    pins:
      - cavity: 1
        function: constant
        readings:
          - {session: s1, state: asleep, minutes: 65, quantity: dc_v, value: 12.6, battery_v: 12.6}
          - {session: s1, state: run, load: lamp_0.4a, quantity: dc_v, value: 12.3, battery_v: 12.4}

How to mend it
--------------
Measure it in the states that define its function, or add the claim you took it from. Until then
the record is thin, and nothing has to be accepted for that.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.rules.grades import ROLES, good_roles, role_sites
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield pins and pairs without any evidence."""
    bare = {role: list(filter(_is_bare, role_sites(vehicle, role))) for role in ROLES}
    served = good_roles(vehicle, shelf) if any(bare.values()) else frozenset()
    for role, sites in bare.items():
        for site in sites:
            yield _fault(site, f"a {role} pin", Severity.WARN if role in served else None)
    for pair in wiring_of(vehicle).pairs:
        legs = (*pair.positives, *pair.negatives)
        if pair.function == "speaker" and all(map(_is_bare, legs)):
            yield _fault(legs[0], "this speaker pair", Severity.WARN)


def _is_bare(site: Site) -> bool:
    return not site.pin.readings and not site.pin.claims


def _fault(site: Site, what: str, severity: Severity | None) -> Fault:
    return Fault(
        (*site.pin.path, "function"),
        f"nobody has measured or claimed {called(site)}: no reading, no claim, at least one "
        f"reading is needed before a plan may use {what}",
        "measure it and add readings, or add the claim it was taken from",
        severity,
    )


RULE = rule("EVD101", Severity.STOP, Scope.VEHICLE, check, not_known=Severity)
