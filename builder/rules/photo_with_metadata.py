"""A photo that tells more than its picture.

What it catches
---------------
A photo whose file carries Exif, XMP, IPTC, comments, texts, or data behind the end of the picture.
Which side is up may stay, and so may a colour profile.

Why it matters in the bay
-------------------------
A phone writes into each photo where and when it was taken, and with which device: whose drive the
car stood in. Whoever gives a photo of a plug does not mean to give that.

Example
-------
Fails::

    photos: [{file: radio-a.jpg, shows: plug A}]   # with the place where it was taken

Passes::

    photos: [{file: radio-a.jpg, shows: plug A}]   # after loombook mend

How to mend it
--------------
`loombook mend` takes it out. The picture itself stays, bit for bit.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, _shelf: Shelf) -> Iterator[Fault]:
    """Yield each photo whose file carries metadata."""
    for photo in vehicle.photos:
        found = vehicle.photo_files.get(photo.file)
        if found and "metadata" in found.faults:
            yield Fault(
                (*photo.path, "file"),
                f"no page shows the photo {photo.file}: it carries {', '.join(found.told)}",
                "loombook mend takes it out; the picture stays bit for bit",
            )


RULE = rule("PIN136", Severity.WARN, Scope.VEHICLE, check)
