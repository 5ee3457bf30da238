"""Constant, switched and ground of a vehicle in one line each: what a plain list answers."""

from __future__ import annotations

from typing import NamedTuple

from builder.finder.entries import FUSE, Entry, Row
from builder.finder.facts import rows_for
from builder.finder.understanding import Fact
from builder.model.said.functions import SWITCHED
from builder.model.words import Function
from builder.rendering.pages.wording import GRADE_MARKS

_ASKED: tuple[tuple[str, tuple[Function, ...]], ...] = (
    ("Constant", ("constant", "constant_sleeps")),
    ("Switched", SWITCHED),
    ("Ground", ("ground",)),
)


class ShortPin(NamedTuple):
    """Where a wire is, what it looks like, how sure that is, and what to mind.

    `mark` is "" for what has no grade of its own, such as a place in a fuse panel.
    """

    place: str
    wire: str
    mark: str
    grade: str
    warning: str


class ShortAnswer(NamedTuple):
    """One question and its answers; `note` says what has to be said with them or in their place."""

    label: str
    pins: tuple[ShortPin, ...]
    note: str


def short_answers(car: Entry) -> tuple[ShortAnswer, ...]:
    """Return the answers that stand under a vehicle in a list."""
    return tuple(_answer(label, functions, car) for label, functions in _ASKED)


def _answer(label: str, functions: tuple[Function, ...], car: Entry) -> ShortAnswer:
    found = rows_for(Fact("", functions), car)
    return ShortAnswer(label, tuple(map(_pin, found.rows)), found.note)


def _pin(row: Row) -> ShortPin:
    place = f"fuse {row.plug}" if row.cavity == FUSE else f"plug {row.plug} cavity {row.cavity}"
    return ShortPin(
        place,
        row.wire,
        GRADE_MARKS[row.grade] if row.grade != "measured" else "",
        row.grade,
        row.warning,
    )
