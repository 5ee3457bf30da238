"""The volume at which everything is read and set: the loudest step that is clean."""

from __future__ import annotations

from builder.model.job import Job
from builder.model.vehicle import Vehicle

FOUND_BY = "loudest-clean-step"
"""The line of the bay sheet that finds the step where nobody wrote it down."""

AS_READ = "the loudest step at which the sine on the meter stays a sine"
"""What a visit that only measures plays a tone at, where nobody wrote the step down."""


def loudest_step(vehicle: Vehicle, job: Job | None) -> int | None:
    """Return the volume shown by the radio up to which every pair is clean, or None unrecorded.

    The least of the steps on record: one pair that distorts is heard. A pair of which the job
    takes the line feed is counted by that; a visit that only measures has no job.
    """
    treated = job.treatment if job else {}
    lines = {channel for channel, how in treated.items() if how == "line_tap"}
    levels = [each.line_level if each.channel in lines else each.level for each in vehicle.channels]
    steps = [each.at_volume_step for each in levels if each is not None]
    return min((step for step in steps if step is not None), default=None)


def at_step(step: int | None) -> str:
    """Return the step in short, for lines beside one that says it whole: "step 32"."""
    return "the step found" if step is None else f"step {step}"


def step_words(step: int | None) -> str:
    """Return the step as sheets say it.

    >>> step_words(32)
    'step 32, the loudest clean one'
    """
    if step is None:
        return f"the loudest clean step, as {FOUND_BY} finds it"
    return f"step {step}, the loudest clean one"
