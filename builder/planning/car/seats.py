"""The seats that a job works under, and how far they slide over what lies there."""

from __future__ import annotations

from builder.figures import shown
from builder.model.access import AccessPart
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.car.access import job_parts


def seats_over(vehicle: Vehicle, job: Job) -> tuple[AccessPart, ...]:
    """Return the seats that come off for the places of a job."""
    return tuple(part for part in job_parts(vehicle, job) if part.kind == "seat")


def has_plug(part: AccessPart) -> bool:
    """Whether a restraint plug may have to come off with a part."""
    return bool(part.plugs) and part.restraint != "no"


def has_rails(part: AccessPart) -> bool:
    """Whether a part is a seat that slides: its way is known, or a restraint plug lies under it.

    A bench hangs on hooks or is bolted down.
    """
    return part.kind == "seat" and (part.travel_mm is not None or has_plug(part))


def travel_words(seat: AccessPart) -> str:
    """Return how far a seat slides: "through its whole travel of 230 mm"."""
    of = "" if seat.travel_mm is None else f" of {shown(seat.travel_mm)} mm"
    return f"through its whole travel{of}"
