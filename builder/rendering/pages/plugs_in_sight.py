"""The plugs that the answers of a car stand on, beside the answers where there is room for both."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup

from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.rendering.drawings.once_more import faces_once_more
from builder.rendering.pages.answers import Answer
from builder.rendering.pages.wording import anchor


class PlugInSight(NamedTuple):
    """A plug once more: where it is drawn with its pins, and its two faces."""

    anchor: str
    id: str
    name: str
    faces: tuple[Markup, ...]


def plugs_in_sight(
    vehicle: Vehicle, shelf: Shelf, rows: Iterable[Answer]
) -> tuple[PlugInSight, ...]:
    """Return the plugs of `vehicle` that are drawn on its page and that an answer stands on."""
    asked = {lead.plug for row in rows for entry in row.entries for lead in entry.leads}
    return tuple(
        PlugInSight(anchor("plug", plug.id), plug.id, plug.name, faces_once_more(housing, plug))
        for plug in vehicle.plugs
        if plug.id in asked and (housing := shelf.housings.get(plug.housing))
    )
