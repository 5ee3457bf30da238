"""A visit that was counted on the other face cannot be turned.

What it catches
---------------
A visit, or a claim with a `read_from` of its own, that was counted on the other face than its plug
and cannot be turned to it: the housing is not in the book, a cavity has no counterpart there, or
the counterpart has no line. What can be turned is turned, and counts as if counted on
the plug's face.

Why it matters in the bay
-------------------------
Cavity 1 of one face is the last of its row on the other. Taken as it stands, such a visit would
speak for and against the wrong wires, so none of it is counted.

Example
-------
Fails::

    # rows: [1, 2, 3, 4], [5, 6, 7, 8]; the plug was counted on the wire side
    plugs:
      - {id: A, read_from: wire_side, pins: [{cavity: 1, function: constant,
         readings: [{session: s2}]}]}   # 1 is 4 of the plug, and there is no line for 4
    sessions:
      - {id: s2, read_from: mating_side}

Passes::

    plugs:
      - {id: A, read_from: wire_side, pins: [{cavity: 1, function: ground,
         readings: [{session: s2}]}, {cavity: 4, function: constant}]}
    sessions:
      - {id: s2, read_from: mating_side}

How to mend it
--------------
Give the cavity that is named a line, `function: unknown` will do, or file the readings under the
numbers of the plug's own face and say that face. Numbers moulded into the housing are the same from
both sides: `read_from: moulded`.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.names import FACE_NAMES
from builder.model.plugs import FaceRefusal, Plug
from builder.model.vehicle import Vehicle
from builder.proof.faces.face_text import both_faces
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each visit and claim that is not counted, once for each plug."""
    for refused in vehicle.face_refusals:
        plug = vehicle.plug(refused.plug)
        if plug is not None:
            yield _fault(refused, plug, shelf)


def _fault(refused: FaceRefusal, plug: Plug, shelf: Shelf) -> Fault:
    housing = shelf.housings.get(plug.housing)
    what = f'visit "{refused.session}"' if refused.session else f"a claim by {refused.who}"
    return Fault(
        refused.path,
        f'{what} counted plug "{plug.id}" {FACE_NAMES[refused.counted_on]}, the plug is counted '
        f"{FACE_NAMES[plug.read_from]}: it is not counted, because {refused.why}",
        "find two wires by colour in the drawings, then give the cavity a line, or file it under "
        f"the plug's numbers and type read_from: {plug.read_from}",
        drawing=both_faces(housing, refused.cavities) if housing else (),
    )


RULE = rule("PIN124", Severity.FIX, Scope.VEHICLE, check)
