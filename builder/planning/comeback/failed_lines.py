"""What a line of the bay sheet that failed may have, and the reading that tells that apart.

For a phone in the bay: a few causes and one reading. `Asking` over all causes of a line is the long
answer, for who has the car back.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.planning.comeback.ask import Asking, Cause, Comeback, Question
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.reading_made import Reading
from builder.planning.words import TestState
from builder.planning.work_pack import BayTest
from builder.proof.band import Where

_DEAD: tuple[TestState, ...] = ("battery_off", "unplugged")
MOST_TOLD = 4
"""So many causes are told of a line: what fits a phone, and is searched to the end."""


@dataclass(frozen=True, slots=True)
class FailedLine:
    """A line that reads too low or too high, or is answered with no: its likely causes, the
    likeliest first, how many more there are, and what to read next, if any reading tells more."""

    where: Where
    causes: tuple[Cause, ...]
    more: int
    next: Reading | None


def failed_lines(back: Comeback) -> dict[str, tuple[FailedLine, ...]]:
    """Return what each line may have that the circuit decides, by its id."""
    found = {test.id: tuple(_of_line(back, test)) for test in back.job.pack.tests}
    return {line: said for line, said in found.items() if said}


def _of_line(back: Comeback, test: BayTest) -> Iterator[FailedLine]:
    sides: dict[Where, list[Fault]] = defaultdict(list)
    for fault in first_found(back, test):
        where = back.causes.found(test.id, fault)
        sides["none" if test.quantity == "check" else where].append(fault)
    for where, faults in sides.items():
        causes = by_remedy(faults)
        told = causes[:MOST_TOLD]
        yield FailedLine(where, tuple(told), len(causes) - len(told), _next(back, told, test))


def first_found(back: Comeback, test: BayTest) -> list[Fault]:
    """Return the faults that make a line fail, those behind that a line before it finds already:
    that one passed, or it would be the failed one."""
    causes = back.causes
    before = [
        each.id
        for each in back.job.pack.tests
        if each.number < test.number and each.id in causes.looks
    ]

    def was_found(fault: Fault) -> bool:
        return any(causes.found(line, fault) != "in" for line in before)

    return sorted(causes.of(test.id), key=was_found)


def _next(back: Comeback, causes: Sequence[Cause], test: BayTest) -> Reading | None:
    """What tells these causes apart, with the fewest minutes; never the line itself again."""
    faults = [cause.faults[0] for cause in causes]
    asking = Asking(back, faults, may_be_taken(back, test))
    found = asking.next(asking.every, asking.visit.start)
    return found.reading if isinstance(found, Question) else None


def may_be_taken(back: Comeback, failed: BayTest) -> list[Reading]:
    """Return the readings that are no step ahead of the line that failed, never the line itself.

    While it is built that is only without power, and later in a state of the car that the sheet
    has come to.
    """
    before = failed.phase == "before"
    reached = [
        each
        for each in back.job.pack.tests
        if each.number <= failed.number and (each.phase == "before") == before
    ]
    ids, states = {each.id for each in reached}, {each.state for each in reached}
    known = {each.id for each in back.job.pack.tests}

    def may(asked: BayTest) -> bool:
        if asked.state in _DEAD:
            return not before
        there = asked.id in ids if asked.id in known else asked.state in states
        return there and failed.phase != "build"

    return [each for each in back.readings if each.test.id != failed.id and may(each.test)]


def by_remedy(faults: Sequence[Fault]) -> list[Cause]:
    """Return faults with what mends them alike, in the order in which they come."""
    found: dict[str, list[Fault]] = {}
    for fault in faults:
        found.setdefault(fault.remedy, []).append(fault)
    return [Cause(remedy, tuple(mine)) for remedy, mine in found.items()]
