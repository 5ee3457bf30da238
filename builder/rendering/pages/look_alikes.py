"""Plugs that could be taken for another, as the page of their vehicle shows them."""

from __future__ import annotations

from typing import NamedTuple

from markupsafe import Markup

from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.plugs import LookAlike, Plug
from builder.model.vehicle import Vehicle
from builder.model.words import Tri
from builder.rendering.drawings.look_alikes import look_alikes


class LookAlikeView(NamedTuple):
    """A plug that could be taken for this one."""

    name: str
    fits: str
    tell: tuple[str, ...]
    drawing: Markup


_FITS: dict[Tri, str] = {
    "yes": "It goes in mechanically",
    "no": "It does not go in",
    "unknown": "Not known whether it goes in",
}


def look_alike_view(
    entry: LookAlike, plug: Plug, housing: Housing | None, vehicle: Vehicle, shelf: Shelf
) -> LookAlikeView:
    """Return what a vehicle's record says of one; two of its own plugs are drawn side by side."""
    other = vehicle.plug(entry.plug) if entry.plug else None
    shell = shelf.housings.get(other.housing if other else entry.housing or "")
    drawn = Markup("")
    if other and shell and housing and plug.id < other.id:  # each two plugs are drawn once
        drawn = look_alikes(housing, plug, shell, other)
    name = f"plug {other.id}, {other.name}" if other else shell.name if shell else entry.housing
    return LookAlikeView(name or entry.plug or "", _FITS[entry.fits], entry.tell, drawn)
