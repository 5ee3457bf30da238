"""`loombook sound`: the test track as files, and what a recording of it says."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

import click

from builder.book import Book, shown_path
from builder.cli.books import opened, opened_to_write
from builder.cli.forms import Form
from builder.cli.sound_told import as_data, lines_of
from builder.cli.visiting import write_and_tell
from builder.loading import FileTooLargeError, read_bounded
from builder.model.recording_lead import RecordingLead
from builder.pipeline.changing.record_files import create_new
from builder.pipeline.changing.sound_visit import (
    ForVisit,
    MeantVisit,
    meant_visit,
    usable_lead,
    with_recording,
)
from builder.pipeline.changing.visit_edits import CannotEditVisitError
from builder.rendering.sound_page import sound_page
from builder.sound.reading import Said, SoundFacts, read_recording
from builder.sound.results import RecordingRefusedError
from builder.sound.track import METER_HZ, TURN_BACK, Choice, Part, Track, plan_track
from builder.sound.volts import Scale, calibrated_scale
from builder.sound.wav_reading import Recording, read_wav
from builder.sound.wav_writing import wav_of
from builder.sound.waves import samples_of

_END = ".wav"
_LARGEST_BYTES = 300_000_000
"""Three minutes of two channels at 192000 samples of 32 bits fit. Chosen by this project."""


def write_track(file: Path, steps: int, rate_hz: int) -> None:
    """Write a track three times, both sides and each alone, and print when what plays."""
    if file.suffix.lower() != _END:
        raise click.UsageError(f"{file.name} should end in {_END}")
    made = plan_track(Choice(steps=steps, rate_hz=rate_hz))
    for path, content in _files(file, made):
        try:
            create_new(path, content)
        except FileExistsError as error:
            raise click.UsageError(str(error)) from error
        click.echo(f"{shown_path(path)} is written")
    for line in track_lines(made):
        click.echo(line)


def _files(file: Path, made: Track) -> Iterator[tuple[Path, bytes]]:
    rate_hz = made.choice.rate_hz
    left, right = (samples_of(made, rate_hz, side) for side in ("left", "right"))
    yield file, wav_of(left, right, rate_hz)
    yield file.with_name(f"{file.stem}-left{file.suffix}"), wav_of(left, 0 * right, rate_hz)
    yield file.with_name(f"{file.stem}-right{file.suffix}"), wav_of(0 * left, right, rate_hz)


def track_lines(made: Track) -> Iterator[str]:
    """Yield what is done while the track plays: minutes and seconds, and what to do then."""
    yield f"it lasts {_clock(made.length_s)}; stand by the volume at:"
    for part in made.parts:
        if told := _task(part, made):
            yield f"  {_clock(part.start_s)}  {told}"


def _task(part: Part, made: Track) -> str:
    """What a person does when a part begins; nothing for most."""
    if part.hz == METER_HZ:
        return f"read the meter, AC volts, within {made.choice.meter_s:.0f} s"
    if part.name.endswith("beep 1"):
        loud_s = made.of_step(part.step)[2].start_s
        return f"after the beeps turn to volume step {part.step}; loud from {_clock(loud_s)} on"
    if part.name == TURN_BACK:
        return "after the long beep turn back to the volume of the beginning"
    return ""


def _clock(seconds: float) -> str:
    minutes, rest = divmod(int(seconds), 60)
    return f"{minutes}:{rest:02}"


@dataclass(frozen=True, slots=True)
class ReadAsked:
    """What was typed after `sound read FILE`; with `for_visit` the facts go into a book."""

    steps: int
    meter: dict[int, float]
    corner_hz: float | None
    without_car: Path | None
    page: Path | None
    form: Form
    for_visit: ForVisit | None = None
    lead: str = ""
    calibrated: bool = False
    book: Path | None = None
    dry_run: bool = False


def read_sound(file: Path, asked: ReadAsked) -> None:
    """Print what a recording says, and write a page of it; exit 1 with the reason when spoilt."""
    content = bytes_of(file)
    recording = recording_in(file, content)
    meant = None if asked.for_visit is None else _meant(asked, content, len(recording.channels))
    lead = meant.visit.lead if meant else lead_asked(asked)
    facts, read_v = facts_of(file, recording, asked, lead)
    if asked.page is not None:
        _write_page(asked.page, file.name, facts)
    if meant is not None:
        _into_visit(asked, meant, (file.name, content), facts, read_v)
        return
    if asked.form == "json":
        click.echo(json.dumps(as_data(facts), indent=1, ensure_ascii=False))
        return
    for line in lines_of(facts):
        click.echo(line)
    if lead is None and facts.between:
        click.echo(_ONE_POLARITY)


_ONE_POLARITY = (
    "polarity and what joining loses hold if all leads have one polarity, tried with a 1.5 V cell; "
    "--lead ID takes what the settings say of it"
)


def lead_asked(asked: ReadAsked) -> RecordingLead | None:
    """Return the lead of the settings that was named; exit 2 where it must not be used."""
    if not asked.lead:
        return None
    try:
        return usable_lead(opened(asked.book), asked.lead)
    except CannotEditVisitError as error:
        raise click.UsageError(str(error)) from error


def _calibrated(asked: ReadAsked, lead: RecordingLead | None) -> Scale | None:
    """The scale by the calibration of a lead, where somebody says that it still holds."""
    if not asked.calibrated:
        return None
    if lead is None or lead.calibration is None:
        named = f"{lead.id} has no calibration" if lead else "no lead is named"
        raise click.UsageError(
            f"--calibrated: {named}. Play 200 Hz, read AC volts at the pair with the recorder "
            "attached, and type both under the lead in recording_leads of book.yaml: calibration "
            "with date, pair_v_rms and recorded_dbfs; or read a meter at this pair: --meter"
        )
    return calibrated_scale(lead.calibration.pair_v_rms, lead.calibration.recorded_dbfs)


def facts_of(
    file: Path, recording: Recording, asked: ReadAsked, lead: RecordingLead | None
) -> tuple[SoundFacts, tuple[float | None, ...]]:
    """Return what a recording says, and what a meter read at each of its pairs; exit 1 when spoilt.

    `lead` is that of the settings; a corner that is typed goes before its own.
    """
    meter, without_car = asked.meter, asked.without_car
    loop_back = None if without_car is None else recording_in(without_car, bytes_of(without_car))
    beyond = [number for number in meter if number > len(recording.channels)]
    if beyond:
        raise click.UsageError(f"--meter: the recording has no channel {beyond[0]}")
    read_v = tuple(meter.get(number) for number in range(1, len(recording.channels) + 1))
    of_lead_hz, poled = (lead.corner_hz, lead.polarity != "unknown") if lead else (None, True)
    corner_hz = asked.corner_hz if asked.corner_hz is not None else of_lead_hz
    said = Said(Choice(steps=asked.steps), read_v, corner_hz, _calibrated(asked, lead), poled=poled)
    try:
        return read_recording(recording, said, loop_back), read_v
    except RecordingRefusedError as error:
        raise click.ClickException(f"{shown_path(file)}: {error}") from error


class _Meant(NamedTuple):
    """The book and the visit that a recording is for."""

    book: Book
    typed: ForVisit
    visit: MeantVisit


def _meant(asked: ReadAsked, content: bytes, channels: int) -> _Meant:
    assert asked.for_visit is not None
    book = opened_to_write(asked.book, asked.dry_run)
    try:
        found = meant_visit(book, asked.for_visit, content, channels, asked.steps)
    except CannotEditVisitError as error:
        raise click.UsageError(str(error)) from error
    return _Meant(book, asked.for_visit, found)


def _into_visit(
    asked: ReadAsked,
    meant: _Meant,
    content: tuple[str, bytes],
    facts: SoundFacts,
    read_v: tuple[float | None, ...],
) -> None:
    freed = asked.without_car is not None
    try:
        edited = with_recording(meant.book, meant.typed, meant.visit, content, read_v, freed, facts)
    except CannotEditVisitError as error:
        raise click.ClickException(str(error)) from error
    for note in facts.notes:
        click.echo(note, err=True)
    write_and_tell(edited, f"added: {content[0]}", asked.dry_run)


def _write_page(page: Path, name: str, facts: SoundFacts) -> None:
    try:
        create_new(page, sound_page(facts, f"What {name} says", lines_of(facts)))
    except FileExistsError as error:
        raise click.UsageError(str(error)) from error
    click.echo(f"{shown_path(page)} is written", err=True)


def bytes_of(file: Path) -> bytes:
    """Return what a file holds; exit 1 where it is too large for a recording."""
    try:
        return read_bounded(file, _LARGEST_BYTES)
    except FileTooLargeError as error:
        raise click.ClickException(f"{shown_path(file)}: {error}") from error


def recording_in(file: Path, content: bytes) -> Recording:
    """Return a recording; exit 1 with the reason where the file holds none."""
    try:
        return read_wav(content)
    except RecordingRefusedError as error:
        raise click.ClickException(f"{shown_path(file)}: {error}") from error
