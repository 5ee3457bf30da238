"""What a visit to a car will likely have: who came last, on which car. Shown to be confirmed."""

from __future__ import annotations

from operator import attrgetter
from typing import NamedTuple

from builder.book import Book
from builder.model.session import Session
from builder.pipeline.answers.answering import NoSuchRecordError, vehicle_meant


class SoFar(NamedTuple):
    """What was answered of a visit so far; "" for what was not."""

    vehicle: str
    by: str = ""
    tag: str = ""


def usual_of_visit(book: Book, said: SoFar) -> dict[str, str]:
    """Answers of the last visit, by question, after the answers so far.

    The tag is that of the same contributor, and what the car is that of the same tag: nobody is
    shown another car's year. The face that was counted on is never among them: it is looked at
    anew each time.
    """
    try:
        visits = vehicle_meant(book, said.vehicle)[1].sessions
    except NoSuchRecordError:
        return {}
    fitting = (s for s in visits if said.by in ("", s.by) and said.tag in ("", s.car.tag))
    last = max(fitting, key=attrgetter("date", "id"), default=None)
    return _answers(last, said) if last is not None else {}


def _answers(last: Session, said: SoFar) -> dict[str, str]:
    found: dict[str, object] = {"by": last.by}
    if said.by:
        found |= {"tag": last.car.tag, "method": last.method}
    if said.tag:
        found |= {"year": last.car.year, "built": last.car.built, "trim": last.car.trim}
    return {key: str(value) for key, value in found.items() if value is not None}
