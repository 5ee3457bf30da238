"""What can be asked of `sound`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option, format_option, need_extra
from builder.cli.faces.sound_options import (
    corner_option,
    lead_option,
    pairs_typed,
    readings_typed,
    steps_option,
    visit_options,
)
from builder.cli.forms import Form
from builder.model.words import MadeBy, RecordedOn

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
@steps_option
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


@sound.command()
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@steps_option
@click.option(
    "--meter",
    multiple=True,
    callback=readings_typed,
    metavar="CHANNEL=VOLTS",
    help="What the meter read at the pair of a channel while 200 Hz played; once for each.",
)
@corner_option
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
@click.option(
    "--calibrated",
    is_flag=True,
    help="The recorder's input stands as it did when the lead was calibrated: volts by that.",
)
@lead_option
@format_option
@visit_options
def read(
    file: Path,
    steps: int,
    meter: dict[int, float],
    corner_hz: float | None,
    without_car: Path | None,
    page: Path | None,
    calibrated: bool,
    lead: str,
    form: Form,
    visit: Path | None,
    pairs: dict[int, str],
    recorded_on: RecordedOn,
    volume: tuple[int, ...],
    at_volume: int | None,
    set_to: str,
    simulated: bool,
    dry_run: bool,
    book: Path | None,
) -> None:
    """Say what a recording of the test track tells of each pair, one pair on each channel.

    Volts by a meter (--meter), or by the calibration of the lead while the recorder's input stands
    as it did then (--lead, --calibrated); without either nothing is said in volts.

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
    if visit is None and (pairs or volume or at_volume is not None or set_to or simulated):
        raise click.UsageError(
            "--pair, --volume, --at-volume, --set-to and --simulated say what a visit has to know: "
            "name it with --visit"
        )
    if visit is not None:
        made_by: MadeBy = "simulator" if simulated else "recorder"
        for_visit = ForVisit(
            visit, pairs, recorded_on, lead, volume, at_volume, set_to.strip(), made_by
        )
    asked = sound.ReadAsked(
        steps, meter, corner_hz, without_car, page, form, for_visit, lead, calibrated, book, dry_run
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
    callback=pairs_typed,
    metavar="CHANNEL=NAME",
    help="Which speaker of the job is on a channel of the recording; once for each.",
)
@steps_option
@corner_option
@lead_option
@book_option
def compare(
    file: Path,
    job: str,
    speakers: dict[int, str],
    steps: int,
    corner_hz: float | None,
    lead: str,
    book: Path | None,
) -> None:
    """Say how far a recording at the amplifier's outputs is from the tune of its job.

    For each speaker: corners, evenness, whether the first step is clean; for each two that were
    recorded together: delay, polarity, and an all-pass where the tune has one. Each passes, or with
    what to change, or is not told with the reason. The exit code is 1 when something is to be
    changed. Nothing is written.

    \b
    loombook sound compare after.wav --job teasel-subwoofer --speaker 1=subwoofer --corner 3
    loombook sound compare after.wav --job teasel-four-doors --lead tin-1 \\
        --speaker "1=front left door" --speaker "2=front right door"
    """
    need_extra("sound")
    from builder.cli import sound, sound_compared

    asked = sound.ReadAsked(steps, {}, corner_hz, None, None, "text", lead=lead, book=book)
    sound_compared.compare(file, job, speakers, asked)
