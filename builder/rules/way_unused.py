"""A measured way that no wire of the plan takes.

What it catches
---------------
A route of the job between two places, for something that nothing in the finished circuit carries
between these two.

Why it matters in the bay
-------------------------
Somebody crawled through the car to measure it and expects a wire there. Either the plan does it
another way, or the names of the places differ from those of the job, and then the length was read
for nothing.

Example
-------
Fails::

    amplifiers: [{name: sub amp, part: ok-250, place: boot}]
    routes: [{from: converter, to: boot amp, carries: signal, length_m: 3.0, zones: []}]

Passes::

    amplifiers: [{name: sub amp, part: ok-250, place: boot}]
    routes: [{from: converter, to: sub amp, carries: signal, length_m: 3.0, zones: []}]

How to mend it
--------------
Give the places the names that the job gives them, or leave the route out.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.job import AT_CONVERTER, Route
from builder.model.words import Carries
from builder.planning.circuit.crossover_links import feeds
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.circuit.terminal_names import BATTERY
from builder.planning.words import MAIN_FUSE, LinkClass
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule

_TAKEN_BY: dict[Carries, frozenset[LinkClass]] = {
    "signal": frozenset({"speaker_level", "line"}),
    "amplified": frozenset({"amplified"}),
    "speaker": frozenset({"amplified"}),
    "control": frozenset({"control"}),
    "supply": frozenset({"supply"}),
    "ground": frozenset({"ground"}),
}


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each route that nothing runs along."""
    if pack.circuit is None:
        return
    index = CircuitIndex(pack.circuit)
    ways = [(_places(index, parts, wire), wire.carries) for wire in pack.circuit.wires]
    for route in parts.job.routes:
        if not any(_takes(places, carries, route) for places, carries in ways):
            yield Fault(
                (*route.path, "to"),
                f"nothing of this plan runs from {route.from_place} to {route.to_place} and "
                f"carries {route.carries}",
                "give both places the names that the job gives them, or leave the way out",
            )


def _takes(places: tuple[set[str], set[str]], carries: LinkClass, route: Route) -> bool:
    one, other = places
    there, back = (route.from_place, route.to_place), (route.to_place, route.from_place)
    return carries in _TAKEN_BY[route.carries] and any(
        start in one and end in other for start, end in (there, back)
    )


def _places(index: CircuitIndex, parts: JobParts, wire: CircuitWire) -> tuple[set[str], set[str]]:
    return _names(index, parts, wire.from_place), _names(index, parts, wire.to_place)


def _names(index: CircuitIndex, parts: JobParts, place: str) -> set[str]:
    """What people call a place where a wire ends: by its unit, or by where that unit is."""
    if place == MAIN_FUSE:
        return {BATTERY}
    if place == parts.converter.name:
        return {AT_CONVERTER}
    own = [unit for unit in index.circuit.units if unit.id == place]
    before = {name for unit in own if unit.kind == "crossover" for name in feeds(index, unit)}
    return {place, *(unit.place for unit in own), *before}


RULE = rule("CIR111", Severity.NOTE, Scope.JOB, check)
