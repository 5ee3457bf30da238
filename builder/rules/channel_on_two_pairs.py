"""One channel on two pairs.

What it catches
---------------
The same channel and leg on two cavities of one unit, or a full-range channel beside its own
woofer or tweeter at the same unit.

Why it matters in the bay
-------------------------
Two pairs of one channel are either split by frequency or one of them is something else.
Taken for full range, half of a split pair gives a system without treble or without bass.

Example
-------
Fails::

    pins:
      - {cavity: 1, function: speaker, channel: front-left, leg: positive}
      - {cavity: 5, function: speaker, channel: front-left, leg: positive}

Passes::

    pins:
      - {cavity: 1, function: speaker, channel: front-left-woofer, leg: positive}
      - {cavity: 5, function: speaker, channel: front-left-tweeter, leg: positive}

How to mend it
--------------
Name the pairs -woofer and -tweeter when the factory splits the band, correct the channel of
one, or say with `only_if` which cars each holds for.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.model.words import SPLIT_BANDS
from builder.rules.conditions import can_coexist, clashes
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Pair, wiring_of
from builder.rules.wording import called


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield legs described twice, and full-range pairs beside their own bands."""
    pairs = wiring_of(vehicle).pairs
    by_key = {(pair.function, pair.unit, pair.channel): pair for pair in pairs}
    for pair in pairs:
        for first, second in (*clashes(pair.positives), *clashes(pair.negatives)):
            yield Fault(
                (*second.pin.path, "channel"),
                f"{called(second)} is the same leg as {called(first)}: two pairs of one "
                "channel are split by frequency, or one of them is another channel",
                f"type channel: {pair.channel}-woofer and {pair.channel}-tweeter if the band is "
                "split, or correct one of the two",
            )
        for band in SPLIT_BANDS.get(pair.channel, ()):
            part = by_key.get((pair.function, pair.unit, band))
            if part is not None:
                yield from _beside_its_band(pair, part)


def _beside_its_band(whole: Pair, part: Pair) -> Iterator[Fault]:
    ours, theirs = (whole.positives + whole.negatives), (part.positives + part.negatives)
    if can_coexist(ours[0].pin, theirs[0].pin):
        yield Fault(
            (*ours[0].pin.path, "channel"),
            f"{called(ours[0])} is called full range, but {called(theirs[0])} is part of the "
            "same channel at the same unit: a pair of a split channel is not full range",
            f"type {whole.channel}-woofer or {whole.channel}-tweeter here",
        )


RULE = rule("PIN105", Severity.FIX, Scope.RECORD, check)
