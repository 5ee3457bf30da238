"""Visits that are begun before anything is read: a name of its own for each of them."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from typing import Any

from builder.book import Book, RecordFile
from builder.editing.visit_naming import MARK_DIGITS
from builder.model.visit import Visit, visit_id
from builder.pipeline.checking.records import read_record


def name_of_begun(book: Book, data: Mapping[str, Any]) -> str:
    """Return the name of a visit without readings, of its plain data.

    Two people of one shop begin one for the same car and day, and each fills his own: nothing that
    is known yet tells the two apart, so the sum that others have is drawn by lot here.

    Raises:
        FileExistsError: the book has the same one already, and nothing is read in it yet.
    """
    session = data["sessions"][0]
    who = (session["by"], str(session["date"]), session["car"]["tag"])
    for file in book.files():
        if file.kind == "visit" and _is_begun(file, data["vehicle"], who):
            told = f"{file.shown} exists already, and nothing is read in it yet: fill that one"
            raise FileExistsError(told)
    return visit_id(*who, secrets.token_hex(MARK_DIGITS // 2))


def _is_begun(file: RecordFile, vehicle: str, who: tuple[str, str, str]) -> bool:
    visit = read_record(file).record
    if not isinstance(visit, Visit) or _is_filled(visit) or visit.withdrawn is not None:
        return False
    first = visit.sessions[0]
    return (visit.vehicle, first.by, first.date, first.car_tag) == (vehicle, *who)


def _is_filled(visit: Visit) -> bool:
    return bool(visit.places or visit.recordings)
