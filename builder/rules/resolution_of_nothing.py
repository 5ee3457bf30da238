"""A resolution that settles nothing.

What it catches
---------------
An entry of `resolutions` whose pin is not in the record, or whose `retires` names a visit or
contributor that has no reading and no claim at that pin, or resolutions that together retire
all evidence at a pin.

Why it matters in the bay
-------------------------
A resolution takes evidence out of the reckoning. With a slip in a name the dispute stays, and
the plans it blocks stay blocked; one that retires both sides leaves a pin that nobody vouches
for and hides that two people looked.

Example
-------
Fails::

    resolutions:
      - {pin: A.4, by: alder-pit-audio, date: 2024-06-01, deciding: 0.02 V after 70 min locked,
         retires: [harbor-sound]}     # the claim at A.4 is by harbour-sound

Passes::

    resolutions:
      - {pin: A.4, by: alder-pit-audio, date: 2024-06-01, deciding: 0.02 V after 70 min locked,
         retires: [harbour-sound]}

How to mend it
--------------
Write the pin as plug and cavity, and in `retires` the ids of visits or the contributors that lost.
Put the deciding reading among the pin's readings, so that the side that won has it to show.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Resolution, Vehicle
from builder.proof.grading.weighing import Place, mates_of, visits_of
from builder.rules.rule import Scope, rule
from builder.rules.wording import did_you_mean


class _Voice(NamedTuple):
    """One piece of evidence: who gave it, and in which session; "" for a claim."""

    by: str
    session: str


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield resolutions that name nothing, and pins whose evidence is all retired."""
    places = _places(vehicle)
    for settled in vehicle.resolutions:
        if settled.pin in places:
            voices = _voices(vehicle, places[settled.pin])
            yield from _idle(settled, voices)
            yield from _total(settled, voices, vehicle)
        else:
            yield Fault(
                (*settled.path, "pin"),
                f'there is no pin "{settled.pin}" to settle',
                did_you_mean(settled.pin, places),
            )


def _places(vehicle: Vehicle) -> dict[str, list[Place]]:
    """Every cavity with its lines; a cavity may have several, for different trims."""
    found: dict[str, list[Place]] = {}
    for plug in vehicle.plugs:
        for pin in plug.pins:
            found.setdefault(f"{plug.id}.{pin.cavity}", []).append(Place(plug.id, pin))
    return found


def _voices(vehicle: Vehicle, places: list[Place]) -> frozenset[_Voice]:
    """Who measured or claimed a cavity; readings of the other wire of a pair speak for both."""
    found = {_Voice(claim.by, "") for place in places for claim in place.pin.claims}
    for place in places:
        for name in visits_of(place, mates_of(vehicle, place)):
            session = vehicle.session(name)
            if session is not None:
                found.add(_Voice(session.by, session.id))
    return frozenset(found)


def _idle(settled: Resolution, voices: frozenset[_Voice]) -> Iterator[Fault]:
    known = {name for voice in voices for name in voice if name}
    for index, name in enumerate(settled.retires):
        if name not in known:
            yield Fault(
                (*settled.path, "retires", index),
                f'"{name}" has no reading and no claim at {settled.pin}, so nothing is retired',
                did_you_mean(name, known),
            )


def _total(settled: Resolution, voices: frozenset[_Voice], vehicle: Vehicle) -> Iterator[Fault]:
    """Yield one fault, at the last resolution of a pin, when nobody is left to vouch for it."""
    same = [one for one in vehicle.resolutions if one.pin == settled.pin]
    gone = {name for one in same for name in one.retires}
    if settled is same[-1] and voices and all(set(voice) & gone for voice in voices):
        yield Fault(
            (*settled.path, "retires"),
            f"everything that speaks for or against {settled.pin} is retired, and nothing is left",
            "retire only the side that lost; the deciding reading belongs among the pin's readings",
        )


RULE = rule("PIN121", Severity.FIX, Scope.VEHICLE, check)
