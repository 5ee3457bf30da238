"""The questions of a new job: the car, what is fitted, what plays where, where it runs."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from builder.declaring import fields_of
from builder.editing.drafts.declared_questions import Readers, declared_questions
from builder.editing.drafts.job_lines import (
    amplifier_line,
    pass_line,
    route_line,
    speaker_line,
)
from builder.editing.drafts.question import AnswerError, Answers, one, read_text, slug
from builder.model.job import JobSupply

_OPTIONS_ONLY = frozenset({"material", "ground-point", "listening", "treatment", "edited", "pass"})
"""What nobody is asked who begins a job; it can be given all the same."""
_READERS: Readers = {
    "treatment": partial(read_text, "job", ("treatment",)),
    "amplifier": amplifier_line,
    "speaker": speaker_line,
    "route": route_line,
    "pass": pass_line,
}
QUESTIONS = tuple(
    replace(question, asked=question.name not in _OPTIONS_ONLY)
    for question in declared_questions("job", _READERS)
)


def finish(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The record with its name, and what nobody is asked who begins it."""
    data["id"] = slug(one(answers, "id") or data["title"])
    data["car"]["answers"] = []
    names = [each["name"] for each in data["amplifiers"]]
    for driven in (speaker["driven_by"] for speaker in data["speakers"]):
        if driven["amplifier"] not in names:
            raise AnswerError(
                f'--speaker: no amplifier is called "{driven["amplifier"]}"; known: '
                f"{', '.join(names)}"
            )
    later = (each for each in fields_of(JobSupply) if each.spec.unknown and each.spec.optional)
    data["supply"] |= {each.key: "unknown" for each in later}
    data["other_turn_on_loads"] = []
    return data
