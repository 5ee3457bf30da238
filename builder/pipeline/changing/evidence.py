"""`evidence add`: a filled bay sheet checked, tried in the book, and written into its records.

What was read becomes a visit of the vehicle, in a file of its own, which goes first; then the job's
record. Each is whole at every moment; if the power goes between the two, both are valid, and adding
the same sheet again writes only what is missing.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder.book import Book
from builder.editing.evidence_catalogue import OTHER_STATE, SHARED_RECORD
from builder.findings import Fault, Finding
from builder.pipeline.answers.visit_changes import Change, Standing, changed, standing_of
from builder.pipeline.changing.evidence_photos import NewPhoto, new_photos
from builder.pipeline.changing.evidence_sheet import (
    LoadedSheet,
    SheetRefusedError,
    load_sheet,
    record_files_of,
)
from builder.pipeline.changing.evidence_visit import (
    Edited,
    NewOfSheet,
    NewReading,
    in_words,
    notes_in_words,
)
from builder.pipeline.changing.lent_records import of_shared_book
from builder.pipeline.changing.mending import text_faults
from builder.pipeline.changing.record_files import create_new, replace_texts
from builder.pipeline.changing.trial_book import trial_findings
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.unfinished import undisturbed


@dataclass(frozen=True, slots=True)
class AddedEvidence:
    """What a sheet adds to the book, or would add.

    `there` counts lines of the sheet that the records had already; `overtaken` are those tests
    among them whose result of that day is not the one that counts. `findings` are warnings about
    the sheet, then what the book has to say since.
    """

    sheet: str
    vehicle: str
    job: str | None
    session: str
    readings: tuple[NewReading, ...]
    old_notes: tuple[NewReading, ...]
    results: tuple[dict[str, Any], ...]
    notes: tuple[dict[str, Any], ...]
    ticked: tuple[dict[str, Any], ...]
    pictures: tuple[NewPhoto, ...]
    there: int
    overtaken: tuple[str, ...]
    change: Change
    findings: tuple[Finding, ...]
    edits: tuple[Edited, ...]

    @property
    def adds_nothing(self) -> bool:
        """Whether the records held everything already."""
        return not self.edits


def added_evidence(book: Book, path: Path) -> AddedEvidence:
    """Return what a sheet adds, tried in a copy of the book; nothing is written.

    Raises:
        SheetRefusedError: the sheet, or a record it belongs to, is not in order, or such a
            record is kept in another book.
        UneditableError: a record's text has no place for a line of the sheet.
        OSError: a file cannot be read.
    """
    loaded = load_sheet(path, book.renamed)
    checked = check_book(book)
    vehicle_file, job_file = record_files_of(book, loaded)
    before = standing_of(checked, vehicle_file.path.stem)
    visit = NewOfSheet.of(book, loaded, before, job_file)
    return _tried(book, checked, loaded, before, visit)


@undisturbed()
def write_evidence(added: AddedEvidence) -> None:
    """Write the records: all new texts are on the disk before the first takes its place.

    The photos go first: a record never names one that is not there.

    Raises:
        ChangedMeanwhileError: somebody changed a record meanwhile; nothing was written.
        OSError: a file cannot be written.
    """
    for photo in added.pictures:
        if not photo.path.exists():
            create_new(photo.path, photo.content)
    made: list[Path] = []
    try:
        for edit in added.edits:
            if edit.old is None:
                create_new(edit.file.path, edit.new)
                made.append(edit.file.path)
        replace_texts([(e.file.path, e.old, e.new) for e in added.edits if e.old is not None])
    except BaseException:
        _take_back(made, [edit.file.path.parent for edit in added.edits if edit.old is None])
        raise


def _take_back(made: list[Path], folders: list[Path]) -> None:
    """Remove what was made, and the folders that were made for it."""
    for path in made:
        path.unlink(missing_ok=True)
    for folder in folders:
        with suppress(OSError):  # others have put something there, or it was never made
            folder.rmdir()
            folder.parent.rmdir()


def _tried(
    book: Book, checked: CheckedBook, loaded: LoadedSheet, before: Standing, visit: NewOfSheet
) -> AddedEvidence:
    edits = tuple(visit.edits())
    _own_only(book, loaded, edits)
    _whole_only(edits)
    after, since = _after(book, checked, before, edits)
    return AddedEvidence(
        sheet=loaded.shown,
        vehicle=before.vehicle.id,
        job=loaded.sheet.job,
        session=visit.record.file.path.stem,
        readings=in_words(visit, after),
        old_notes=notes_in_words(visit),
        results=visit.results,
        notes=visit.notes,
        ticked=visit.ticked,
        pictures=new_photos(loaded, visit),
        there=visit.there,
        overtaken=visit.overtaken,
        change=changed(before, after, visit.record.file.path.stem),
        # What was there already was read from an older state: that needs no warning.
        findings=(*(_other_state(loaded, before) if edits else ()), *since),
        edits=edits,
    )


def _whole_only(edits: tuple[Edited, ...]) -> None:
    """Refuse a sheet with which a record could not be read any more."""
    for edit in edits:
        if broken := text_faults(edit.file, edit.new):
            raise SheetRefusedError(tuple(broken))


def _own_only(book: Book, loaded: LoadedSheet, edits: tuple[Edited, ...]) -> None:
    """Refuse a sheet that would change a file of a shared book, and say where it goes.

    What was read is a file of its own, and stands among the book's own records.
    """
    found = [
        loaded.finding(SHARED_RECORD, of_shared_book(book, edit.file, lender))
        for edit in edits
        if (lender := book.lender_of(edit.file.path)) is not None
    ]
    if found:
        raise SheetRefusedError(tuple(found))


def _after(
    book: Book, checked: CheckedBook, before: Standing, edits: tuple[Edited, ...]
) -> tuple[Standing, list[Finding]]:
    """How the vehicle stands with the new texts, and the findings that come of them."""
    if not edits:
        return before, []
    stood: list[Standing] = []

    def check(trial: Book) -> CheckedBook:
        done = check_book(trial)
        stood.append(standing_of(done, before.vehicle.id))
        return done

    found = trial_findings(book, {edit.file.path: edit.new for edit in edits}, check)
    known = {(f.file, f.rule_id, f.message) for f in checked.findings}
    since = [f for path in found for f in found[path]]
    new = [f for f in since if (f.file, f.rule_id, f.message) not in known]
    return stood[0], sorted(new, key=Finding.sort_key)


def _other_state(loaded: LoadedSheet, before: Standing) -> Iterator[Finding]:
    """Warn when the plan or record says something else today than when the sheet was made."""
    sheet = loaded.sheet
    today = before.sum_of(sheet.job, sheet.converter)
    if sheet.record and today and sheet.record != today:
        message = f"the sheet is of state {sheet.record}; today it would be {today}"
        fault = Fault(("record",), message, OTHER_STATE.fix)
        yield loaded.finding(OTHER_STATE, fault)
