"""What lies beside a record under the name of a photo, and what of it keeps it off the pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

MOST_KEPT_BYTES = 4_000_000
"""A book keeps no photo that is larger. Chosen by this project."""
MOST_SHOWN_BYTES = 400_000
"""A page shows no photo that is larger: a phone on a bad line has it in seconds. Chosen by this
project."""
MOST_SHOWN_PX = 1600
"""A shown photo has at most so many pixels on its longer side. Chosen by this project."""

PhotoFault = Literal[
    "missing", "linked", "unread", "no_picture", "bytes", "pixels", "metadata",
]  # fmt: skip
"""What keeps the file of a photo off the pages: it is not there, is another file too, cannot be
read, is no picture, is too large, has too many pixels, tells more than the picture."""


@dataclass(frozen=True, slots=True)
class PhotoFile:
    """What one look at a photo's file found.

    `width_px` and `height_px` are as it is shown, the way up that it says. `told` names the
    metadata in it, `why` says why it could not be read. `ending` is that of its kind by its bytes,
    with the dot; `sha256` is the sum of its bytes in hexadecimal. What was not read has none.
    """

    faults: tuple[PhotoFault, ...] = ()
    why: str = ""
    size_bytes: int = 0
    width_px: int = 0
    height_px: int = 0
    ending: str = ""
    told: tuple[str, ...] = ()
    sha256: str = ""
