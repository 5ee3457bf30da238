"""The readings of a visit fit once the plug is mirrored.

What it catches
---------------
A visit whose readings do not fit the record as it stands, and fit it in at least eight of ten
places (at least four) when the plug is seen from the other face or upside down: in three of ten
more than as it stands, or in four places more. What fits from both faces, such as a plug of
speakers alone, cannot be told. Of two visits that disagree, the one of unknown face is the one to
doubt.

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

How to mend it
--------------
Take the plug in hand and find two of the wires by colour. When the visit was counted from the
other face, say so in its `read_from`, and its cavities are turned by themselves; or move its
readings to the cavities named. When it was not, measure the two again.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.face import explain_visit
from builder.proof.contradictions.spoken_against import Explanation, attack_of
from builder.proof.faces.face_text import both_faces
from builder.rules.grades import grades_of
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each visit that was counted from another face, once for each plug."""
    told: set[tuple[str, str]] = set()
    for site, grade in grades_of(vehicle, shelf):
        attack = attack_of(vehicle, site.pin, grade, shelf.defaults, shelf.housings)
        if attack is None or attack.first.cause != "face":
            continue
        for index, session in enumerate(vehicle.sessions):
            if session.id in attack.first.doubts and (site.plug.id, session.id) not in told:
                told.add((site.plug.id, session.id))
                yield _fault(vehicle, site.plug, index, attack.first, shelf)
        against = {name for item in grade.counted if not item.supports for name in item.sessions}
        told |= {(site.plug.id, name) for name in against}
    yield from _unopposed(vehicle, shelf, told)


def _unopposed(vehicle: Vehicle, shelf: Shelf, told: set[tuple[str, str]]) -> Iterator[Fault]:
    """Visits that contradict nothing where they stand, since nothing is said there."""
    for plug in vehicle.plugs:
        housing = shelf.housings.get(plug.housing)
        for index, session in enumerate(vehicle.sessions):
            if housing and (plug.id, session.id) not in told:
                found = explain_visit(vehicle, plug, housing, session.id, shelf.defaults)
                if found is not None:
                    yield _fault(vehicle, plug, index, found, shelf)


def _fault(vehicle: Vehicle, plug: Plug, index: int, first: Explanation, shelf: Shelf) -> Fault:
    housing = shelf.housings.get(plug.housing)
    read = {
        pin.cavity
        for pin in plug.pins
        if any(reading.session in first.doubts for reading in pin.readings)
    }
    do = _turning(vehicle, index, plug) or first.do
    return Fault(
        ("sessions", index, "read_from"),
        f'plug "{plug.id}" was counted from another face in this visit: {first.why}',
        f"before anything else about these readings, {do}",
        drawing=both_faces(housing, read) if housing else (),
    )


def _turning(vehicle: Vehicle, index: int, plug: Plug) -> str:
    """What turns a visit that stands in a file of its own, which nobody types over."""
    session = vehicle.sessions[index].id
    own = (v.id for v in vehicle.visits if any(each.id == session for each in v.sessions))
    name = next(own, "")
    told = "find two wires by colour in the drawings; then: loombook visit turn"
    return f"{told} {name} --plug {plug.id}" if name else ""


RULE = rule("PIN123", Severity.FIX, Scope.VEHICLE, check)
