"""What everything added draws with no sound: one figure for the hours and for the bay sheet."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.parts import Amplifier, Converter
from builder.planning.work_pack import JobParts
from builder.units import Amperes

IDLE_BAND = 0.3
"""How far the idle current may be from what the records say, as a share. Common practice, no
source."""


def recorded_idle_a(converter: Converter, amplifiers: Iterable[Amplifier]) -> Amperes:
    """Return the sum of what the records of the devices say. [A]"""
    own = 0.0 if converter.supply is None else converter.supply.idle_a
    return own + sum(each.supply.idle_a for each in amplifiers)


def idle_a(parts: JobParts) -> Amperes:
    """Return what everything added draws: as somebody wrote into the job, else as recorded. [A]"""
    return parts.job.supply.idle_a or recorded_idle_a(parts.converter, parts.amplifiers.values())


def idle_limits_a(idle: Amperes) -> tuple[Amperes, Amperes]:
    """Return the least and the most that pass for an idle current. [A]

    >>> [round(each, 2) for each in idle_limits_a(1.0)]
    [0.7, 1.3]
    """
    return idle * (1 - IDLE_BAND), idle * (1 + IDLE_BAND)
