"""Records of one model beside each other, as book-wide rules compare them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from builder.model.book import Shelf
from builder.model.summary import PinSummary, VehicleSummary
from builder.model.words import UNKNOWN
from builder.proof.faces.poses import Meaning, compare_poses, meanings
from builder.proof.sisters.scopes import overlap

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


def one_car(first: VehicleSummary, second: VehicleSummary) -> bool:
    """Whether the same car could belong to both."""
    return first.id != second.id and overlap(first.scope, second.scope)


def told_apart(first: VehicleSummary, second: VehicleSummary) -> bool:
    """Whether a question of one leads to the other."""
    return _names(first, second.id) or _names(second, first.id)


def _names(summary: VehicleSummary, other_id: str) -> bool:
    return any(
        answer.means == other_id for question in summary.how_to_tell for answer in question.answers
    )


def contradictions(first: VehicleSummary, second: VehicleSummary, shelf: Shelf) -> Iterator[str]:
    """Yield the cavities that the two describe differently, for example "A.4"; none of a plug whose
    two descriptions are each other's mirror image.
    """
    mirrored = mirrored_plugs(first, second, shelf)
    ours, theirs = by_plug(first), by_plug(second)
    for key in (ours.keys() & theirs.keys()) - mirrored:
        one, other = meanings_by_cavity(ours[key]), meanings_by_cavity(theirs[key])
        for cavity in one.keys() & other.keys():
            if not one[cavity] & other[cavity]:
                yield f"{key[0]}.{cavity}"


def mirrored_plugs(first: VehicleSummary, second: VehicleSummary, shelf: Shelf) -> set[PlugKey]:
    """The plugs that one of the two counted on the other face."""
    ours, theirs = by_plug(first), by_plug(second)
    return {
        key
        for key in ours.keys() & theirs.keys()
        if (housing := shelf.housings.get(key[1])) is not None
        and compare_poses(housing, meanings(ours[key]), meanings(theirs[key])).verdict
        == "view mix-up"
    }
