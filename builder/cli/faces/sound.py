"""What can be asked of `sound`."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeVar, get_args

import click

from builder.cli.faces.options import book_option, format_option, need_extra
from builder.cli.forms import Form
from builder.model.words import MadeBy, RecordedOn

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
    need_extra("sound")
    from builder.cli import sound

    sound.write_track(file, steps, int(rate_hz))


_HIGHEST_CHANNEL, _MOST_VOLTS = 32, 100
_Typed = TypeVar("_Typed")


def _by_channel(
    given: Iterable[str], understood: Callable[[str], _Typed | None], such_as: str
) -> dict[int, _Typed]:
    """What was typed as CHANNEL=…, by channel; `understood` says None of what it cannot take.

    Raises:
        BadParameter: one is written otherwise, or a channel is given twice.
    """
    found: dict[int, _Typed] = {}
    for text in given:
        number, _, typed = text.partition("=")
        channel = int(number) if number.isascii() and number.isdigit() else 0
        value = understood(typed.strip())
        if value is None or not 1 <= channel <= _HIGHEST_CHANNEL:
            raise click.BadParameter(f"{text}: type {such_as}")
        if channel in found:
            raise click.BadParameter(f"{text}: channel {channel} is given twice")
        found[channel] = value
    return found


def _readings(
    context: click.Context, option: click.Parameter, given: tuple[str, ...]
) -> dict[int, float]:
    """Volts by channel, of what was typed as CHANNEL=VOLTS."""
    return _by_channel(given, _volts, "channel and volts, such as 1=2.53")


def _volts(typed: str) -> float | None:
    try:
        read_v = float(typed)
    except ValueError:
        return None
    return read_v if 0 < read_v < _MOST_VOLTS else None


def _pairs(
    context: click.Context, option: click.Parameter, given: tuple[str, ...]
) -> dict[int, str]:
    """Names by channel, of what was typed as CHANNEL=NAME."""
    return _by_channel(given, lambda typed: typed or None, "channel and name, such as 1=front-left")


def _for_visit(command: Callable[..., None]) -> Callable[..., None]:
    """The options that say what a visit has to know beside the recording."""
    for option in reversed(_VISIT_OPTIONS):
        command = option(command)
    return command


_VISIT_OPTIONS = (
    click.option("--visit", type=click.Path(path_type=Path), metavar="VISIT",
        help="Write the facts into this visit: its file, or its id."),
    click.option("--pair", "pairs", multiple=True, callback=_pairs, metavar="CHANNEL=PAIR",
        help="Which pair is on a channel of the recording; once for each."),
    click.option("--on", "recorded_on", type=click.Choice(get_args(RecordedOn)), default="speaker",
        show_default=True, help="What hung on the pairs meanwhile."),
    click.option("--lead", default="", metavar="ID",
        help="The lead, by its id in recording_leads of book.yaml."),
    click.option("--volume", type=click.IntRange(0, 200), multiple=True, metavar="NUMBER",
        help="The volume that the radio showed at a step of the track; once for each step."),
    click.option("--at-volume", type=click.IntRange(0, 200), metavar="NUMBER",
        help="The volume that it showed during the sweeps."),
    click.option("--set-to", default="", metavar="TEXT",
        help="How the radio was set: seat, tone, effects."),
    click.option("--simulated", is_flag=True,
        help="The recording was computed: no radio played it."),
    click.option("--dry-run", is_flag=True,
        help="Say what would be written, and write nothing."),
    book_option,
)  # fmt: skip


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
@_for_visit
def read(
    file: Path,
    steps: int,
    meter: dict[int, float],
    corner_hz: float | None,
    without_car: Path | None,
    page: Path | None,
    form: Form,
    visit: Path | None,
    pairs: dict[int, str],
    recorded_on: RecordedOn,
    lead: str,
    volume: tuple[int, ...],
    at_volume: int | None,
    set_to: str,
    simulated: bool,
    dry_run: bool,
    book: Path | None,
) -> None:
    """Say what a recording of the test track tells of each pair, one pair on each channel.

    Levels, band edges, shape, bass and distortion at each step, the loudest clean step; and of
    pairs that were recorded together delay, polarity, all-pass and crossover. Each with what it may
    be wrong by, or with the reason why the recording cannot say it. The exit code is 1 when the
    recording as a whole is spoilt: cut off, too soft, without its marks.

    With --visit the facts go into a visit of the book, tried there first, with what changes for its
    vehicle; without it nothing is written. Begin the visit with loombook new visit.

    \b
    loombook sound read recorded.wav --meter 1=2.53 --meter 2=2.51
    loombook sound read recorded.wav --steps 5 --without-car loop.wav --format json
    loombook sound read recorded.wav --steps 2 --meter 1=2.53 --visit VISIT --pair 1=front-left \\
        --lead lead-1 --volume 20 --volume 30
    """
    need_extra("sound")
    from builder.cli import sound
    from builder.pipeline.changing.sound_visit import ForVisit

    for_visit = None
    if visit is not None:
        made_by: MadeBy = "simulator" if simulated else "recorder"
        for_visit = ForVisit(
            visit, pairs, recorded_on, lead, volume, at_volume, set_to.strip(), made_by
        )
    asked = sound.ReadAsked(
        steps, meter, corner_hz, without_car, page, form, for_visit, book, dry_run
    )
    sound.read_sound(file, asked)


@sound.command()
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--job", required=True, metavar="JOB", help="The job, by its id or a part of it.")
@click.option(
    "--speaker",
    "speakers",
    multiple=True,
    required=True,
    callback=_pairs,
    metavar="CHANNEL=NAME",
    help="Which speaker of the job is on a channel of the recording; once for each.",
)
@_steps
@click.option(
    "--corner",
    "corner_hz",
    type=click.FloatRange(0.1, 200.0),
    metavar="HZ",
    help="Where lead and recorder are 3 dB down at the low end, when that is known.",
)
@book_option
def compare(
    file: Path,
    job: str,
    speakers: dict[int, str],
    steps: int,
    corner_hz: float | None,
    book: Path | None,
) -> None:
    """Say how far a recording at the amplifier's outputs is from the tune of its job.

    For each speaker: corners, evenness, whether the first step is clean; each passes, or with what
    to change, or is not told with the reason. The exit code is 1 when something is to be changed.
    Nothing is written.

    \b
    loombook sound compare after.wav --job teasel-subwoofer --speaker 1=subwoofer --corner 3
    """
    need_extra("sound")
    from builder.cli import sound, sound_compared

    asked = sound.ReadAsked(steps, {}, corner_hz, None, None, "text", book=book)
    sound_compared.compare(file, job, speakers, asked)
