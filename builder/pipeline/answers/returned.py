"""A job whose car comes back: its circuit as it was handed over, and what to read next."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from builder.book import Book
from builder.pipeline.answers.packs import MadePack, packed
from builder.planning.comeback.answered import AnswerError, read_answer
from builder.planning.comeback.ask import Answer, Asking, Cause, Comeback, Question, Verdict
from builder.planning.comeback.caught import Catch
from builder.planning.comeback.causes import Causes
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.words import SYMPTOM_NAMES, Symptom
from builder.planning.plan_json import as_json


class NoCircuitError(Exception):
    """The job comes to no tap plan, so that nothing of it is joined."""

    def __init__(self, made: MadePack) -> None:
        super().__init__(made.pack.job)
        self.made = made


def returned(book: Book, name: str) -> Comeback:
    """Return the comebacks of the job that `name` means: its id, or a part of only one id.

    Raises:
        NoSuchRecordError: none or several fit, or the job cannot be planned.
        NoCircuitError: it comes to a probe plan or to no plan.
    """
    made = packed(book, name)
    if made.planned.circuit is None:
        raise NoCircuitError(made)
    return comeback_of(made)


def comeback_of(made: MadePack) -> Comeback:
    """Return the comebacks of a tap plan: as it was begun, whatever the book says now."""
    return Comeback(Causes(HandedOver(made.parts, made.planned, made.parts.shelf.defaults)))


def answered(back: Comeback, texts: Iterable[str]) -> list[Answer]:
    """Return answers that were typed as "READING=FIGURE".

    Raises:
        AnswerError: one names no reading of the job, or is no answer to it.
    """
    known = {reading.test.id: reading.test for reading in back.readings}
    found: list[Answer] = []
    for text in texts:
        name, equals, figure = text.partition("=")
        test = known.get(name.strip())
        if test is None or not equals:
            said = "type READING=FIGURE, with a reading that this job has"
            raise AnswerError(f'"{text}" is no answer: {said}')
        found.append((test.id, read_answer(figure, test)))
    return found


def returned_data(
    asking: Asking, symptom: Symptom, found: Question | Verdict, left: int
) -> dict[str, Any]:
    """What is asked next, or what is left, as plain data."""
    data: dict[str, Any] = {
        "symptom": symptom, "said": SYMPTOM_NAMES[symptom], "causes_left": left,
        "question": None, "causes": [], "read_again": [],
    }  # fmt: skip
    if isinstance(found, Question):
        return data | {"question": _question(found)}
    again = [test.id for test in asking.again(found)]
    return data | {"causes": [_cause(cause) for cause in found.causes], "read_again": again}


def caught_data(each: Catch) -> dict[str, Any]:
    """One fault with the line that finds it first, whether before trim goes home, and why not."""
    fault, line = each.fault, each.line
    return {
        "kind": fault.kind, "what": fault.what, "place": fault.place,
        "line": line.id if line else None, "in_time": each.in_time, "because": each.because,
    }  # fmt: skip


def _question(question: Question) -> dict[str, Any]:
    answers = [{"reads": where, "causes_left": len(left)} for where, left in question.answers]
    return as_json(question.reading.test) | {"takes_min": question.minutes, "answers": answers}


def _cause(cause: Cause) -> dict[str, Any]:
    faults = [{"what": fault.what, "place": fault.place} for fault in cause.faults]
    return {"remedy": cause.remedy, "odds": cause.odds, "faults": faults}
