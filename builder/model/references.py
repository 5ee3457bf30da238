"""Where a record names another record, or a person: by kind of record, one row a place.

A step that is `EACH` stands for every item of a list. A test reads the schemas and finds the places
that a row is missing for.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal, NamedTuple, cast

from builder.findings import DataPath
from builder.model.words import RecordKind

EACH = "*"
_Row = tuple[tuple[str, ...], RecordKind | Literal["itself"]]
"""Where a name stands and of what it is one; `itself` is the kind of the record that names it."""

_REPLACED: _Row = (("replaces", "id"), "itself")
REFERENCES: dict[RecordKind | Literal["sheet"], tuple[_Row, ...]] = {
    "vehicle": (
        _REPLACED,
        (("how_to_tell", EACH, "answers", EACH, "means"), "vehicle"),
        (("sessions", EACH, "by"), "contributor"),
        (("plugs", EACH, "housing"), "housing"),
        (("plugs", EACH, "look_alikes", EACH, "housing"), "housing"),
        (("plugs", EACH, "pins", EACH, "claims", EACH, "by"), "contributor"),
        (("plugs", EACH, "pins", EACH, "old_notes", EACH, "by"), "contributor"),
        (("accept", EACH, "who"), "contributor"),
        (("resolutions", EACH, "by"), "contributor"),
        (("resolutions", EACH, "retires", EACH), "contributor"),
        (("photos", EACH, "by"), "contributor"),
    ),
    "housing": (_REPLACED, (("mates_with", EACH), "housing")),
    "converter": (_REPLACED,),
    "amplifier": (_REPLACED,),
    "cable": (_REPLACED,),
    "loom": (
        _REPLACED,
        (("ends", EACH, "housing"), "housing"),
        (("branches", EACH, "housing"), "housing"),
        (("ring_out", "by"), "contributor"),
    ),
    "interface": (_REPLACED, (("needs", "plugs", EACH), "housing")),
    "contributor": (_REPLACED, (("not_same_as", EACH), "contributor")),
    "job": (
        _REPLACED,
        (("vehicle",), "vehicle"),
        (("converter",), "converter"),
        (("interfaces", EACH), "interface"),
        (("amplifiers", EACH, "part"), "amplifier"),
        (("routes", EACH, "measured_by"), "contributor"),
        (("routes", EACH, "proved_there", "by"), "contributor"),
        (("holes", EACH, "looked_by"), "contributor"),
        (("cables", EACH), "cable"),
        (("looms", EACH, "record"), "loom"),
        (("accept", EACH, "who"), "contributor"),
        (("begun", "by"), "contributor"),
        (("results", EACH, "by"), "contributor"),
        (("notes", EACH, "by"), "contributor"),
        (("ticked", EACH, "by"), "contributor"),
    ),
    "visit": (_REPLACED, (("vehicle",), "vehicle"), (("sessions", EACH, "by"), "contributor")),
    "sheet": (
        (("vehicle",), "vehicle"),
        (("job",), "job"),
        (("converter",), "converter"),
        (("session", "by"), "contributor"),
        (("old_notes", EACH, "by"), "contributor"),
    ),
}


class Reference(NamedTuple):
    """A name in a record: where it stands, what it is the name of, and the name."""

    path: DataPath
    kind: RecordKind
    name: str


def references_in(kind: RecordKind | Literal["sheet"], data: Any) -> Iterator[Reference]:
    """Yield every name of a record or contributor in schema-valid `data` of a record of `kind`."""
    for steps, named in REFERENCES[kind]:
        for path, name in _at(data, steps, ()):
            yield Reference(path, cast(RecordKind, kind) if named == "itself" else named, name)


def _at(data: Any, steps: tuple[str, ...], path: DataPath) -> Iterator[tuple[DataPath, str]]:
    if not steps:
        if isinstance(data, str):
            yield path, data
    elif steps[0] == EACH and isinstance(data, list):
        for index, item in enumerate(data):
            yield from _at(item, steps[1:], (*path, index))
    elif isinstance(data, dict) and steps[0] in data:
        yield from _at(data[steps[0]], steps[1:], (*path, steps[0]))
