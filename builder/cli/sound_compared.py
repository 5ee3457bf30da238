"""`loombook sound compare`: what an amplifier's outputs do, against the tune of their job."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import click

from builder.book import Book
from builder.cli.books import opened
from builder.cli.exit_codes import REFUSED
from builder.cli.refusals import no_answer
from builder.cli.sound import ReadAsked, bytes_of, facts_of, lead_asked, recording_in
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.answers.packs import packed
from builder.pipeline.answers.sound_aims import Aimed, aims_of
from builder.pipeline.answers.sound_aims_between import TunedOutput, aims_between
from builder.sound.reading import SoundFacts


def compare(file: Path, job: str, speakers: dict[int, str], asked: ReadAsked) -> None:
    """Print what of the tune is reached, and what to change; exit 1 where something is not."""
    recording = recording_in(file, bytes_of(file))
    outputs = _outputs(opened(asked.book), job, speakers, len(recording.channels))
    facts, _ = facts_of(file, recording, asked, lead_asked(asked))
    told = [*_aims(outputs, facts)]
    for each in told:
        click.echo(_line(each))
    if any(each.passes is False for each in told):
        raise SystemExit(REFUSED)


def _aims(outputs: dict[int, TunedOutput], facts: SoundFacts) -> Iterator[Aimed]:
    """Each output against its tune, then each two that were recorded together."""
    for at, output in outputs.items():
        yield from aims_of(output.row, facts.pairs[at - 1])
    for two in facts.between:
        if two.first in outputs and two.second in outputs:
            yield from aims_between(outputs[two.first], outputs[two.second], two)


def _line(aimed: Aimed) -> str:
    verdict = {True: "pass", False: "change", None: "not told"}[aimed.passes]
    more = f": {aimed.change}" if aimed.change else ""
    return f"{aimed.speaker}, {aimed.what}: {aimed.found}, aim {aimed.aim}: {verdict}{more}"


def _outputs(
    book: Book, job: str, speakers: dict[int, str], channels: int
) -> dict[int, TunedOutput]:
    """The tune of each speaker that was recorded, by channel of the recorder."""
    try:
        made = packed(book, job)
    except NoSuchRecordError as error:
        raise no_answer(error) from error
    tune = {row.speaker: row for row in made.pack.tune}
    for number, name in speakers.items():
        if number > channels:
            raise click.UsageError(f"--speaker {number}={name}: there is no channel {number}")
        if name not in tune:
            there = ", ".join(tune) or "none, since it is no tap plan"
            raise click.UsageError(f'{made.pack.job} tunes no "{name}"; it tunes: {there}')
    if len(set(speakers.values())) < len(speakers):
        raise click.UsageError("one speaker is given for two channels: each has its own")
    pairs = {
        chain.speaker: [made.parts.vehicle.channel(each) for each in chain.channels]
        for chain in made.pack.levels
    }
    return {at: TunedOutput(tune[name], pairs[name]) for at, name in sorted(speakers.items())}
