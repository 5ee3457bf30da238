"""Records of one model beside each other, as book-wide rules compare them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from builder.model.summary import PinSummary, VehicleSummary
from builder.model.words import UNKNOWN
from builder.proof.faces.poses import Meaning

PlugKey = tuple[str, str]
"""Id of a plug and of its housing: only plugs alike in both are compared."""


def by_model(summaries: Iterable[VehicleSummary]) -> list[list[VehicleSummary]]:
    """Vehicles of the same make and model together, in the order given."""
    groups: defaultdict[tuple[str, str], list[VehicleSummary]] = defaultdict(list)
    for summary in summaries:
        groups[summary.make.casefold(), summary.model.casefold()].append(summary)
    return [group for group in groups.values() if len(group) > 1]


def by_plug(summary: VehicleSummary) -> dict[PlugKey, list[PinSummary]]:
    """The pins of a vehicle, plug by plug; one whose housing nobody knows is like no other."""
    plugs: defaultdict[PlugKey, list[PinSummary]] = defaultdict(list)
    for pin in summary.pins:
        shell = f"{UNKNOWN} of {summary.id}" if pin.housing == UNKNOWN else pin.housing
        plugs[pin.plug, shell].append(pin)
    return dict(plugs)


def meanings_by_cavity(pins: Iterable[PinSummary]) -> dict[str, set[Meaning]]:
    """What each cavity of a plug is said to do; several where lines hold for part of a scope."""
    found: defaultdict[str, set[Meaning]] = defaultdict(set)
    for pin in pins:
        if pin.function != "unknown":
            found[pin.cavity].add((pin.function, pin.channel, pin.leg))
    return dict(found)
