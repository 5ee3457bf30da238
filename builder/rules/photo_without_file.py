"""A photo whose file is not there or is no picture.

What it catches
---------------
A photo whose file does not lie beside the record, is a link, cannot be read, or is by its bytes no
JPEG, PNG or WebP picture, whatever its name says.

Why it matters in the bay
-------------------------
A photo that is named and not there is looked for in vain with the trim already off. A file that is
called a picture and is none could do harm in a browser, so no page shows it.

Example
-------
Fails::

    photos: [{file: radio-b.jpg, shows: plug A}]   # beside the record lies radio-a.jpg

Passes::

    photos: [{file: radio-a.jpg, shows: plug A}]   # and it lies beside the record

How to mend it
--------------
Lay the photo beside the record under that name, as a file of its own; or take the item out.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.photo_file import PhotoFile
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, _shelf: Shelf) -> Iterator[Fault]:
    """Yield each photo that has no picture for a file."""
    for photo in vehicle.photos:
        found = vehicle.photo_files.get(photo.file)
        said = _said(found) if found else None
        if said:
            yield Fault((*photo.path, "file"), f"the photo {photo.file} {said[0]}", said[1])


def _said(found: PhotoFile) -> tuple[str, str] | None:
    """What is wrong with a file, and what to do."""
    if "missing" in found.faults:
        return "does not lie beside the record", "lay it there, or take the item out of photos"
    if "linked" in found.faults:
        return (
            "is a link, or a second name of another file",
            "copy the picture itself beside the record",
        )
    if "unread" in found.faults:
        return f"cannot be read: {found.why}", "lay a plain file there that you may read"
    if "no_picture" in found.faults:
        return f"cannot be shown: {found.why}", "save it as a JPEG picture under that name"
    return None


RULE = rule("PIN134", Severity.WARN, Scope.VEHICLE, check)
