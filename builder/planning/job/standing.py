"""How far a job is: what of its bay sheet is open, passed or failed, and what the book says since.

Results and later readings change the state of a job, never its plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal

from builder.declaring import answer, listed, text, word
from builder.model.house_defaults import HouseDefaults
from builder.model.job import AsBuilt, Result
from builder.model.results import newest
from builder.planning.bay.foretold import BALANCE, IDLE
from builder.planning.bay.insulation_tests import SUPPLY_INSULATION
from builder.planning.bay.judged import judge_result
from builder.planning.job.recalled import Recall
from builder.planning.words import JobState
from builder.planning.work_pack import BayTest

_AT_THE_END = ("ends-closed-off", "signal-legs", "switch-on-thump", "whine", "parked-after")
LineState = Literal["open", "passed", "failed"]
"""What became of a line of the bay sheet: nobody read it, or how its newest result came out."""


@answer
class JobStanding:
    """How far a job is."""

    state: JobState = word("How far it is.", default="planned")
    begun: str = text(
        "The day from which its plan stands, as YYYY-MM-DD; empty while nothing is joined.",
        default="",
    )  # fmt: skip
    by: str = text("Who began it, or empty when nobody wrote that down.", default="")
    reconstructed: bool = word(
        "Whether what is joined was worked out later, from the record of that day.", default=False
    )
    left: tuple[str, ...] = listed(
        "Ids of the lines of the bay sheet that nobody has read.", default=()
    )
    failed: tuple[str, ...] = listed(
        "Ids of the lines whose newest result did not pass.", default=()
    )
    later: tuple[str, ...] = listed(
        "Ids of lines that came onto sheets after the job was begun and that nobody read here.",
        default=(),
    )  # fmt: skip
    recalls: tuple[Recall, ...] = listed(
        "What the book says today against what is joined.", default=()
    )
    as_built: AsBuilt | None = None


ONLY_WHEN_JOINED: Final = frozenset({SUPPLY_INSULATION, IDLE, BALANCE, *_AT_THE_END})
"""Lines that are read when something is joined, and never before."""
NOT_BEGUN: Final = JobStanding()
"""Of a job that nobody began."""


def line_states(
    tests: Sequence[BayTest], results: Sequence[Result], begun: str, defaults: HouseDefaults
) -> dict[str, LineState]:
    """Return what became of each line of a sheet; the newest result of a line counts.

    A line that came onto sheets after the job was begun (`begun`, YYYY-MM-DD) is not asked for,
    and stands only where it was read all the same.
    """
    read = newest(results)
    asked = [test for test in tests if test.since <= begun or test.id in read]
    return {test.id: _state(test, read.get(test.id), defaults) for test in asked}


def _state(test: BayTest, result: Result | None, defaults: HouseDefaults) -> LineState:
    if result is None:
        return "open"
    judged = judge_result(result, test, defaults)
    return "failed" if result.passed is False or judged.outside else "passed"


def is_joined(tests: Sequence[BayTest], results: Sequence[Result]) -> bool:
    """Whether a result was read after something was joined: that of no line before work began."""
    phases = {test.id: test.phase for test in tests}
    return any(phases.get(result.test, "before") != "before" for result in results)


def was_joined(results: Sequence[Result]) -> bool:
    """The same where no sheet can be made any more: by the lines that every sheet of a tap plan
    has, and no visit that only measures."""
    return any(result.test in ONLY_WHEN_JOINED for result in results)


def state_of(lines: dict[str, LineState], recalls: Sequence[Recall]) -> JobState:
    """Return the state of a job that is begun, from its lines and what the book says since."""
    if recalls:
        return "recalled"
    if "failed" in lines.values():
        return "failing"
    return "begun" if "open" in lines.values() or not lines else "done"


def lines_in(lines: dict[str, LineState], state: LineState) -> tuple[str, ...]:
    """Return the lines in one state, in the order of the sheet."""
    return tuple(line for line, its in lines.items() if its == state)
