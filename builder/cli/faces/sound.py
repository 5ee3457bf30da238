"""What can be asked of `sound`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.extra_packages import need_packages

_steps = click.option(
    "--steps",
    type=click.IntRange(1, 30),
    default=8,
    show_default=True,
    help="How many steps of the radio's volume the track has places for.",
)
_rate = click.option(
    "--rate",
    "rate_hz",
    type=click.Choice(["44100", "48000"]),
    default="48000",
    show_default=True,
    help="Samples a second of the track: 44100 for a disc, 48000 for a stick or a phone.",
)


@click.group()
def sound() -> None:
    """Measure the sound of a factory radio: a track to play, and what a recording of it says.

    \b
    loombook sound track test.wav
    """


@sound.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE.wav")
@_steps
@_rate
def track(file: Path, steps: int, rate_hz: str) -> None:
    """Write the test track for the car, as FILE.wav, FILE-left.wav and FILE-right.wav.

    The first is stereo; of the others one side is silent. It holds marks, three sweeps from 10 Hz
    to 22 kHz, a tone of 200 Hz for the meter, each side alone, silence, and at each volume step
    40 Hz and 1 kHz, quiet and loud, none longer than a second. Beeps say the number of a step; a
    long one counts five. Nothing is overwritten.

    A radio may change it: set tone and fader to the middle, loudness, sound effects and
    speed-dependent volume off, crossfade, normalising and volume limit of the player off. A link
    without a wire squeezes the sound: play it from a stick or a disc.

    Danger: 0 dBFS is as loud as the radio goes. Play it into resistors, or turn up step by step
    into full-range speakers, ears protected. Stop when a tone sounds rough.

    \b
    loombook sound track test.wav
    loombook sound track test.wav --steps 5 --rate 44100
    """
    need_packages("sound")
    from builder.cli import sound

    sound.write_track(file, steps, int(rate_hz))
