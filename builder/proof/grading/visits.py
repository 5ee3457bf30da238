"""One visit against every kind a pin may be of, and against all that it is not said to be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.clashes import wire_clashes
from builder.proof.contradictions.pair_clashes import pair_clashes
from builder.proof.grading.weighing import Place, Tally, Visit, tally
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.shapes import Kind


def judged_visit(
    vehicle: Vehicle,
    place: Place,
    mates: tuple[Place, ...],
    visit: Visit,
    choices: Sequence[Kind],
    defaults: HouseDefaults,
) -> list[Tally]:
    """Return how a visit stands to each of `choices`, with what no wire of that function reads."""
    seen = replace(place.pin, readings=visit.own)
    clashes = wire_clashes(seen, defaults)
    clashes += pair_clashes(vehicle, place, mates, visit, defaults)
    tallies = [tally(place, mates, visit, kind, defaults) for kind in choices]
    for one in tallies:
        one.out_of_step.extend(clashes)
    return tallies


def proved_otherwise(place: Place, visit: Visit, defaults: HouseDefaults) -> Kind | None:
    """Return the kind of another function that a visit's own readings prove in full, if any.

    A pair takes readings of two wires and is not looked for: its other wire is not known here.
    """
    own = Visit(visit.own, ())
    for kind in kinds(defaults).values():
        if kind.function == place.pin.function or not kind.defining or kind.partner:
            continue
        found = tally(place, (), own, kind, defaults)
        whole = set(kind.defining) <= found.proved and not found.battery_missing
        seen = replace(place.pin, function=kind.function, readings=visit.own)
        if whole and not found.faults and not wire_clashes(seen, defaults):
            return kind
    return None
