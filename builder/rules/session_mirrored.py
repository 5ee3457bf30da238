"""The readings of a visit fit once the plug is mirrored.

What it catches
---------------
A visit whose readings contradict the record, and fit it in at least eight of ten places (at
least four) when the plug is seen from the other face or upside down, and in under half as it
stands.

Why it matters in the bay
-------------------------
Nobody measured wrong and no car is different: somebody counted from the wrong face. Until that
is looked at, every other finding about these readings points the wrong way, and so would a
correction of the functions.

Example
-------
Fails::

    # housing rows: [1, 2, 3, 4], [5, 6, 7, 8]; the record has constant in 1, ground in 5
    pins:
      - {cavity: 4, function: accessory, readings: [{session: s2, state: asleep, minutes: 65,
         quantity: dc_v, value: 12.6, battery_v: 12.6}]}   # and three more like it

Passes::

    pins:
      - {cavity: 1, function: constant, readings: [{session: s2, state: asleep, minutes: 65,
         quantity: dc_v, value: 12.6, battery_v: 12.6}]}

How to fix
----------
Take the plug in hand and find two of the wires by colour. When the visit was counted from the
other face, move its readings to the cavities named; when it was not, measure the two again.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.attack import Attack, attack_of
from builder.proof.grading import Grade
from builder.rules.grades import grades_of
from builder.rules.rule import Rule, Scope
from builder.rules.wiring import Site


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each visit that was counted from another face, once for each plug."""
    seen: set[tuple[str, DataPath]] = set()
    for site, grade in grades_of(vehicle, shelf):
        attack = attack_of(vehicle, site.pin, grade, shelf.defaults, shelf.housings)
        if attack is None or attack.first.cause != "face":
            continue
        for path in _visits_against(vehicle, grade):
            if (site.plug.id, path) not in seen:
                seen.add((site.plug.id, path))
                yield _fault(site, path, attack)


def _visits_against(vehicle: Vehicle, grade: Grade) -> Iterator[DataPath]:
    against = {name for item in grade.counted if not item.supports for name in item.sessions}
    for index, session in enumerate(vehicle.sessions):
        if session.id in against:
            yield ("sessions", index, "read_from")


def _fault(site: Site, path: DataPath, attack: Attack) -> Fault:
    first = attack.first
    return Fault(
        path,
        f'plug "{site.plug.id}" was counted from another face in this visit: {first.why}',
        f"before anything else about these readings, {first.do}",
    )


RULE = Rule(
    id="PIN123",
    slug="session-mirrored",
    severity=Severity.FIX,
    scope=Scope.VEHICLE,
    check=check,
    title="The readings of a visit fit once the plug is mirrored",
)
