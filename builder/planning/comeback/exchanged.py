"""Faults of two ways that were changed over: what belongs to one lies on the other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from builder.planning.circuit.model import EndId, Link
from builder.planning.circuit.terminal_names import shield_of
from builder.planning.comeback.circuit_changes import exchanged
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.words import LinkClass

_AT_DEVICE: tuple[LinkClass, ...] = ("speaker_level", "line", "amplified")
"""Classes of which a device of the job has several alike, side by side."""

Way = tuple[EndId, EndId]
"""Both ends of a pair, or centre and shield of a line lead, at one device."""


def exchanged_ways(job: HandedOver) -> Iterator[Fault]:
    """Yield every two pairs, or two line leads, that lie in each other's place at a device."""
    ways: dict[tuple[LinkClass, str], list[Way]] = {}
    for link in job.circuit.links:
        way = _way(job, link) or _behind_crossover(job, link)
        if way is not None:
            unit = job.index.unit_of(way[0]).id
            ways.setdefault((link.carries, unit), []).append(way)
    for (_, unit), mine in ways.items():
        for one, other in combinations(dict.fromkeys(mine), 2):
            yield _exchanged(job, unit, one, other)


def _way(job: HandedOver, link: Link) -> Way | None:
    """What of a link is screwed or plugged into a device of the job; None for any other link."""
    if link.carries not in _AT_DEVICE or link.set_by:
        return None
    driven = link.carries == "amplified"
    end = link.begins if driven else link.finishes
    if job.index.unit_of(end).id not in job.devices or not job.index.joints_of.get(end):
        return None
    if link.carries == "line":
        return None if end.endswith("shield") else (end, shield_of(end))
    mate = job.index.links.get(link.mate or "")
    if mate is None or not end.endswith("+"):
        return None
    return end, mate.begins if driven else mate.finishes


def _behind_crossover(job: HandedOver, link: Link) -> Way | None:
    """The output of a crossover that a pair begins at; None of a link that runs through none."""
    mate = job.index.links.get(link.mate or "")
    if mate is None or job.index.unit_of(link.begins).kind != "crossover":
        return None
    plus, minus = ([end for end in each.path if end in job.index.terminals][1]
                   for each in (link, mate))  # fmt: skip
    return (plus, minus) if plus.endswith("+") else None


def _exchanged(job: HandedOver, unit: str, one: Way, other: Way) -> Fault:
    circuit = job.circuit
    for mine, theirs in zip(one, other, strict=True):
        circuit = exchanged(circuit, mine, theirs)
    names = " and ".join(end.removesuffix(" +") for end in (one[0], other[0]))
    return Fault(
        f"exchanged {names}", "exchanged", one[0], f"in each other's place: what goes to {names}",
        f"change {names} over, both wires of each", job.index.units[unit].place,
        job.house.comeback_changed_over, circuit,
    )  # fmt: skip
