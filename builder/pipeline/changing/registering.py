"""`new contributors`: a record for each handle of a book that nobody registered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, NamedTuple

from builder.book import FOLDERS, Book, Root, home_of
from builder.data_files import schema_ref
from builder.editing import write_record
from builder.model.vehicle import Vehicle
from builder.model.words import Origin
from builder.pipeline.changing.record_files import create_new
from builder.pipeline.checking.every_vehicle import vehicles
from builder.pipeline.checking.reserved_ids import reserved_id
from builder.pipeline.checking.shelf import counting_shelf
from builder.proof.contributors import Registered, look_alike


@dataclass(frozen=True, slots=True)
class Handle:
    """A handle that nobody registered: since when it stands in the book, and in which records."""

    name: str
    since: str
    data: Origin
    private: bool


class HeldBack(NamedTuple):
    """A handle that is not registered by itself, and the one that it looks like."""

    handle: str
    like: str


@dataclass(frozen=True, slots=True)
class Registering:
    """What would be written: a text for each file; and what somebody has to decide first."""

    texts: dict[Path, str] = field(default_factory=dict)
    held_back: tuple[HeldBack, ...] = ()


def registering(book: Book) -> Registering:
    """Return a record for each handle of the book's own vehicles that nobody registered.

    Of handles that look like one another, or like a registered one, none is registered: whether
    they are one shop, no program knows. Nothing is written.
    """
    registered = counting_shelf(book).contributors
    handles = {each.name: each for each in _unregistered(book, registered)}
    alike = {handle: _like(handle, handles, registered) for handle in handles}
    texts = dict(_text(book, handles[name]) for name, like in alike.items() if not like)
    held = tuple(HeldBack(name, like) for name, like in alike.items() if like)
    return Registering(texts, held)


def write_registered(found: Registering) -> None:
    """Write the records.

    Raises:
        FileExistsError: somebody made one of them meanwhile; those before it are written.
        OSError: one cannot be written; nothing is left of it.
    """
    for path, text in found.texts.items():
        create_new(path, text)


def _unregistered(book: Book, registered: Registered) -> Iterator[Handle]:
    """Yield every unregistered handle once, with its first day, in the order of names."""
    found: dict[str, Handle] = {}
    cars = list(vehicles(book))
    lenders = book.lenders(read.file.path for read, _ in cars)
    for read, vehicle in (car for car in cars if lenders[car[0].file.path] is None):
        for name, day in _named(vehicle):
            seen = Handle(name, day, vehicle.data, read.file.is_private)
            if name not in registered and not reserved_id("contributor", name):
                found[name] = _together(found.get(name, seen), seen)
    yield from (found[name] for name in sorted(found))


def _named(vehicle: Vehicle) -> Iterator[tuple[str, str]]:
    yield from ((session.by, session.date) for session in vehicle.sessions)
    claims = (c for plug in vehicle.plugs for pin in plug.pins for c in pin.claims)
    yield from ((claim.by, claim.date) for claim in claims)


def _together(one: Handle, other: Handle) -> Handle:
    data: Origin = "invented" if one.data == other.data == "invented" else "measured"
    return replace(
        one,
        since=min(one.since, other.since),
        data=data,
        private=one.private and other.private,
    )


def _like(handle: str, handles: dict[str, Handle], registered: Registered) -> str:
    others = sorted({*handles, *registered})
    return next((other for other in others if look_alike(handle, other)), "")


def _text(book: Book, handle: Handle) -> tuple[Path, str]:
    folder = next(name for name, kind in FOLDERS.items() if kind == "contributor")
    path = _root(book, handle.private).folder / folder / f"{handle.name}.yaml"
    data: dict[str, Any] = {
        "schema": 1,
        "id": handle.name,
        "data": handle.data,
        "name": handle.name.replace("-", " ").title(),
        "kind": "shop",
        "since": handle.since,
    }
    ref = schema_ref(path, "contributor", home_of(path))
    return path, write_record(data, "contributor", schema_ref=ref)


def _root(book: Book, private: bool) -> Root:
    """Who measured private cars alone is registered where nobody else sees it."""
    own = book.own_roots
    return next((root for root in own if private and root.visibility == "private"), own[0])
