"""A clean level is higher than the pair's bias allows.

What it catches
---------------
A measured `clean_max_v_rms` above (2 · bias − 1.5 V) / √2, where the bias is what the legs of
that pair rest at.

Why it matters in the bay
-------------------------
A bridge rests at half its supply, so the bias says how high the supply is. A level beyond it
was read while clipping, or on another pair; gains set with it are wrong.

Example
-------
Fails::

    # the legs rest at 6.4 V: at most (2 · 6.4 − 1.5) / √2 = 7.99 V RMS
    channels:
      - {channel: front-left, level: {clean_max_v_rms: 9.4}}

Passes::

    # the legs rest at 6.4 V: at most (2 · 6.4 − 1.5) / √2 = 7.99 V RMS
    channels:
      - {channel: front-left, level: {clean_max_v_rms: 7.9}}

How to fix
----------
Measure the clean level again with a scope or clip indicator, and the bias with the engine in
the same state.

Source
------
Half-supply bias: ADI bridge amplifier design note (read). 1.5 V lost in the output stage:
chosen by this project, in line with 9.12 V from 14.4 V.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import SpeakerChannel, Vehicle
from builder.rules.pair_readings import biases
from builder.rules.pin_readings import exceeds, value_of
from builder.rules.rule import Rule, Scope
from builder.rules.wiring import Pair, wiring_of
from builder.rules.wording import volts

_STAGE_LOSS_V = 1.5


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield measured levels that the highest bias seen on their pair cannot give."""
    wiring = wiring_of(vehicle)
    for channel in vehicle.channels:
        level_v = channel.level.clean_max_v_rms if channel.level else None
        bias_v = _highest_bias_v(channel, wiring.pairs)
        if level_v is None or bias_v is None or bias_v < shelf.defaults.biased_leg_min_v:
            continue
        limit_v = (2 * bias_v - _STAGE_LOSS_V) / math.sqrt(2)
        if exceeds(level_v, limit_v):
            yield Fault(
                (*channel.path, "level", "clean_max_v_rms"),
                f"{channel.channel} is said to give {volts(level_v)} RMS clean, but its legs rest "
                f"at {volts(bias_v)}, which allows {volts(limit_v)}: it was read while clipping, "
                "or on another pair",
                "measure the clean level and the bias again with the car in one state",
            )


def _highest_bias_v(channel: SpeakerChannel, pairs: tuple[Pair, ...]) -> float | None:
    """The highest mean bias of the pair in any session [V]."""
    found = [
        (value_of(legs.positive_reading) + value_of(legs.negative_reading)) / 2
        for pair in pairs
        if pair.channel == channel.channel and pair.unit == channel.driven_by
        for legs in biases(pair)
    ]
    return max(found, default=None)


RULE = Rule(
    id="MET124",
    slug="clean-level-above-bias",
    severity=Severity.FIX,
    scope=Scope.VEHICLE,
    check=check,
    title="A clean level is higher than the pair's bias allows",
)
