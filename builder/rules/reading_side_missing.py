"""Nobody says which face the numbers were counted on.

What it catches
---------------
`read_from: unknown` of a plug with described pins (a stop), or of a visit whose readings
are used (a warning: those readings count for less).

Why it matters in the bay
-------------------------
Counted on the open face instead of the wire side, 1 becomes the last of its row: constant
turns into illumination, a speaker leg into ground.

Example
-------
Fails::

    plugs:
      - {id: A, read_from: unknown, pins: [{cavity: 1, function: constant}]}

Passes::

    plugs:
      - {id: A, read_from: wire_side, pins: [{cavity: 1, function: constant}]}

How to mend it
--------------
Hold the plug in hand, find the wire colour of two known cavities, and type wire_side,
mating_side, or moulded when the numbers stand on the housing itself.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield plugs, and sessions in use, whose reading side is unknown."""
    for plug in vehicle.plugs:
        if plug.read_from == "unknown" and plug.pins:
            yield Fault(
                (*plug.path, "read_from"),
                f'nobody says which face plug "{plug.id}" was counted on: from the other face '
                "every cavity number is mirrored, so no plan can be made from it",
                "look at two wires you can name, then type read_from: wire_side or mating_side",
            )
    yield from _sessions(vehicle)


def _sessions(vehicle: Vehicle) -> Iterator[Fault]:
    unknown = [session for session in vehicle.sessions if session.read_from == "unknown"]
    if not unknown:
        return
    used = {reading.session for _, reading in wiring_of(vehicle).measured}
    for session in unknown:
        if session.id in used:
            yield Fault(
                (*session.path, "read_from"),
                f'nobody says which face visit "{session.id}" counted on: its readings may '
                "belong to mirrored cavities and count for less",
                "type read_from: wire_side, mating_side or moulded",
                Severity.WARN,
            )


RULE = rule("PIN106", Severity.STOP, Scope.RECORD, check, not_known=Severity)
