"""What is wrong with the course of a job: a step that nothing tests, one that cannot be done."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay.foretold import untested_steps
from builder.planning.bay.work import BayWork
from builder.planning.circuit.model import Circuit
from builder.planning.course.joined import Joined
from builder.planning.course.model import Course, Problem
from builder.planning.course.sheet import CourseSheet
from builder.planning.course.simulate import broken
from builder.planning.course.simulate_back import broken_back
from builder.planning.job.tune_channel import WHICH_BOX
from builder.planning.pack_details import PackFlag


def course_flags(
    work: BayWork, circuit: Circuit, course: CourseSheet, way: Problem, back: Course
) -> Iterator[PackFlag]:
    """Yield each; none for a course that can be worked by."""
    for row in work.tune:
        for asked in (each for each in row.asked if each.startswith(WHICH_BOX)):
            text = f"{row.speaker}: {asked}; everything loud is held until then"
            yield PackFlag("box_not_said", row.speaker, text)
    for step in untested_steps(work, circuit, course.tests, course.steps):
        text = f"no line of the sheet notices without: {step.text}"
        yield PackFlag("step_untested", step.text, text)
    for said in broken(course.steps, course.tests, circuit, work.parts):
        yield PackFlag("course_broken", "course", said)
    for act in back.missing:
        yield PackFlag("course_broken", "way back", f"no state allows: {act.said.text}")
    for said in broken_back(back, way.begins, Joined(circuit), work.parts):
        yield PackFlag("course_broken", "way back", said)
