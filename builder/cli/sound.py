"""`loombook sound`: the test track as files, and what it holds."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import click

from builder.book import shown_path
from builder.pipeline.changing.record_files import create_new
from builder.sound.track import METER_HZ, TURN_BACK, Choice, Part, Track, plan_track
from builder.sound.wav_writing import wav_of
from builder.sound.waves import samples_of

_END = ".wav"


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
