"""A photo that is too large to be shown.

What it catches
---------------
A photo of more than 400 kB, or of more than 1600 pixels on its longer side.

Why it matters in the bay
-------------------------
Pages are opened on a phone behind a lift, and kept on it for work without a signal. A photo as a
camera writes it takes more than a hundred pages.

Example
-------
Fails::

    photos: [{file: radio-a.jpg, shows: plug A}]   # a file of 2.3 MB, 4000 x 3000 pixels

Passes::

    photos: [{file: radio-a.jpg, shows: plug A}]   # the same, 1600 x 1200 pixels, 210 kB

How to mend it
--------------
Save it with at most 1600 pixels on the longer side, as a JPEG of lower quality; cut away what is
not the plug. The page "Take down a car" makes photos small by itself.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.photo_file import (
    MOST_KEPT_BYTES,
    MOST_SHOWN_BYTES,
    MOST_SHOWN_PX,
    PhotoFile,
)
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, _shelf: Shelf) -> Iterator[Fault]:
    """Yield each photo that is larger than a page may show."""
    for photo in vehicle.photos:
        found = vehicle.photo_files.get(photo.file)
        if found and {"bytes", "pixels"} & {*found.faults}:
            yield Fault(
                (*photo.path, "file"),
                f"no page shows the photo {photo.file}: it has {_size(found)}",
                f"save it as a JPEG with at most {MOST_SHOWN_PX} pixels on the longer side and "
                f"{MOST_SHOWN_BYTES // 1000} kB",
            )


def _size(found: PhotoFile) -> str:
    if found.size_bytes > MOST_KEPT_BYTES:
        return f"more than {MOST_KEPT_BYTES // 1_000_000} MB"
    pixels = f"{found.width_px} by {found.height_px} pixels"
    return f"{pixels} in {-(-found.size_bytes // 1000)} kB"


RULE = rule("PIN135", Severity.WARN, Scope.VEHICLE, check)
