"""What a second battery adds to the bay: its link, its ground, which negative comes off first."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.job import JobSupply
from builder.model.job.batteries import JoinedBy
from builder.planning.bay import bands
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    BATTERY_PLUS,
    SECOND,
    SECOND_MINUS,
    SECOND_PLUS,
)
from builder.planning.work_pack import BayTest

LINK_INSULATION = "link-insulation"
CHARGED_V = 13.2
"""Less at a battery's posts is no charging. Common practice, no source. [V]"""
_MOST_V: dict[JoinedBy, float] = {"relay": 0.5, "diode": 1.2}
"""What the link may lose with the engine on. Common practice, no source. [V]"""


def second_battery_tests(supply: JobSupply) -> Iterator[BayTest]:
    """Yield the lines that look at a second battery; none without one."""
    second = supply.second_battery
    if second is None:
        return
    most = _MOST_V.get(second.joined_by)
    what = (
        f"engine on for a minute: {SECOND} at its posts"
        if most is None
        else "engine on for a minute: battery + to second battery +"
    )
    yield measure(
        "second-battery-link", "turn_on", what, "engine", "dc_v",
        CHARGED_V if most is None else None, most,
        "a fuse out, a charger or relay that does not work: nothing charges it",
        (BATTERY_PLUS, SECOND_PLUS), WITH_THE_CIRCUIT,
    )  # fmt: skip
    yield measure(
        "second-battery-ground", "loud", f"{SECOND} − to battery −, loudest clean music",
        "engine", "dc_v", None, bands.GROUND_RISE_MAX_V,
        "what lies between the two grounds charges and feeds it less",
        (BATTERY_MINUS, SECOND_MINUS), WITH_THE_CIRCUIT,
    )  # fmt: skip


def link_insulation(supply: JobSupply) -> Iterator[BayTest]:
    """Yield the line that finds a pinched link before a fuse of it goes home; none without one."""
    second = supply.second_battery
    if second is None:
        return
    where = {
        "relay": "its lead on either side of the relay",
        "diode": "its lead on either side of the diode",
        "dc_charger": "its lead, lifted from the charger, on either side of it",
    }[second.joined_by]
    yield measure(
        LINK_INSULATION, "far_end",
        f"both fuses of the link between the batteries out: {where}, to body", "battery_off",
        "ohm", bands.INSULATION_MIN_OHM, None,
        "a battery at either end: a pinched link burns from both", since=WITH_THE_CIRCUIT,
    )  # fmt: skip


def negatives(supply: JobSupply | None) -> str:
    """Return which negatives come off, in order, and what else feeds one battery from the other.

    `supply` is None where there is no job: the car then has its own battery and no other.
    """
    if supply is None or supply.second_battery is None:
        return "the battery negative off"
    return (
        "the negative of every battery off, the car's first; where the second battery is in, its "
        "own next, and both fuses of the link between them out"
    )


def negatives_on(supply: JobSupply | None) -> str:
    """Return which negatives go on again, in the order that takes them off in reverse."""
    if supply is None or supply.second_battery is None:
        return "battery negative"
    return (
        "the second battery's negative where it is in, then the car's, then both fuses of the link "
        "between them"
    )
