"""The shipped job with two crossovers, its radio set so that it comes to a tap plan."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from pack_jobs import shipped_parts

from builder.model.job import Box, Crossover, JobSpeaker
from builder.planning.work_pack import JobParts

NAME = "ullin-split-fronts"
LEFT, RIGHT = "crossover front left", "crossover front right"


def crossed(**changes: Any) -> JobParts:
    """With every seat in time, and with changes of both crossovers."""
    parts = shipped_parts(NAME)
    vehicle = replace(
        parts.vehicle,
        channels=tuple(
            replace(each, delay_ms=0.03) if each.channel.endswith("-tweeter") else each
            for each in parts.vehicle.channels
        ),
    )
    speakers = tuple(_changed(each, changes) for each in parts.job.speakers)
    return replace(parts, vehicle=vehicle, job=replace(parts.job, speakers=speakers))


def _changed(speaker: JobSpeaker, changes: dict[str, Any]) -> JobSpeaker:
    if speaker.crossover is None:
        return replace(speaker, box=Box(kind="sealed"))
    return replace(speaker, crossover=replace(speaker.crossover, **changes))


def crossover_of(parts: JobParts) -> Crossover:
    found = parts.job.speakers[0].crossover
    assert found is not None
    return found
