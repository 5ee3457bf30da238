"""What the planner is asked to serve: a job with the records of its parts."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job
from builder.model.parts import Amplifier, Converter


@dataclass(frozen=True, slots=True)
class JobWish:
    """What a selection is made from; amplifiers by the name the job gives them."""

    job: Job
    converter: Converter
    amplifiers: dict[str, Amplifier]
    defaults: HouseDefaults
