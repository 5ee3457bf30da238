"""A pack put into the order of the work, there and back."""

from __future__ import annotations

from dataclasses import replace

from builder.planning.bay.work import BayWork
from builder.planning.circuit.model import Circuit
from builder.planning.course.back_lines import back_lines
from builder.planning.course.back_work import planned_back
from builder.planning.course.make_course import job_sheet
from builder.planning.course.search import shortest
from builder.planning.course.way_back import back_problem
from builder.planning.job.course_flags import course_flags
from builder.planning.work_pack import WorkPack


def in_order(pack: WorkPack, work: BayWork, circuit: Circuit) -> WorkPack:
    """Return a pack with its steps, its tests in their order, and the way back to stock."""
    course = job_sheet(work, circuit, pack.tests, len(pack.labels))
    way = back_problem(planned_back(work, circuit))
    back = shortest(way)
    return replace(
        pack,
        flags=(*pack.flags, *course_flags(work, circuit, course, way, back)),
        tests=course.tests,
        steps=course.steps,
        revert=back_lines(back),
    )


def in_no_order(pack: WorkPack, work: BayWork, circuit: Circuit) -> WorkPack:
    """Return a pack that says what undoes it and nothing of when: who asks only whether a tap plan
    comes out wants no order."""
    acts = back_problem(planned_back(work, circuit)).acts
    return replace(pack, revert=tuple(act.said.text for act in acts))
