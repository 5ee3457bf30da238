"""A photo that is kept and shown on no page.

What it catches
---------------
A photo of the record without `by`, `licence` or `consent`. One with `consent: no` is left in peace.

Why it matters in the bay
-------------------------
A picture of the plug in its place is found sooner than a plug in words. Nobody may publish what
somebody else took, or a car with its plate, so what nobody was asked about is not shown.

Example
-------
Fails::

    photos:
      - {file: radio-a.jpg, shows: plug A from the wire side}

Passes::

    photos:
      - {file: radio-a.jpg, shows: plug A from the wire side, plug: A, by: alder-pit-audio,
         licence: CC0-1.0, consent: yes}

How to mend it
--------------
Ask who took it and whose car it is. Look for a face, a number plate, a chassis number. Then type
who took it, the licence, and `consent: yes`; or `consent: no`, and it stays in the book unseen.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.settled import Photo
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule

_TYPE = {
    "by": "by: the handle of who took it",
    "licence": "licence: CC0-1.0, or another that they give it under",
    "consent": "consent: yes if they agree and it shows no person, plate or chassis number, else "
    "no",
}


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield each photo that lacks what it needs to be shown."""
    for photo in vehicle.photos:
        if photo.lacks and photo.consent != "no":
            yield _fault(photo)


def _fault(photo: Photo) -> Fault:
    message = f"no page shows the photo {photo.file}: it lacks {', '.join(photo.lacks)}"
    return Fault(photo.path, message, "type " + "; ".join(_TYPE[key] for key in photo.lacks))


RULE = rule("PIN133", Severity.NOTE, Scope.RECORD, check, not_known=(Severity.NOTE,))
