"""What can be asked of `sound`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.extra_packages import need_packages
from builder.cli.faces.options import format_option
from builder.cli.forms import Form

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
    loombook sound read recorded.wav --meter 1=2.53
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


def _readings(
    context: click.Context, option: click.Parameter, given: tuple[str, ...]
) -> dict[int, float]:
    """Volts by channel, of what was typed as CHANNEL=VOLTS."""
    found: dict[int, float] = {}
    for text in given:
        number, _, volts = text.partition("=")
        try:
            channel, read_v = int(number), float(volts)
        except ValueError:
            channel, read_v = 0, 0.0
        if not (1 <= channel <= 32 and 0 < read_v < 100):
            raise click.BadParameter(f"{text}: type channel and volts, such as 1=2.53")
        found[channel] = read_v
    return found


@sound.command()
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@_steps
@click.option(
    "--meter",
    multiple=True,
    callback=_readings,
    metavar="CHANNEL=VOLTS",
    help="What the meter read at the pair of a channel while 200 Hz played; once for each.",
)
@click.option(
    "--corner",
    "corner_hz",
    type=click.FloatRange(0.1, 200.0),
    metavar="HZ",
    help="Where lead and recorder are 3 dB down at the low end, when that is known.",
)
@click.option(
    "--without-car",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    metavar="FILE",
    help="The player recorded through the same lead and recorder, without the car.",
)
@click.option(
    "--page",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE.html",
    help="Write a page with drawings and tables, to look at or to print.",
)
@format_option
def read(
    file: Path,
    steps: int,
    meter: dict[int, float],
    corner_hz: float | None,
    without_car: Path | None,
    page: Path | None,
    form: Form,
) -> None:
    """Say what a recording of the test track tells of each pair, one pair on each channel.

    Levels, band edges, shape, bass and distortion at each step, the loudest clean step; and of
    pairs that were recorded together delay, polarity, all-pass and crossover. Each with what it may
    be wrong by, or with the reason why the recording cannot say it. Nothing is written. The exit
    code is 1 when the recording as a whole is spoilt: cut off, too soft, without its marks.

    \b
    loombook sound read recorded.wav --meter 1=2.53 --meter 2=2.51
    loombook sound read recorded.wav --steps 5 --without-car loop.wav --format json
    """
    need_packages("sound")
    from builder.cli import sound

    sound.read_sound(file, steps, meter, corner_hz, without_car, page, form)
