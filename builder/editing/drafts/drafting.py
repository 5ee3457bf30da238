"""Answers to a record, for every kind that can be begun by questions."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Any

from builder.editing.drafts import job_draft, part_drafts, vehicle_draft, visit_draft
from builder.editing.drafts.question import (
    NOTHING,
    AnswerError,
    Answers,
    IncompleteError,
    Question,
    read_text,
)
from builder.findings import DataPath
from builder.model.words import RecordKind

_Finish = Callable[[dict[str, Any], Answers], dict[str, Any]]
_ID = Question("id", "Id of the record, also its file name", default="", asked=False)

_KINDS: dict[RecordKind, tuple[tuple[Question, ...], _Finish]] = {
    "vehicle": (vehicle_draft.QUESTIONS, vehicle_draft.finish),
    "converter": (part_drafts.CONVERTER, part_drafts.finish_converter),
    "amplifier": (part_drafts.AMPLIFIER, part_drafts.finish_amplifier),
    "cable": (part_drafts.CABLE, part_drafts.finish_cable),
    "housing": (part_drafts.HOUSING, part_drafts.named),
    "loom": (part_drafts.LOOM, part_drafts.finish_loom),
    "interface": (part_drafts.INTERFACE, part_drafts.named),
    "contributor": (part_drafts.CONTRIBUTOR, part_drafts.named),
    "job": (job_draft.QUESTIONS, job_draft.finish),
    "visit": (visit_draft.QUESTIONS, visit_draft.finish),
}
DRAFTED_KINDS = tuple(_KINDS)
"""The kinds that `draft` makes."""


def questions_of(kind: RecordKind) -> tuple[Question, ...]:
    """The questions of a kind in the order they are asked."""
    return (*_KINDS[kind][0], _ID)


def draft(kind: RecordKind, answers: Answers) -> dict[str, Any]:
    """Return the record that answers make, as plain data.

    Raises:
        AnswerError: a question that must be answered is not, or an answer cannot be read.
    """
    questions, finish = _KINDS[kind]
    answers = _without_none(questions, answers)
    data: dict[str, Any] = {"schema": 1}
    wrong: list[str] = []
    for question in questions:
        if not question.when(answers):
            continue
        texts = answers.get(question.name)
        if texts is None:
            raise AnswerError(f"--{question.name} is not answered: {question.prompt}")
        read = list(_read_each(kind, question, texts, wrong))
        if question.path and (read or (question.many and question.default != "")):
            _set(data, question.path, read if question.many else read[0])
    if wrong:
        raise AnswerError("\n".join(wrong))
    return finish(data, answers)


def _read_each(
    kind: RecordKind, question: Question, texts: Sequence[str], wrong: list[str]
) -> Iterator[Any]:
    """Yield the answers to a question that can be read; why another cannot, goes to `wrong`."""
    for text in texts:
        try:
            if text != "":
                yield read_one(kind, question, text)
        except AnswerError as error:
            wrong.append(str(error))


def read_one(kind: RecordKind, question: Question, text: str) -> Any:
    """One answer, read; for a question with many lines, one line.

    Raises:
        AnswerError: it cannot be read, with the option's name and what to type.
    """
    try:
        if question.read is not None:
            return question.read(text)
        return read_text(kind, question.path, text) if question.path else text
    except IncompleteError as error:
        raise AnswerError(f"--{question.name}: {error}. {question.prompt}") from error
    except AnswerError as error:
        raise AnswerError(f"--{question.name}: {error}") from error


def _without_none(questions: Sequence[Question], answers: Answers) -> Answers:
    """The answers and defaults; a list has no blank lines, and none when its only word is none."""
    many = {question.name for question in questions if question.many}
    default = {each.name: [each.default] for each in questions if each.default is not None}
    return {
        name: [t for t in texts if t.strip().lower() not in NOTHING] if name in many else texts
        for name, texts in {**default, **answers}.items()
    }


def _set(data: dict[str, Any], path: DataPath, value: Any) -> None:
    place: Any = data
    for step, following in pairwise(path):
        empty: Any = [{}] if isinstance(following, int) else {}
        place = place[step] if isinstance(step, int) else place.setdefault(step, empty)
    place[path[-1]] = value
