"""What everything added draws with no sound: one figure for the hours and for the bay sheet."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.parts import Amplifier, Converter, Interface
from builder.planning.plan import TurnOn
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


def awake_ma(interface: Interface) -> float:
    """Return what a data interface draws itself while the bus is awake. [mA]

    While its record does not say, that is at least what it draws asleep.
    """
    supply = interface.supply
    return supply.idle_ma if supply.awake_ma is None else supply.awake_ma


def interface_a(parts: JobParts, turn_on: TurnOn) -> Amperes:
    """Return what the data interface of a plan draws at work; 0 without one. [A]

    The car's own plug feeds it: it is no part of what a clamp at the main fuse reads, and of what
    the car's battery gives it is.
    """
    interface = parts.shelf.interfaces.get(turn_on.interface or "")
    return 0.0 if interface is None else awake_ma(interface) / 1000


def idle_limits_a(idle: Amperes) -> tuple[Amperes, Amperes]:
    """Return the least and the most that pass for an idle current. [A]

    >>> [round(each, 2) for each in idle_limits_a(1.0)]
    [0.7, 1.3]
    """
    return idle * (1 - IDLE_BAND), idle * (1 + IDLE_BAND)
