"""Tests before and after the trim goes back: the car's own sounds, whine, heat, lamp, draw."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.bay.held_tests import seat_tests
from builder.planning.bay.kept_lines import sounds_after
from builder.planning.bay.line import measure, tick
from builder.planning.bay.second_battery_lines import parked_second
from builder.planning.car.seats import seats_over
from builder.planning.plan import TurnOn
from builder.planning.power.asleep_draws import (
    PARKED_AFTER,
    PARKED_BEFORE,
    asleep_allowance_ma,
    parked_after_ma,
    parked_before_ma,
    parked_is_read,
    parked_words,
)
from builder.planning.work_pack import BayTest, JobParts


def close_tests(
    parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults, *, cancelling: bool = True
) -> Iterator[BayTest]:
    """Yield the close-out checks that concern this car, in the order of doing them.

    `cancelling` says whether the noise cancellation of a car that has one is still at work.
    """
    features = parts.vehicle.features
    yield from sounds_after(parts, cancelling=cancelling)
    yield from seat_tests(parts.vehicle, parts.job)
    yield _WHINE if features.hybrid != "yes" else replace(_WHINE, what=_WHINE_OF_HYBRID)
    if features.start_stop != "no":
        yield (
            replace(_RESTARTS, turn="whole") if seats_over(parts.vehicle, parts.job) else _RESTARTS
        )
    yield _HEAT
    yield _RESTRAINT_LAMP
    yield _draw(parts, turn_on, defaults)
    yield from parked_second(parts, turn_on, defaults)
    yield _RADIO_HOME


def probe_close_tests(parts: JobParts) -> Iterator[BayTest]:
    """Yield what is looked at when a car that was only measured is whole again."""
    yield from sounds_after(parts)
    yield _RESTRAINT_LAMP
    yield _RADIO_HOME


_WHINE = tick(
    "whine", "closing",
    "700 to 3000 r/min, lights, fan, heated screen on: no whine", "engine",
    "a whine is a ground or a signal lead beside the supply",
)  # fmt: skip
_WHINE_OF_HYBRID = (
    "engine held running by the vehicle maker's maintenance mode, up to 3000 r/min where it lets "
    "it, lights, fan and heated screen on: no whine; where the maker gives no such mode, while the "
    "car runs, stops and charges by itself, standing, ready lamp on"
)
"""No pedal sets the speed of an engine that starts by itself. Common practice, no source."""
_RESTARTS = tick(
    "restarts", "closing",
    "three restarts with music on: no drop-out and no thump longer than half a second",
    "auto_restart", "the turn-on or the supply dips too low",
)  # fmt: skip
_HEAT = tick(
    "heat", "closing",
    "ten minutes of loud music, then engine off, key out: a hand can stay on amplifier, main fuse "
    "and every joint", "engine", "heat is a bad joint or too little air",
)  # fmt: skip
_RESTRAINT_LAMP = tick(
    "restraint-lamp", "whole",
    "restraint lamp lights with the key and goes out by itself, as before", "run",
    "a plug near the work was not put back",
)  # fmt: skip
_RADIO_HOME = tick(
    "radio-home", "whole",
    "all that came out is back at its place, plugs home and not pinched", "run",
    "what was left out or pinched is found now, before the car leaves",
)  # fmt: skip


def _draw(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> BayTest:
    """Parked draw, against what was read before; while nobody did, whoever reads adds it up."""
    before, most = parked_before_ma(parts.job), parked_after_ma(parts, turn_on, defaults)
    more = f"{shown(asleep_allowance_ma(parts, turn_on, defaults))} mA"
    what, said = parked_words("parked draw", defaults), f"{more} are what is fitted"
    rule = f"{more} more than {PARKED_BEFORE} read"
    if before is None:
        what += f": at most {rule}"
    elif parked_is_read(parts.job):
        said = f"{shown(before)} mA before work began and {said}"
    else:
        said = f"{rule}, once it did; {shown(before)} mA until then"
    return measure(
        PARKED_AFTER, "closing", what, "asleep", "ma", None, most, f"{said}; more stays awake"
    )
