"""What of a car comes off, how, and what is uncovered; the ways through its bulkheads."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.model.access import AccessPart, Fastener, Passage
from builder.model.vehicle import Vehicle
from builder.planning.car.access import radio_parts
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.declared_facts import top_facts


class AccessView(NamedTuple):
    """A part that comes off, or a way through a bulkhead: what it is, how it is done, the rest."""

    name: str
    what: str
    steps: tuple[str, ...]
    fasteners: str
    facts: list[Fact]


class RadioOut(NamedTuple):
    """How the radio comes out: what is off before it, the steps, what holds it."""

    first: str
    steps: tuple[str, ...]
    fasteners: str


def access_views(vehicle: Vehicle) -> list[AccessView]:
    """Return every part that comes off, as the record lists them."""
    return [_part_view(part) for part in vehicle.access]


def _part_view(part: AccessPart) -> AccessView:
    held = fastener_words(part.fasteners)
    return AccessView(part.name, part.kind, part.steps, held, top_facts(part))


def passage_views(vehicle: Vehicle) -> list[AccessView]:
    """Return every way through a bulkhead."""
    return [_passage_view(passage) for passage in vehicle.passages]


def _passage_view(passage: Passage) -> AccessView:
    return AccessView(passage.name, passage.where, (), "", top_facts(passage))


def radio_out(vehicle: Vehicle) -> RadioOut | None:
    """Return how the radio comes out, None where nobody wrote it down."""
    removal = vehicle.radio.removal
    if removal is None:
        return None
    first = ", ".join(part.name for part in radio_parts(vehicle))
    return RadioOut(first, removal.steps, fastener_words(removal.fasteners))


def fastener_words(fasteners: Sequence[Fastener]) -> str:
    """Return what holds a part: "4 × six-lobe 20, 2 × plastic clip"."""
    return ", ".join(f"{each.count} × {each.head}" for each in fasteners)
