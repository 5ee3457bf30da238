"""Whether everything that is heard comes from one end of the car, so that the fader silences it."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.words import Channel
from builder.planning.words import End

ENDS: tuple[End, End] = ("front", "rear")


def end_of(channel: Channel) -> End | None:
    """Return front or rear; None of a centre or subwoofer pair.

    >>> end_of("rear-left")
    'rear'
    """
    return next((end for end in ENDS if channel.startswith(end)), None)


def only_end(
    known: Iterable[Channel], played: Iterable[Channel], broken: Iterable[Channel]
) -> End | None:
    """Return the end of the car that all that is heard comes from, or None.

    `played` are the pairs that feed something, `broken` those of `known` whose own speaker has left
    the car's output; a pair that is not broken is heard too. A car with one end has no fader.

    >>> known = ("front-left", "rear-left")
    >>> only_end(known, ["front-left"], known)
    'front'
    >>> only_end(known, ["front-left"], ["front-left"]) is None
    True
    """
    pairs = set(known)
    ends = {end_of(name) for name in (pairs - set(broken)) | set(played)}
    both = {end_of(name) for name in pairs} >= set(ENDS)
    return ends.pop() if both and len(ends) == 1 else None
