"""What a second battery adds to the bay: its link, its ground, which negative comes off first."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSupply, SecondBattery
from builder.model.job.batteries import JoinedBy
from builder.planning.bay import bands
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.bay.supply_tests import LoopShare, by_current
from builder.planning.bay.work import BayWork
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    BATTERY_PLUS,
    LEAD_TO_SECOND,
    SECOND,
    SECOND_MINUS,
    SECOND_PLUS,
)
from builder.planning.pack_details import PowerSheet
from builder.planning.plan import TurnOn
from builder.planning.power.asleep_draws import (
    PARKED_SECOND,
    on_second,
    parked_words,
    second_asleep_ma,
)
from builder.planning.power.battery_kinds import battery_kind
from builder.planning.power.joiners import JOINERS
from builder.planning.words import MAIN_FUSE
from builder.planning.work_pack import BayTest, JobParts

LINK_INSULATION = "link-insulation"
CHARGED_V = 13.2
"""Less at a battery's posts is no charging. Common practice, no source. [V]"""
_MOST_V: dict[JoinedBy, float] = {"relay": 0.5, "diode": 1.2}
"""What the link may lose with the engine on. Common practice, no source. [V]"""


def second_battery_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield the lines that look at a second battery; none without one."""
    second = work.parts.job.supply.second_battery
    if second is None:
        return
    yield _charged(work, second)
    yield from _charging(work.power)
    yield measure(
        "second-battery-ground", "loud", f"{SECOND} − to battery −, loudest clean music",
        "engine", "dc_v", None, bands.GROUND_RISE_MAX_V,
        "what lies between the two grounds charges and feeds it less",
        (BATTERY_MINUS, SECOND_MINUS), WITH_THE_CIRCUIT,
    )  # fmt: skip


def _charged(work: BayWork, second: SecondBattery) -> BayTest:
    """Whether it is charged: volts lost on the link by the amperes in it, where that is known and
    is a matter of wires; else volts."""
    most, power = _MOST_V.get(second.joined_by), work.power
    what = (
        f"engine on for a minute: {SECOND} at its posts"
        if most is None
        else "engine on for a minute: battery + to second battery +"
    )
    line = measure(
        "second-battery-link", "turn_on", what, "engine", "dc_v",
        CHARGED_V if most is None else None, most,
        "a fuse out, a charger or relay that does not work: nothing charges it",
        (BATTERY_PLUS, SECOND_PLUS), WITH_THE_CIRCUIT,
    )  # fmt: skip
    run = power.link_run if power else None
    if second.joined_by != "relay" or power is None or run is None or not power.charging_a:
        return line
    left_v = work.defaults.supply_path_drop_v - run.return_drop_v
    lost_v = run.cumulative_drop_v - run.return_drop_v
    share = LoopShare(
        1000 * left_v / run.current_a, 1000 * lost_v / run.current_a, True, power.charging_a
    )
    return by_current(line, share, SECOND, "charging's")


def _charging(power: PowerSheet | None) -> Iterator[BayTest]:
    """What charges it, with no music: nothing but the battery itself holds it down."""
    run = power.link_run if power else None
    if power is None or run is None or run.fuse_a is None or not power.charging_a:
        return
    yield measure(
        "second-battery-charging", "turn_on",
        f"engine on for a minute, music off, clamp round the {LEAD_TO_SECOND}",
        "engine", "a", None, power.charging_a,
        f"with music, more opens its fuses of {shown(run.fuse_a)} A: charge it, then read again",
        since=WITH_THE_CIRCUIT,
    )  # fmt: skip


def second_rest(supply: JobSupply, defaults: HouseDefaults) -> Iterator[BayTest]:
    """Yield the line that reads what it holds before it is joined: the hours are counted from it;
    none without one."""
    second = supply.second_battery
    if second is None:
        return
    least = battery_kind(second.type, defaults).accepted_v
    yield measure(
        "second-battery-rest", "ground",
        f"{SECOND} at its posts, rested, its negative free",
        "battery_off", "dc_v", least, None,
        "lower: charge it first; the hours are counted from it",
        since=WITH_THE_CIRCUIT,
    )  # fmt: skip


def parked_second(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> Iterator[BayTest]:
    """Yield the line that reads what it gives while the car is parked; none without one."""
    if parts.job.supply.second_battery is not None:
        most = second_asleep_ma(parts, turn_on, defaults)
        yield measure(
            PARKED_SECOND, "closing",
            f"{parked_words(f'draw of the {SECOND}', defaults)}: the {MAIN_FUSE}",
            "asleep", "ma", None, most,
            f"{' and '.join(sorted(on_second(parts)))}: the car's own does not show it",
            since=WITH_THE_CIRCUIT,
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
        f"{joiner}: the lead on either side of it, to body and to each leg of every pair",
        "battery_off", "ohm", bands.INSULATION_MIN_OHM, None,
        "a battery at either end: a pinched link burns from both", since=WITH_THE_CIRCUIT,
    )  # fmt: skip
