"""The questions of a new job: the car, what is fitted, what plays where, where it runs."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from builder.editing.drafts.declared_questions import declared_questions
from builder.editing.drafts.job_lines import (
    AMPLIFIER_EXAMPLE,
    ROUTE_EXAMPLE,
    SPEAKER_EXAMPLE,
    amplifier_line,
    route_line,
    speaker_line,
)
from builder.editing.drafts.question import Answers, Question, every, one, read_text, slug

_LINES = (
    Question(
        "amplifier", f"One amplifier a line: {AMPLIFIER_EXAMPLE}", many=True, read=amplifier_line
    ),
    Question("speaker", f"One new speaker a line: {SPEAKER_EXAMPLE}", many=True),
    Question("route", f"One measured route a line: {ROUTE_EXAMPLE}", many=True, read=route_line),
)
_OPTIONS_ONLY = frozenset({"material", "ground-point", "listening", "treatment", "edited"})
"""What nobody is asked who begins a job; it can be given all the same."""


def _questions() -> tuple[Question, ...]:
    """What the declarations ask, and after the converter's place the lines of what is fitted."""
    readers = {"treatment": partial(read_text, "job", ("treatment",))}
    declared = [
        replace(question, asked=question.name not in _OPTIONS_ONLY)
        for question in declared_questions("job", readers)
    ]
    after = [question.path for question in declared].index(("converter_place",)) + 1
    return (*declared[:after], *_LINES, *declared[after:])


QUESTIONS = _questions()


def finish(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Amplifiers, speakers and routes from their lines."""
    data["id"] = slug(one(answers, "id") or data["title"])
    data["car"]["answers"] = []
    data["amplifiers"] = [amplifier_line(text) for text in every(answers, "amplifier")]
    names = [each["name"] for each in data["amplifiers"]]
    data["speakers"] = [speaker_line(text, names) for text in every(answers, "speaker")]
    data["routes"] = [route_line(text) for text in every(answers, "route")]
    unknown = ("locks_per_day", "wake_hold_min", "idle_a", "parked_ma")
    data["supply"] |= dict.fromkeys(unknown, "unknown")
    data["other_turn_on_loads"] = []
    return data
