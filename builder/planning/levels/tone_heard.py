"""What else plays when a tone sets a level or a gain: speakers that still hang on the car."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.job import Job
from builder.model.names import channel_name
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.heard_ends import ENDS, end_of
from builder.planning.car.selection import Selection
from builder.planning.levels.loudest_step import loudest_step, step_words
from builder.planning.words import End


def heard_with_tone(
    known: Iterable[Channel], played: Iterable[Channel], broken: Iterable[Channel]
) -> str:
    """Return where the fader stands for a tone and which of the car's speakers sound with it.

    `known` are the car's pairs, `played` those that feed something, `broken` those whose speaker
    has left the car's output. Where all that is fed comes from one end, the fader at that end
    silences the other's speakers and leaves what is read alone; its pairs' levels are read with it
    so. Common practice, no source. Empty where no speaker of the car is left.

    >>> rear = ("rear-left", "rear-right")
    >>> heard_with_tone(("front-left", *rear), rear, rear)
    'fader all the way to the rear, so that front left stays silent'
    """
    kept = [name for name in dict.fromkeys(known) if name not in set(broken)]
    end = _one_end(played)
    other = [name for name in kept if end_of(name) not in (None, end)] if end else []
    sounding = [name for name in kept if name not in other]
    said = []
    if other:
        stays = "stays" if len(other) == 1 else "stay"
        said.append(f"fader all the way to the {end}, so that {_named(other)} {stays} silent")
    if sounding:
        sound = "sounds" if len(sounding) == 1 else "sound"
        said.append(
            f"the car's own {_named(sounding)} {sound} too: ears covered, seconds at a time"
        )
    return "; ".join(said)


def besides_tone(vehicle: Vehicle, selection: Selection) -> str:
    """Return what plays beside what a tone sets, in this car with these pairs broken."""
    known = [each.channel for each in vehicle.channels]
    played = [tap.pair.channel for tap in selection.taps]
    return heard_with_tone(known, played, [tap.pair.channel for tap in selection.broken])


def tone_at(vehicle: Vehicle, job: Job, besides: str) -> str:
    """Return the volume at which a tone of a job is played, and what is heard beside it."""
    volume = step_words(loudest_step(vehicle, job))
    return f"{volume}; {besides}" if besides else volume


def _one_end(played: Iterable[Channel]) -> End | None:
    ends = {end_of(name) for name in played}
    return next((end for end in ENDS if ends == {end}), None)


def _named(channels: list[Channel]) -> str:
    names = [channel_name(each) for each in channels]
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
