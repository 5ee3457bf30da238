"""A visit written into the text of a vehicle record, and results into that of a job; no file."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from builder.editing.splicing import insert_item
from builder.findings import DataPath


class PlacedReading(NamedTuple):
    """A reading of a record, with its session, and the path of the pin or position it is under."""

    path: DataPath
    data: dict[str, Any]


def with_visit(
    text: str,
    session: dict[str, Any] | None,
    readings: Iterable[PlacedReading],
    old_notes: Iterable[PlacedReading] = (),
) -> str:
    """Return a vehicle's text with a session, None for one it has, and what was read or noted
    under its pins.

    Everything else stays as it is, byte for byte.

    Raises:
        UneditableError: the text has no place for one of them.
    """
    if session is not None:
        text = insert_item(text, ("sessions",), session, "vehicle")
    for reading in readings:
        text = insert_item(text, (*reading.path, "readings"), reading.data, "vehicle")
    for note in old_notes:
        text = insert_item(text, (*note.path, "old_notes"), note.data, "vehicle")
    return text


def with_results(
    text: str,
    results: Iterable[dict[str, Any]],
    notes: Iterable[dict[str, Any]] = (),
    ticked: Iterable[dict[str, Any]] = (),
) -> str:
    """Return a job's text with results, notes and ticks added behind those it has.

    Raises:
        UneditableError: the text has no place for one of them.
    """
    for result in results:
        text = insert_item(text, ("results",), result, "job")
    for note in notes:
        text = insert_item(text, ("notes",), note, "job")
    for tick in ticked:
        text = insert_item(text, ("ticked",), tick, "job")
    return text
