"""`loombook sound compare`: what an amplifier's outputs do, against the tune of their job."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import Book
from builder.cli.books import opened
from builder.cli.exit_codes import REFUSED
from builder.cli.sound import ReadAsked, bytes_of, facts_of, lead_asked, recording_in
from builder.pipeline.answers.answering import NoSuchRecordError, RefusedRecordError
from builder.pipeline.answers.packs import packed
from builder.pipeline.answers.sound_aims import Aimed, aims_of
from builder.planning.tune_sheet import TuneRow


def compare(file: Path, job: str, speakers: dict[int, str], asked: ReadAsked) -> None:
    """Print what of the tune is reached, and what to change; exit 1 where something is not."""
    recording = recording_in(file, bytes_of(file))
    rows = _rows(opened(asked.book), job, speakers, len(recording.channels))
    facts, _ = facts_of(file, recording, asked, lead_asked(asked))
    told = [each for at, row in rows.items() for each in aims_of(row, facts.pairs[at - 1])]
    for each in told:
        click.echo(_line(each))
    if any(each.passes is False for each in told):
        raise SystemExit(REFUSED)


def _line(aimed: Aimed) -> str:
    verdict = {True: "pass", False: "change", None: "not told"}[aimed.passes]
    more = f": {aimed.change}" if aimed.change else ""
    return f"{aimed.speaker}, {aimed.what}: {aimed.found}, aim {aimed.aim}: {verdict}{more}"


def _rows(book: Book, job: str, speakers: dict[int, str], channels: int) -> dict[int, TuneRow]:
    """The tune of each speaker that was recorded, by channel of the recorder."""
    try:
        made = packed(book, job)
    except (NoSuchRecordError, RefusedRecordError) as error:
        raise click.UsageError(str(error)) from error
    tune = {row.speaker: row for row in made.pack.tune}
    for number, name in speakers.items():
        if number > channels:
            raise click.UsageError(f"--speaker {number}={name}: there is no channel {number}")
        if name not in tune:
            there = ", ".join(tune) or "none, since it is no tap plan"
            raise click.UsageError(f'{made.pack.job} tunes no "{name}"; it tunes: {there}')
    return {number: tune[name] for number, name in sorted(speakers.items())}
