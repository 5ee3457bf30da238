"""A photo of a plug that the record does not have.

What it catches
---------------
A photo whose `plug` is none of the record's plugs.

Why it matters in the bay
-------------------------
The page shows a photo beside its plug. Beside the wrong plug, or beside none, it sends a hand
behind the wrong panel.

Example
-------
Fails::

    plugs: [{id: A}]
    photos: [{file: amplifier.jpg, shows: plug D with its latch, plug: D}]

Passes::

    plugs: [{id: A}, {id: D}]
    photos: [{file: amplifier.jpg, shows: plug D with its latch, plug: D}]

How to mend it
--------------
Type the letter of the plug, or say where it is with `place` in its stead.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield each photo that names a plug which is not there."""
    plugs = [plug.id for plug in vehicle.plugs]
    for photo in vehicle.photos:
        if photo.plug is not None and photo.plug not in plugs:
            yield Fault(
                (*photo.path, "plug"),
                f"the photo {photo.file} is of plug {photo.plug}: this record describes plug "
                f"{', '.join(plugs)}",
                "type the letter of one of them, or place: and where it is",
            )


RULE = rule("PIN137", Severity.WARN, Scope.RECORD, check)
