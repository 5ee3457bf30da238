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
from builder.planning.power.joiners import JOINERS
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
    joiner = JOINERS[second.joined_by]
    yield measure(
        LINK_INSULATION, "far_end",
        "both fuses of the link between the batteries out, its ends not yet in the "
        f"{joiner}: the lead on either side of it, to body", "battery_off",
        "ohm", bands.INSULATION_MIN_OHM, None,
        "a battery at either end: a pinched link burns from both", since=WITH_THE_CIRCUIT,
    )  # fmt: skip
