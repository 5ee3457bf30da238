"""What the commands of `sound` have in common: their options, and figures by channel."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeVar, get_args

import click

from builder.cli.faces.options import book_option
from builder.model.words import RecordedOn

_HIGHEST_CHANNEL, _MOST_VOLTS = 32, 100
_SHORT_NUMBER = re.compile("[0-9]{1,3}")
_Typed = TypeVar("_Typed")

steps_option = click.option(
    "--steps",
    type=click.IntRange(1, 30),
    default=8,
    show_default=True,
    help="How many steps of the radio's volume the track has places for.",
)
corner_option = click.option(
    "--corner",
    "corner_hz",
    type=click.FloatRange(0.1, 200.0),
    metavar="HZ",
    help="Where lead and recorder are 3 dB down at the low end, when that is known.",
)


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
        channel = int(number) if _SHORT_NUMBER.fullmatch(number) else 0
        value = understood(typed.strip())
        if value is None or not 1 <= channel <= _HIGHEST_CHANNEL:
            raise click.BadParameter(f"{text}: type {such_as}")
        if channel in found:
            raise click.BadParameter(f"{text}: channel {channel} is given twice")
        found[channel] = value
    return found


def readings_typed(
    context: click.Context, option: click.Parameter, given: tuple[str, ...]
) -> dict[int, float]:
    """Return volts by channel, of what was typed as CHANNEL=VOLTS."""
    return _by_channel(given, _volts, "channel and volts, such as 1=2.53")


def _volts(typed: str) -> float | None:
    try:
        read_v = float(typed)
    except ValueError:
        return None
    return read_v if 0 < read_v < _MOST_VOLTS else None


def pairs_typed(
    context: click.Context, option: click.Parameter, given: tuple[str, ...]
) -> dict[int, str]:
    """Return names by channel, of what was typed as CHANNEL=NAME."""
    return _by_channel(given, lambda typed: typed or None, "channel and name, such as 1=front-left")


def visit_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options that say what a visit has to know beside the recording."""
    for option in reversed(_VISIT_OPTIONS):
        command = option(command)
    return command


_VISIT_OPTIONS = (
    click.option("--visit", type=click.Path(path_type=Path), metavar="VISIT",
        help="Write the facts into this visit: its file, or its id."),
    click.option("--pair", "pairs", multiple=True, callback=pairs_typed, metavar="CHANNEL=PAIR",
        help="Which pair is on a channel of the recording; once for each."),
    click.option("--on", "recorded_on", type=click.Choice(get_args(RecordedOn)), default="speaker",
        show_default=True, help="What hung on the pairs meanwhile."),
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
lead_option = click.option(
    "--lead",
    default="",
    metavar="ID",
    help="The lead, by its id in recording_leads of book.yaml: its corner, its polarity.",
)
