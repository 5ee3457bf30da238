"""A handle that nobody registered.

What it catches
---------------
A visit or claim whose `by` is no record in `contributors`. All such handles of a record count
together as one contributor; one that looks like a registered handle counts as that one.

Why it matters in the bay
-------------------------
Two shops prove more than one, because one shop repeats its own mistake. A slip in a shop's name
makes a second shop of it, and a pin looks proved by two when one has seen it.

Example
-------
Fails::

    # contributors/ has alder-pit-audio
    sessions:
      - {id: s1, by: alder-pit-audio}
      - {id: s2, by: alderpit-audio}

Passes::

    # contributors/ has alder-pit-audio and harbour-sound
    sessions:
      - {id: s1, by: alder-pit-audio}
      - {id: s2, by: harbour-sound}

How to mend it
--------------
`loombook new contributor` registers one handle, `loombook new contributors` all of a book. Where it
is another spelling of a registered one, type that.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.contributors import registered_like
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield the first place of each handle that is not registered."""
    for handle, path in _first_places(vehicle).items():
        if handle not in shelf.contributors:
            like = registered_like(handle, shelf.contributors)
            yield _looks_like(path, handle, like) if like else _not_known(path, handle)


def _first_places(vehicle: Vehicle) -> dict[str, DataPath]:
    places: dict[str, DataPath] = {}
    for session in vehicle.sessions:
        places.setdefault(session.by, (*session.path, "by"))
    for claim in (c for plug in vehicle.plugs for pin in plug.pins for c in pin.claims):
        places.setdefault(claim.by, (*claim.path, "by"))
    return places


def _looks_like(path: DataPath, handle: str, like: str) -> Fault:
    return Fault(
        path,
        f'"{handle}" is not registered and looks like "{like}": it counts as that contributor',
        f"type {like}; if they are two, register it too, and say so in both records under "
        "not_same_as",
        severity=Severity.WARN,
    )


def _not_known(path: DataPath, handle: str) -> Fault:
    return Fault(
        path,
        f'nobody registered "{handle}": with every other such handle it counts as one contributor',
        "register it: loombook new contributor, or all of this book: loombook new contributors",
    )


RULE = rule("EVD110", Severity.NOTE, Scope.VEHICLE, check, not_known=(Severity.NOTE,))
