"""Where routes and places of a job touch restraint parts or high-voltage cables."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Final

from builder.declaring import settles
from builder.model.access import AccessPart
from builder.model.car import Safety
from builder.model.job import CablePass, Job
from builder.model.vehicle import Vehicle
from builder.model.zones import all_known, known
from builder.planning.objections import Objection, object_to
from builder.planning.tables import COMMON_PRACTICE

_SMALL = frozenset({"the", "of", "a", "both", "and", "in", "at", "along"})
_LOOKS: Final = re.compile(r"\b(?:facing|towards?)\b[^,;]*")
"""Where something looks says nothing of where it is: "facing the sill" lies in no sill."""
_BOTH: Final = "both"
_SIDES = ("left", "right", "driver", "passenger")
"""What it stands for: each of the two, as a side of the car or by who sits there."""
HIGH_VOLTAGE_CLEARANCE_M = 0.10
"""Least distance of a route from orange cables. Common practice, no source. [m]"""


def touches(place: str, zone: str) -> bool:
    """Whether two ways of naming a place mean one inside the other: by their words.

    >>> touches("under the left seat, facing the sill", "left sill")
    False
    >>> touches("left sill, beside the seat", "left sill")
    True
    """
    return any(
        first <= second or second <= first
        for first in _ways_to_say(place)
        for second in _ways_to_say(zone)
        if first and second
    )


def _ways_to_say(text: str) -> Iterator[frozenset[str]]:
    """The words of a place; of "both seats" also those of each of the two."""
    told = _LOOKS.sub("", text.lower())
    plain = "".join(c if c.isalnum() else " " for c in told).split()
    words = frozenset(word.removesuffix("s") for word in plain if word not in _SMALL) - {""}
    yield words
    if _BOTH in plain:
        yield from (words | {side} for side in _SIDES)


def job_places(job: Job) -> tuple[str, ...]:
    """Return every zone of a route and every place where something is fitted."""
    zones = [zone for route in job.routes for zone in route.zones]
    fitted = [job.converter_place, *(amplifier.place for amplifier in job.amplifiers)]
    fitted += [speaker.place for speaker in job.speakers if speaker.place is not None]
    second, fuse = job.supply.second_battery, job.supply.main_fuse_place
    fitted += [] if second is None else [second.place]
    fitted += [] if fuse is None else [fuse]
    return tuple(dict.fromkeys((*zones, *fitted)))


def restraint_zones_touched(job: Job, vehicle: Vehicle) -> tuple[str, ...]:
    """Return the restraint zones of the car that the work comes near, as the record names them.

    Where nobody looked everywhere, every other place of the work is one too; they come last.
    """
    zones = vehicle.safety.restraint_zones
    at_ways = [zone for one in job.passes for zone in zones_at_pass(vehicle, one)]
    beside = tuple(dict.fromkeys((*_touched(job_places(job), zones), *at_ways)))
    named = tuple(zone for zone in zones if zone in beside)
    return (*named, *(zone for zone in beside if zone not in named))


def zones_at_pass(vehicle: Vehicle, one: CablePass) -> tuple[str, ...]:
    """Return the restraint zones that a hand comes near at a way through a bulkhead."""
    used = [way for way in vehicle.passages if way.name == one.through]
    places = [place for way in used for place in (way.where, *way.between)]
    return _touched(places, vehicle.safety.restraint_zones)


def zones_not_ruled_out(places: Iterable[str], zones: tuple[str, ...]) -> tuple[str, ...]:
    """Return the places that may be such a zone, since nobody looked everywhere."""
    if all_known(zones):
        return ()
    return tuple(place for place in places if not any(touches(place, z) for z in known(zones)))


def _touched(places: Iterable[str], zones: tuple[str, ...]) -> tuple[str, ...]:
    listed = tuple(places)
    named = tuple(zone for zone in known(zones) if any(touches(place, zone) for place in listed))
    return (*named, *zones_not_ruled_out(listed, zones))


def over_orange(part: AccessPart, vehicle: Vehicle) -> bool:
    """Whether orange cables lie open once a part is off, by zones or by what is minded there."""
    zones = known(vehicle.safety.high_voltage_zones)
    lies = any(touches(place, zone) for place in part.uncovers for zone in zones)
    return lies or (bool(zones) and any("orange" in each.lower() for each in part.hazards))


def high_voltage_objections(job: Job, vehicle: Vehicle) -> list[Objection]:
    """Return the refusal of routes that run where orange cables run, or may run."""
    places, zones = job_places(job), vehicle.safety.high_voltage_zones
    found = []
    if touched := tuple(z for z in known(zones) if any(touches(place, z) for place in places)):
        because = (
            f"orange cables run in {', '.join(touched)}: stay {HIGH_VOLTAGE_CLEARANCE_M:g} m away "
            "and never share a grommet with them. Take another way"
        )
        found.append(object_to("a route runs beside high voltage", because, COMMON_PRACTICE))
    if doubtful := high_voltage_not_ruled_out(job, vehicle):
        because = (
            f"nobody looked whether they run in {', '.join(doubtful)}, so nothing is laid there. "
            f"It is settled by {settles(Safety, 'high_voltage_zones')}"
        )
        found.append(object_to("find the orange cables first", because, COMMON_PRACTICE))
    return found


def high_voltage_not_ruled_out(job: Job, vehicle: Vehicle) -> tuple[str, ...]:
    """Return the places of a job where orange cables may run; none in a car that has none."""
    if vehicle.features.hybrid == "no":
        return ()
    return zones_not_ruled_out(job_places(job), vehicle.safety.high_voltage_zones)
