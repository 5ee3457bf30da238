"""The old notes of a bay sheet: under which wire each belongs, and which are new to the record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from builder.declaring import read
from builder.editing.evidence_catalogue import NO_SUCH_PLACE
from builder.editing.evidence_text import PlacedReading
from builder.findings import Fault, Finding
from builder.model.old_note import OldNote
from builder.model.vehicle import Vehicle
from builder.pipeline.changing.evidence_places import place_of
from builder.pipeline.changing.evidence_sheet import LoadedSheet
from builder.rendering.pages.old_notes import old_note_words


def note_words(facts: dict[str, Any]) -> str:
    """What an old note says, from its data."""
    return old_note_words(read(OldNote, facts))


def new_old_notes(
    loaded: LoadedSheet, vehicle: Vehicle, data: Mapping[str, Any], findings: list[Finding]
) -> Iterator[tuple[str, PlacedReading]]:
    """Yield each old note that a record lacks, with the name of its place.

    What names no place becomes a finding. `data` is the vehicle's record.
    """
    trim = loaded.sheet.session["car"].get("trim")
    for note in loaded.sheet.old_notes:
        place = place_of(vehicle, note, trim)
        if isinstance(place, Fault):
            findings.append(loaded.finding(NO_SUCH_PLACE, place))
            continue
        holder: Any = data
        for step in place.path:
            holder = holder[step]
        if note.facts not in holder.get("old_notes", ()):
            yield place.name, PlacedReading(place.path, dict(note.facts))
