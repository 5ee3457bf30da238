"""Which zones of the vehicle record a job goes through or builds in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.findings import DataPath
from builder.model.job import Job
from builder.model.zones import known
from builder.planning.car.route_zones import zones_not_ruled_out


def zone_uses(job: Job, zones: Iterable[str]) -> Iterator[tuple[DataPath, str]]:
    """Yield where the job names one of these zones: in a route, or as the place of a device.

    Names are compared without regard to case, as two people write them.
    """
    named = {zone.casefold(): zone for zone in known(tuple(zones))}
    for path, name in _places(job):
        if name.casefold() in named:
            yield path, named[name.casefold()]


def doubtful_uses(job: Job, zones: tuple[str, ...]) -> Iterator[tuple[DataPath, str]]:
    """Yield where the job names a place that may be such a zone, since nobody looked there."""
    places = dict(_places(job))
    doubtful = zones_not_ruled_out(places.values(), zones)
    yield from ((path, name) for path, name in places.items() if name in doubtful)


def _places(job: Job) -> Iterator[tuple[DataPath, str]]:
    for route in job.routes:
        for index, name in enumerate(route.zones):
            yield (*route.path, "zones", index), name
    for amplifier in job.amplifiers:
        yield (*amplifier.path, "place"), amplifier.place
    yield ("converter_place",), job.converter_place
