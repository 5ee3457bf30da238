"""The photos of a vehicle that a page shows: beside the plug that they show, or among the rest."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.settled import Photo
from builder.model.vehicle import Vehicle

FOLDER = "photos"
_NAME_LETTERS = 32
"""Of the sum of its bytes, in the name that a shown photo has on the site."""


class PhotoView(NamedTuple):
    """A shown photo: `url` from the top of the site, its size, its words, and who gave it."""

    url: str
    file: str
    width_px: int
    height_px: int
    alt: str
    caption: str
    by: str
    licence: str


def photo_views(vehicle: Vehicle, plug: str | None) -> list[PhotoView]:
    """The shown photos of one plug; with None those of no plug of the record."""
    plugs = {each.id for each in vehicle.plugs}
    views = ((photo, photo_view(vehicle, photo)) for photo in vehicle.photos)
    return [v for p, v in views if v and (p.plug if p.plug in plugs else None) == plug]


def photo_view(vehicle: Vehicle, photo: Photo) -> PhotoView | None:
    """What a page shows of a photo; None where consent, licence or file do not allow it."""
    found = vehicle.photo_files.get(photo.file)
    if not photo.may_be_shown or found is None or found.faults:
        return None
    return PhotoView(
        f"{FOLDER}/{found.sha256[:_NAME_LETTERS]}{found.ending}",
        photo.file,
        found.width_px,
        found.height_px,
        photo.alt or photo.shows,
        _sentence(photo.shows + (f", {photo.place}" if photo.place else "")),
        photo.by or "",
        _LICENCES.get(photo.licence or "", photo.licence or ""),
    )


_LICENCES = {"own": "shown here by leave, all rights kept"}
"""What pages say of a licence that is no name of one."""


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]
