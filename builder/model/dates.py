"""The dates that stand in a job, each with what happened on it, and the newest of a record."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from builder.findings import DataPath
from builder.model.job import Job
from builder.model.vehicle import Vehicle

FOLLOW_UP: Final = "a follow-up"
EDITED: Final = "the last work on the record"


def dated_in(job: Job) -> Iterator[tuple[str, str, DataPath]]:
    """Yield what was done or heard, its day (YYYY-MM-DD), and where the day stands.

    The day on which the record was last worked on stands last.
    """
    if job.begun is not None:
        yield "the day on which the job was begun", job.begun.date, ("begun", "date")
    for result in job.results:
        yield f"the result of {result.test}", result.date, (*result.path, "date")
    for at, note in enumerate(job.notes):
        yield "a note", note.date, ("notes", at, "date")
    for at, tick in enumerate(job.ticked):
        yield f"the tick of {tick.at}", tick.date, ("ticked", at, "date")
    for route in job.routes:
        if route.proved_there is not None:
            what = f"the proof of wires at {route.from_place}"
            yield what, route.proved_there.date, (*route.path, "proved_there", "date")
    for at, heard in enumerate(job.follow_up):
        yield FOLLOW_UP, heard.date, ("follow_up", at, "date")
    if job.edited is not None:
        yield EDITED, job.edited, ("edited",)


def newest_in_job(job: Job) -> str:
    """The newest day on which something of a job was done, heard or written, "" without any."""
    return max((date for _, date, _ in dated_in(job)), default="")


def newest_in_vehicle(vehicle: Vehicle) -> str:
    """The newest visit of a vehicle, what was done to one later, or its last edit, "" without any.

    By it, nothing of the record lies in the future.
    """
    dates = [session.date for session in vehicle.sessions]
    dates += [each.date for each in vehicle.resolutions]
    for visit in vehicle.visits:
        dates += [each.date for each in (*visit.turned, visit.withdrawn) if each is not None]
    return max([*dates, vehicle.edited or ""])
