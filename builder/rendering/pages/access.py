"""What of a car comes off, how, and what is uncovered; the ways through its bulkheads."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.access import AccessPart
from builder.model.vehicle import Vehicle
from builder.planning.car.access import GROMMET_WORDS, fastener_words, radio_parts
from builder.rendering.pages.wording import figure, plain


class AccessView(NamedTuple):
    """A part that comes off, in phrases."""

    name: str
    kind: str
    uncovers: str
    after: str
    how: str
    near: str
    time: str


class PassageView(NamedTuple):
    """A way through a bulkhead, in phrases."""

    name: str
    where: str
    between: str
    grommet: str
    room: str
    mind: str


class RadioOut(NamedTuple):
    """How the radio comes out: what is off before it, the steps, what holds it."""

    first: str
    steps: tuple[str, ...]
    fasteners: str


def access_views(vehicle: Vehicle) -> list[AccessView]:
    """Return every part that comes off, as the record lists them."""
    return [
        AccessView(
            part.name,
            part.kind,
            "; ".join(part.uncovers),
            ", ".join(part.behind) or "–",
            _how(part),
            plain(part.restraint),
            figure(part.minutes, "min"),
        )
        for part in vehicle.access
    ]


def _how(part: AccessPart) -> str:
    """How a part comes off, and what goes with it; each in a sentence where it is recorded."""
    said = {
        "": "; ".join(part.steps),
        "Held by ": fastener_words(part.fasteners),
        "With it: ": ", ".join(part.plugs),
        "Slides ": figure(part.travel_mm, "mm", ""),
        "Mind: ": "; ".join(part.hazards),
    }
    return (
        ". ".join(f"{before}{words}" for before, words in said.items() if words) or "not recorded"
    )


def passage_views(vehicle: Vehicle) -> list[PassageView]:
    """Return every way through a bulkhead."""
    return [
        PassageView(
            each.name,
            each.where,
            " and ".join(each.between),
            GROMMET_WORDS[each.grommet],
            figure(each.free_mm, "mm"),
            "; ".join(each.hazards) or "–",
        )
        for each in vehicle.passages
    ]


def radio_out(vehicle: Vehicle) -> RadioOut | None:
    """Return how the radio comes out, None where nobody wrote it down."""
    removal = vehicle.radio.removal
    if removal is None:
        return None
    first = ", ".join(part.name for part in radio_parts(vehicle))
    return RadioOut(first, removal.steps, fastener_words(removal.fasteners))
