"""What speaks for and against listening to a pair for a subwoofer, besides its bass."""

from __future__ import annotations

from typing import Literal

from builder.model.vehicle import Vehicle
from builder.model.words import GradeBand
from builder.planning.car.kept_sounds import gives
from builder.planning.car.pairs import Pair
from builder.planning.trust import LISTENING, RELIABLE, Trust, worst_band

Pairs = tuple[Pair, ...]

Shortcoming = Literal["swing", "upmix", "weak", "partly_proved", "band_unknown"]
"""What speaks against listening to a pair: bass that falls with the volume, a channel made by
upmixing, pins not proved, and a band that nobody recorded."""


def is_proved_sub(pairs: Pairs, trust: Trust) -> bool:
    """Whether this is the car's own subwoofer pair, proved as well as a turn-on has to be."""
    return pairs[0].channel == "sub" and _bands(pairs, trust) <= RELIABLE


def is_doubtful(pairs: Pairs, trust: Trust) -> bool:
    """Whether a leg is not proved enough even to be listened to."""
    return not _bands(pairs, trust) <= LISTENING


def _bands(pairs: Pairs, trust: Trust) -> set[GradeBand]:
    return {trust.grade(leg.pin).band for pair in pairs for leg in pair.legs}


def spoken_through(vehicle: Vehicle, pairs: Pairs) -> list[str]:
    """Return the protected sounds that come through one of the pairs: a chime, the call."""
    return [
        sound.sound for sound in vehicle.sounds if any(gives(sound, pair.channel) for pair in pairs)
    ]


def shortcomings(pairs: Pairs, trust: Trust) -> list[tuple[str, Shortcoming]]:
    """Return what speaks against listening to these pairs, each with the key of its weight."""
    found: list[tuple[str, Shortcoming]] = []
    carried = [pair.carries for pair in pairs]
    band = worst_band(_bands(pairs, trust))
    if band not in LISTENING:
        found.append((f"its pins are {band}", "weak"))
    elif band not in RELIABLE:
        found.append((f"its pins are only {band}", "partly_proved"))
    if any(carries is None or carries.band == "unknown" for carries in carried):
        found.append(("what band it carries is not recorded", "band_unknown"))
    if any(carries is not None and carries.upmix == "yes" for carries in carried):
        found.append(("what both sides share is taken out of it", "upmix"))
    return found
