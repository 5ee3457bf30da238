"""Where a converter takes its own supply, as the job asks for it or as its routes say."""

from __future__ import annotations

from builder.model.job import AT_CONVERTER, AT_RADIO, Job, Route
from builder.planning.words import FeedPlace


def asked_feed_place(job: Job) -> FeedPlace:
    """Return where the supply of the converter is to come from: beside the amplifier, unless the
    job says otherwise or has measured a way for it from the radio."""
    if job.converter_supply != "auto":
        return job.converter_supply
    return "radio" if ways_from(job, AT_RADIO, supply=True) else "amplifier"


def ways_from(job: Job, place: str, *, supply: bool) -> list[Route]:
    """Return the ways between a place and the converter, the shortest first; `supply` asks for
    those that were measured for one."""
    ends = {place, AT_CONVERTER}
    found = [each for each in job.routes if {each.from_place, each.to_place} == ends]
    wanted = [each for each in found if each.carries == "supply"] if supply else found
    return sorted(wanted, key=lambda each: each.length_m)
