"""Which single faults make a line of the bay sheet fail, the likeliest first."""

from __future__ import annotations

from functools import cached_property

from builder.planning.comeback.bay_looks import bay_looks
from builder.planning.comeback.condition import Condition, Fault
from builder.planning.comeback.faults import single_faults
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.looks import Look
from builder.planning.comeback.touching import touching
from builder.planning.comeback.wrong_seats import wrong_seats
from builder.proof.band import Where


class Causes:
    """The single faults of one job, each with the job as it then stands."""

    def __init__(self, job: HandedOver) -> None:
        self.job = job
        self.faults = single_faults(job)
        self._found: dict[tuple[str, str], Where] = {}

    @cached_property
    def while_joining(self) -> tuple[Fault, ...]:
        """What else can be made wrong while a job is joined, which its bay sheet has to find."""
        return (*wrong_seats(self.job), *touching(self.job))

    @cached_property
    def standing(self) -> dict[str, Condition]:
        """The job with each fault, by the fault's id."""
        return {fault.id: Condition(self.job.healthy, fault) for fault in self.faults}

    @cached_property
    def looks(self) -> dict[str, Look]:
        """What each line of the bay sheet finds, by its id."""
        return bay_looks(self.job)

    def found(self, line: str, fault: Fault) -> Where:
        """Return what a line of the bay sheet finds of a fault in the whole job."""
        key = (line, fault.id)
        if key not in self._found:
            self._found[key] = self.looks[line](self.standing[fault.id])
        return self._found[key]

    def of(self, line: str) -> tuple[Fault, ...]:
        """Return the faults that make a line fail, the likeliest first.

        Args:
            line: The id of a line of the bay sheet. One that the circuit does not decide, as a
                look at a lamp before work begins, has no faults.
        """
        if line not in self.looks:
            return ()
        failing = [fault for fault in self.faults if self.found(line, fault) != "in"]
        return tuple(sorted(failing, key=lambda fault: -fault.odds))
