"""A question that names a car of the book, and what is known of its last visit."""

from __future__ import annotations

from builder.book import Book
from builder.cli.asking import Terminal
from builder.editing.interview.log import Log
from builder.editing.interview.steps import Step
from builder.model.words import RecordKind
from builder.pipeline.answers.answering import NoSuchRecordError, vehicle_meant
from builder.pipeline.changing.usual_visit import SoFar, usual_of_visit


def meant_vehicle(terminal: Terminal, book: Book, text: str) -> str:
    """The id of the car that a part of its name means; "" when none or several do."""
    try:
        found = vehicle_meant(book, text.strip())[1].id
    except NoSuchRecordError as error:
        terminal.say(f"  {error}")
        return ""
    if found != text.strip():
        terminal.say(f"  {found}")
    return found


def usual_answer(book: Book, kind: RecordKind, log: Log, step: Step) -> str | None:
    """What is shown to be confirmed: the default, or what the car's last visit had."""
    vehicle = log.one("vehicle") if kind == "visit" else None
    if not vehicle:
        return step.default
    said = SoFar(vehicle, log.one("by") or "", log.one("tag") or "")
    return usual_of_visit(book, said).get(step.key) or step.default
