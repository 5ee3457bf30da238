"""Old notes written into the text of a vehicle record, and results into that of a job; no file."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from builder.editing.splicing import insert_item
from builder.findings import DataPath


class PlacedReading(NamedTuple):
    """A reading or note, and the path of the pin or fuse position of a vehicle it is about."""

    path: DataPath
    data: dict[str, Any]


def with_old_notes(text: str, old_notes: Iterable[PlacedReading]) -> str:
    """Return a vehicle's text with what an old notebook says noted under its pins.

    Everything else stays as it is, byte for byte.

    Raises:
        UneditableError: the text has no place for one of them.
    """
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
