"""A job with every record that it names."""

from __future__ import annotations

from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.harness.at_plug import looms_of
from builder.planning.work_pack import JobParts


def job_parts(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> JobParts | None:
    """Return the job with every record it names, or None when one of them is not there.

    A speaker driven by an amplifier that the job does not have leads nowhere just the same.
    """
    converter = shelf.converters.get(job.converter)
    amplifiers = {each.name: shelf.amplifiers.get(each.part) for each in job.amplifiers}
    cables = [shelf.cables.get(name) for name in job.cables]
    known = {name: part for name, part in amplifiers.items() if part is not None}
    driven = all(speaker.amplifier in known for speaker in job.speakers)
    whole = len(known) == len(job.amplifiers) and None not in cables
    if vehicle is None or converter is None or not whole or not driven:
        return None
    found = tuple(cable for cable in cables if cable is not None)
    parts = JobParts(job, vehicle, converter, known, found, shelf)
    return parts if len(looms_of(parts)) == len(job.looms) else None
