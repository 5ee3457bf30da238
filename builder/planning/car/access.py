"""What has to come off before a place in the car can be reached, in the order of taking off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.model.access import AccessPart, Fastener, Grommet
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.car.route_zones import job_places, touches

_RADIO = "radio"
GROMMET_WORDS: dict[Grommet, str] = {
    "own": "own, a loom of the car goes through",
    "blank": "blank, nothing in it",
    "none": "none, bare sheet metal",
    "unknown": "not recorded: bare sheet metal until somebody has looked",
}
"""What closes a way through a bulkhead today."""


def fastener_words(fasteners: Sequence[Fastener]) -> str:
    """Return what holds a part: "4 × six-lobe 20, 2 × plastic clip"; empty for nothing."""
    return ", ".join(f"{each.count} × {each.head}" for each in fasteners)


def parts_over(vehicle: Vehicle, place: str) -> tuple[AccessPart, ...]:
    """Return the parts that must be off to reach a place, those they are behind first.

    A part lies over a place when one of the places that it uncovers is named by words that lie
    within those of the place, or the other way round. None when the record says of none.
    """
    return radio_parts(vehicle) if place == _RADIO else _uncovering(vehicle, place)


def _uncovering(vehicle: Vehicle, place: str) -> tuple[AccessPart, ...]:
    over = [p.name for p in vehicle.access if any(touches(place, each) for each in p.uncovers)]
    return in_order(vehicle, over)


def radio_parts(vehicle: Vehicle) -> tuple[AccessPart, ...]:
    """Return the parts that must be off before the radio comes out, in order.

    Where the record says what the radio is behind, that stands; else it is what uncovers it.
    """
    removal = vehicle.radio.removal
    if removal is not None and removal.behind:
        return in_order(vehicle, removal.behind)
    return _uncovering(vehicle, _RADIO)


def job_parts(vehicle: Vehicle, job: Job) -> tuple[AccessPart, ...]:
    """Return what must be off for the places that a job names: of devices, ways and holes."""
    names = [part.name for place in job_spots(vehicle, job) for part in parts_over(vehicle, place)]
    return in_order(vehicle, names)


def job_spots(vehicle: Vehicle, job: Job) -> tuple[str, ...]:
    """Return every place that a job works at: of devices, ways and holes."""
    ends = [end for route in job.routes for end in (route.from_place, route.to_place)]
    fixed = [mount.fixed_to for mount in job.mounts]
    holes = [hole.where for hole in job.holes]
    return (*job_places(job), *ends, *fixed, *holes, *_inner_ends(vehicle, job))


def _inner_ends(vehicle: Vehicle, job: Job) -> Iterator[str]:
    """Both ends of each passage in use, but for the one where the battery is: it lies open."""
    used = {one.through for one in job.passes}
    battery = vehicle.power.battery.location
    for passage in vehicle.passages:
        if passage.name in used:
            yield from (end for end in passage.between if not touches(battery, end))


def in_order(vehicle: Vehicle, names: Iterable[str]) -> tuple[AccessPart, ...]:
    """Return the named parts and all that come off before them, each once, in order.

    Names that no part has are left out, and a circle is entered once: both have a finding.
    """
    known = {part.name: part for part in reversed(vehicle.access)}
    ordered: dict[str, AccessPart] = {}
    for name in names:
        _put(known, name, ordered, frozenset())
    return tuple(ordered.values())


def _put(
    known: Mapping[str, AccessPart],
    name: str,
    ordered: dict[str, AccessPart],
    above: frozenset[str],
) -> None:
    """Put a part into the order, behind those that come off before it."""
    part = known.get(name)
    if part is None or name in ordered or name in above:
        return
    for before in part.behind:
        _put(known, before, ordered, above | {name})
    ordered[name] = part
