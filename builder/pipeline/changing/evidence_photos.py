"""Where the photos of a bay sheet go: beside the job's record, under the names that they have."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from builder.editing.evidence_catalogue import PHOTO_REFUSED
from builder.findings import Fault, Finding
from builder.loading import FileTooLargeError, read_bounded
from builder.pipeline.changing.evidence_sheet import LoadedSheet, SheetRefusedError
from builder.pipeline.changing.evidence_visit import NewOfSheet


class NewPhoto(NamedTuple):
    """A photo to be laid beside a record."""

    path: Path
    content: bytes


def new_photos(loaded: LoadedSheet, visit: NewOfSheet) -> tuple[NewPhoto, ...]:
    """Return the photos of the notes that are new to the job.

    Raises:
        SheetRefusedError: another photo of that name lies there.
    """
    if visit.job is None:
        return ()
    named = {note["photo"] for note in visit.notes if "photo" in note}
    folder = visit.job.file.path.parent
    found = tuple(NewPhoto(folder / name, loaded.pictures[name]) for name in sorted(named))
    taken = [photo.path.name for photo in found if _is_another(photo)]
    if taken:
        raise SheetRefusedError(tuple(_refused(loaded, taken)))
    return found


def _is_another(photo: NewPhoto) -> bool:
    try:
        return read_bounded(photo.path, len(photo.content)) != photo.content
    except FileTooLargeError:
        return True
    except FileNotFoundError:
        return False


def _refused(loaded: LoadedSheet, taken: list[str]) -> Iterator[Finding]:
    for note in loaded.sheet.notes:
        if (name := note.facts.get("photo")) in taken:
            message = f"another photo {name} lies beside the job already"
            help_text = "give the photo of the sheet another name, in the note too"
            yield loaded.finding(PHOTO_REFUSED, Fault((*note.path, "photo"), message, help_text))
