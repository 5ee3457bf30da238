"""`loombook evidence`: what was measured in the bay comes back into the book."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import click

from builder.book import Book
from builder.cli.books import opened_to_write
from builder.cli.colours import told
from builder.cli.exit_codes import end_with
from builder.cli.forms import Form
from builder.cli.sentences import disk_sentence
from builder.editing import UneditableError
from builder.findings import Finding
from builder.pipeline.answers.visit_changes import Change
from builder.pipeline.changing.evidence import AddedEvidence, added_evidence, write_evidence
from builder.pipeline.changing.evidence_sheet import SheetRefusedError
from builder.pipeline.changing.record_files import ChangedMeanwhileError
from builder.rendering.evidence_text import (
    conflict_lines,
    grade_lines,
    plan_lines,
    readings_lines,
    recall_lines,
)
from builder.reporting import finding_data


def add(sheet: Path, dry_run: bool, book: Path | None, form: Form) -> None:
    """Bring a bay sheet into the book, and print what that changes."""
    added = _added(opened_to_write(book, dry_run), sheet, form)
    if not dry_run:
        _write(added)
    click.echo(_as_json(added, dry_run) if form == "json" else _as_text(added, dry_run))
    end_with(added.findings, written=not (dry_run or added.adds_nothing))


def _added(book: Book, sheet: Path, form: Form) -> AddedEvidence:
    try:
        return added_evidence(book, sheet)
    except SheetRefusedError as error:
        if form == "json":
            found = [finding_data(finding) for finding in error.findings]
            click.echo(json.dumps({"added": False, "findings": found}, indent=2))
        else:
            for finding in error.findings:
                click.echo(told(finding))
            click.echo("nothing was added")
        raise SystemExit(1) from error
    except UneditableError as error:
        raise click.ClickException(str(error)) from error


def _write(added: AddedEvidence) -> None:
    try:
        write_evidence(added)
    except ChangedMeanwhileError as error:
        raise click.ClickException(str(error)) from error
    except OSError as error:
        told = disk_sentence(error)
        message = f"{told}; add the same sheet again: what is there already stays as it is"
        raise click.ClickException(message) from error


def _as_json(added: AddedEvidence, dry_run: bool) -> str:
    document: dict[str, Any] = {
        "added": not dry_run and not added.adds_nothing,
        "dry_run": dry_run,
        "vehicle": added.vehicle,
        "job": added.job,
        "session": added.session,
        "readings": [reading._asdict() for reading in added.readings],
        "old_notes": [note._asdict() for note in added.old_notes],
        "results": list(added.results),
        "notes": list(added.notes),
        "ticked": list(added.ticked),
        "there_already": added.there,
        "overtaken": list(added.overtaken),
        "grades": [{**one._asdict(), "fell": one.fell} for one in added.change.grades],
        "conflicts": [one._asdict() for one in added.change.conflicts],
        "recalled": [one._asdict() for one in added.change.recalled],
        "plans": [one._asdict() for one in added.change.plans],
        "now_possible": [one._asdict() for one in added.change.opened],
        "files": [edit.file.shown for edit in added.edits],
        "findings": [finding_data(finding) for finding in added.findings],
    }
    return json.dumps(document, indent=2, ensure_ascii=False)


def _as_text(added: AddedEvidence, dry_run: bool) -> str:
    return "\n".join(_lines(added, dry_run))


def _lines(added: AddedEvidence, dry_run: bool) -> Iterator[str]:
    yield from (told(finding) for finding in _of_sheet(added))
    yield from (_overtaken_line(test, added.job) for test in added.overtaken)
    if added.adds_nothing:
        yield f"the book has all {added.there} lines of this sheet already: nothing changed"
        return
    verb = "would be added" if dry_run else "added"
    yield f"{verb} to {added.vehicle}, visit {added.session}:"
    yield from readings_lines(
        (*added.readings, *added.old_notes), added.results, added.notes, added.ticked
    )
    if added.there:
        yield f"there already: {added.there}"
    yield from change_lines(added.change)
    yield from _titled("to mend or to know since:", map(told, _since(added)))
    files = ", ".join(
        [edit.file.shown for edit in added.edits] + [photo.path.name for photo in added.pictures]
    )
    yield f"nothing was written; it would change {files}" if dry_run else f"written: {files}"


def change_lines(change: Change) -> Iterator[str]:
    """What a visit changes for its vehicle, as lines."""
    less = "look again at these, they use a pin that is trusted less now:"
    yield from _titled("grades:", grade_lines(change.grades))
    yield from _titled("speaks against the record:", conflict_lines(change.conflicts))
    yield from _titled(less, recall_lines(change.recalled))
    yield from _titled("plans:", plan_lines(change.plans))


def _overtaken_line(test: str, job: str | None) -> str:
    return (
        f"{test}: this result is there already, before a later one of the same day, which counts. "
        f"Was it read again after that? Then write it last into the results of {job}."
    )


def _titled(title: str, lines: Iterable[str]) -> Iterator[str]:
    found = list(lines)
    if found:
        yield title
        yield from found


def _of_sheet(added: AddedEvidence) -> list[Finding]:
    return [finding for finding in added.findings if finding.file == added.sheet]


def _since(added: AddedEvidence) -> list[Finding]:
    return [finding for finding in added.findings if finding.file != added.sheet]
