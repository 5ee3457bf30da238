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


def travel_words(seat: AccessPart) -> str:
    """Return how far a seat slides: "through its whole travel of 230 mm"."""
    of = "" if seat.travel_mm is None else f" of {shown(seat.travel_mm)} mm"
    return f"through its whole travel{of}"
