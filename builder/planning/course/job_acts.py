"""A job with its circuit as its acts need it, and how one of them is made."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.bay.work import BayWork
from builder.planning.circuit.index import CircuitIndex
from builder.planning.course.batteries import Batteries
from builder.planning.course.model import Act, Needs, Said
from builder.planning.words import HowItStands, Phase
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class JobWork:
    """A job with its circuit, and what has to be open while it is built."""

    bay: BayWork
    index: CircuitIndex
    open: Needs
    labels: int
    batteries: Batteries

    @property
    def parts(self) -> JobParts:
        """The job with its records."""
        return self.bay.parts


def act(
    id: str, phase: Phase, said: Said, *tags: str, wanted: Needs | None = None,
    minutes: float = 0.0, does: dict[str, HowItStands] | None = None, sets: tuple[str, ...] = (),
) -> Act:  # fmt: skip
    """Return an act of the job; `wanted` is what it needs, `sets` the links that it makes."""
    return Act(
        id, phase, said, wanted or {}, frozenset(tags), does or {}, sets=sets, minutes=minutes
    )
