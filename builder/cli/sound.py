"""`loombook sound`: the test track as files, and what a recording of it says."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.forms import Form
from builder.cli.sound_told import as_data, lines_of
from builder.loading import FileTooLargeError, read_bounded
from builder.pipeline.changing.record_files import create_new
from builder.rendering.sound_page import sound_page
from builder.sound.reading import Said, SoundFacts, read_recording
from builder.sound.results import RecordingRefusedError
from builder.sound.track import METER_HZ, TURN_BACK, Choice, Part, Track, plan_track
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


def read_sound(
    file: Path,
    steps: int,
    meter: dict[int, float],
    corner_hz: float | None,
    without_car: Path | None,
    page: Path | None,
    form: Form,
) -> None:
    """Print what a recording says, and write a page of it; exit 1 with the reason when spoilt."""
    recording = _recording(file)
    loop_back = None if without_car is None else _recording(without_car)
    beyond = [number for number in meter if number > len(recording.channels)]
    if beyond:
        raise click.UsageError(f"--meter: the recording has no channel {beyond[0]}")
    read_v = tuple(meter.get(number) for number in range(1, len(recording.channels) + 1))
    try:
        facts = read_recording(recording, Said(Choice(steps=steps), read_v, corner_hz), loop_back)
    except RecordingRefusedError as error:
        raise click.ClickException(f"{shown_path(file)}: {error}") from error
    if page is not None:
        _write_page(page, file.name, facts)
    if form == "json":
        click.echo(json.dumps(as_data(facts), indent=1, ensure_ascii=False))
        return
    for line in lines_of(facts):
        click.echo(line)


def _write_page(page: Path, name: str, facts: SoundFacts) -> None:
    try:
        create_new(page, sound_page(facts, f"What {name} says", lines_of(facts)))
    except FileExistsError as error:
        raise click.UsageError(str(error)) from error
    click.echo(f"{shown_path(page)} is written", err=True)


def _recording(file: Path) -> Recording:
    try:
        return read_wav(read_bounded(file, _LARGEST_BYTES))
    except (RecordingRefusedError, FileTooLargeError) as error:
        raise click.ClickException(f"{shown_path(file)}: {error}") from error
