"""A factory wire that a job counts on as another than the car's record has it.

What it catches
---------------
An `existing_lead` whose size is not that of the wire in the cavity that it begins at, by the car's
record; and music that would flow in that wire above what it carries, or above the fuse that the
record has in it.

Why it matters in the bay
-------------------------
How weak a door gets is worked out from the job's size. Half the copper takes twice as much away and
gets warm behind trim, where nobody feels it. Hardly a speaker wire has a fuse: the wire
itself would be it. Or the wire that was measured at the door is another one than the plug has: its
colour tells.

Example
-------
Fails::

    speakers:  # the car's record has 0.5 mm² there
      - {channel: front-left, existing_lead: {size_mm2: 1.0, …}, …}

Passes::

    speakers:
      - {channel: front-left, existing_lead: {size_mm2: 0.5, …}, …}

How to mend it
--------------
Look at the wire at the plug, in the cavity and of the colour that the finding names, and at the
speaker. Write down what it is there: in the job, or in the car's record where that is wrong.

Source
------
Areas of AWG sizes: ASTM B258. How far two sizes may be apart, a trade size being at least a quarter
from the next: chosen by this project. What a wire carries: house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.model.words import Channel
from builder.planning.car.pairs import Pair
from builder.planning.car.treatments import is_crossed
from builder.planning.circuit.crossover_links import band_of
from builder.planning.power.conductors import (
    Conductor,
    conductor_of,
    fuse_ceiling_a,
)
from builder.planning.power.wire_gauge import awg_area_mm2
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import pairs_of, returns_to
from builder.rules.rule import Scope, rule
from builder.units import Amperes

SIZE_SHARE = 0.15
"""How far the areas of one wire may be apart, said in AWG and in mm²: 18 AWG and 0.75 mm² are 10 %.
Chosen by this project."""


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each factory wire of a job that the car's record has otherwise, or that is too thin."""
    pairs = pairs_of(parts)
    for speaker in parts.job.speakers:
        if speaker.existing_lead is None:
            continue
        names = returns_to(speaker, parts.vehicle)
        for name in names:
            if name in pairs and not _is_tweeters(speaker, names, name):
                yield from _compared(speaker, pairs[name])
                yield from _overloaded(pack, parts, speaker, pairs[name])


def _is_tweeters(speaker: JobSpeaker, names: tuple[Channel, ...], name: Channel) -> bool:
    """Whether a wire is the tweeter's behind a crossover: the job speaks of the woofer's."""
    return is_crossed(speaker, names) and band_of(name) == "tweeter"


def _compared(speaker: JobSpeaker, pair: Pair) -> Iterator[Fault]:
    """One finding for a pair, at the leg that is farthest off."""
    stated = conductor_of(speaker.existing_lead)
    legs = [(leg, size) for leg in pair.legs if (size := conductor_of(leg.pin.wire)) is not None]
    if stated is None or not legs:
        return
    leg, size = max(legs, key=lambda each: abs(_area_mm2(each[1]) / _area_mm2(stated) - 1))
    apart = _area_mm2(size) / _area_mm2(stated) - 1
    if abs(apart) <= SIZE_SHARE:
        return
    yield Fault(
        (*speaker.path, "existing_lead"),
        f"the job counts on {stated.words} to {speaker.name}, and the car's record has "
        f"{size.words} in {leg.name}, {leg.wire}: {_what(thinner=apart < 0)}",
        "look at both ends of that wire and write down what it is there",
    )


def _what(*, thinner: bool) -> str:
    return "it takes more away than is printed" if thinner else "it takes less away than is printed"


def _overloaded(
    pack: WorkPack, parts: JobParts, speaker: JobSpeaker, pair: Pair
) -> Iterator[Fault]:
    """The least of what its wire carries and of a fuse in it."""
    lead = next((each for each in pack.speaker_leads if each.speaker == speaker.name), None)
    limits = _limits(parts, speaker, pair)
    if lead is None or not limits:
        return
    carries, what = min(limits)
    if lead.music_current_a > carries:
        yield Fault(
            (*speaker.path, "existing_lead"),
            f"music takes {shown(lead.music_current_a, 1, beside=carries)} A through "
            f"{pair.legs[0].name}, {pair.legs[0].wire}, and {what} carries "
            f"{shown(carries, 1, beside=lead.music_current_a)} A",
            "lay a new wire to that speaker, or lower its rated_w_rms",
        )


def _limits(parts: JobParts, speaker: JobSpeaker, pair: Pair) -> list[tuple[Amperes, str]]:
    """What each piece on the way carries, with what it is."""
    house = parts.shelf.defaults
    found = [(fuse_ceiling_a(size, house), size.words) for size in _sizes(speaker, pair)]
    fuses = [leg.pin.fuse for leg in pair.legs if leg.pin.fuse is not None]
    return found + [
        (fuse.rating_a, f"the car's fuse {fuse.place}") for fuse in fuses if fuse.rating_a
    ]


def _sizes(speaker: JobSpeaker, pair: Pair) -> Iterator[Conductor]:
    for each in (speaker.existing_lead, *(leg.pin.wire for leg in pair.legs)):
        if (size := conductor_of(each)) is not None:
            yield size


def _area_mm2(conductor: Conductor) -> float:
    """The area that is printed on it: what it conducts may be less, and is not the question."""
    if conductor.size_mm2 is not None:
        return conductor.size_mm2
    return awg_area_mm2(conductor.size_awg or "")


RULE = rule("CAB111", Severity.WARN, Scope.JOB, check)
