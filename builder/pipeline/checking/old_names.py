"""Old names in a record: read as the new ones, and each told of at its place."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from typing import Any, Literal, NamedTuple

from builder.book import RecordFile
from builder.book.record_files import Name
from builder.findings import Fault, Fix
from builder.model.references import Reference, references_in
from builder.model.words import RecordKind


class OldName(NamedTuple):
    """A name in a record that is an old one, and the new."""

    reference: Reference
    now: str

    @property
    def fault(self) -> Fault:
        """What is said of it: a note, for the record is read as it was meant."""
        path, _, was = self.reference
        told, fix = now_called(was, self.now), Fix("write", path, self.now, written=was)
        return Fault(path, told, f"type {self.now}", fix=fix)


def now_called(was: str, now: str) -> str:
    """The sentence that tells of a new name."""
    return f'"{was}" is now called "{now}"'


def old_names_in(file: RecordFile, data: Mapping[str, Any]) -> tuple[OldName, ...]:
    """Return the old names in the schema-valid data of a record file, in the order of its keys.

    A private record may itself have the old name of the shared one that it stands in for: what it
    replaces is then the other.
    """
    if not file.renamed and not file.replaces:
        return ()
    found = old_names(file.kind, data, file.renamed)
    if not file.replaces or data["replaces"]["id"] == file.replaces:
        return found
    said = Reference(("replaces", "id"), file.kind, data["replaces"]["id"])
    return (OldName(said, file.replaces), *(one for one in found if one.reference != said))


def old_names(
    kind: RecordKind | Literal["sheet"], data: Mapping[str, Any], renamed: Mapping[Name, str]
) -> tuple[OldName, ...]:
    """Return the old names in schema-valid data of this kind; `renamed` is by kind and old name."""
    if not renamed:
        return ()
    return tuple(
        OldName(one, renamed[one.kind, one.name])
        for one in references_in(kind, data)
        if (one.kind, one.name) in renamed
    )


def with_new_names(data: Any, told: Sequence[OldName]) -> Any:
    """Return the data with the new names in the places of the old."""
    new = copy.deepcopy(data)
    for one in told:
        *steps, last = one.reference.path
        holder = new
        for step in steps:
            holder = holder[step]
        holder[last] = one.now
    return new
