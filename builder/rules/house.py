"""A rule's house defaults, printed with what it finds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import wraps

from builder.findings import Fault
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.proof.grading.grade import Grade
from builder.proof.house import house_note

Check = Callable[[Vehicle, Shelf], Iterator[Fault]]


def prints(*names: str) -> Callable[[Check], Check]:
    """Let every message of a check end with these defaults, as the book sets them."""

    def printing(check: Check) -> Check:
        def checked(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
            note = house_note(names, shelf.defaults)
            for fault in check(vehicle, shelf):
                yield replace(fault, message=f"{fault.message} [{note}]")

        wraps(check)(checked)
        checked.house = names  # type: ignore[attr-defined]
        return checked

    return printing


def house_of_grade(grade: Grade, defaults: HouseDefaults) -> str:
    """Return the defaults behind a grade for the end of a message, "" when none acted."""
    note = house_note(grade.house, defaults)
    return f" [{note}]" if note else ""
