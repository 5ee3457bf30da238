"""What a job adds to the draw of the parked car: each device that stays joined to the battery."""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job
from builder.model.results import newest
from builder.planning.plan import Reason, TurnOn
from builder.planning.power.feed_place import asked_feed_place
from builder.planning.power.joiners import powered_joiner
from builder.planning.tables import HOUSE_DEFAULT
from builder.planning.work_pack import JobParts

PARKED_BEFORE = "parked-before"
"""The line of the bay sheet that reads the parked car before work begins."""
PARKED_AFTER = "parked-after"
"""The line that reads it when all is fitted: what was read before, and what the devices may add."""
PARKED_SECOND = "parked-second"
"""The line that reads what a second battery gives while the car is parked."""


def parked_words(of: str, house: HouseDefaults) -> str:
    """Return how a draw is read: before and after the same way, or they compare nothing.

    >>> parked_words("parked draw", HouseDefaults())
    'parked draw, asleep for 60 min, clamp or fuse'
    """
    return f"{of}, asleep for {house.asleep_proved_min:g} min, clamp or fuse"


def asleep_draws(parts: JobParts, turn_on: TurnOn) -> dict[str, float | None]:
    """Return what each fitted device draws asleep by its record; None where that is silent.

    What the turn-on lead switches is off then, and a diode draws nothing.
    """
    supply = parts.converter.supply
    found: dict[str, float | None] = {}
    if supply is not None:
        found[parts.converter.name] = supply.asleep_ma
    found |= {name: each.supply.asleep_ma for name, each in parts.amplifiers.items()}
    interface = parts.shelf.interfaces.get(turn_on.interface or "")
    if interface is not None:
        found[interface.name] = interface.supply.idle_ma
    joiner = powered_joiner(parts.job.supply.second_battery)
    if joiner is not None:
        found[joiner] = None
    return found


def on_second(parts: JobParts) -> frozenset[str]:
    """Return the devices that a second battery feeds, and it alone while the car is parked."""
    if parts.job.supply.second_battery is None:
        return frozenset()
    beside = asked_feed_place(parts.job) in ("amplifier", "block")
    return frozenset({*parts.amplifiers, *([parts.converter.name] if beside else [])})


def _counted_ma(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> dict[str, float]:
    """What each device counts; one whose record is silent counts with the house default."""
    found = asleep_draws(parts, turn_on)
    return {name: defaults.device_asleep_ma if ma is None else ma for name, ma in found.items()}


def second_asleep_ma(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> float:
    """Return what a second battery may give while the car is parked; 0 without one. [mA]"""
    counted = _counted_ma(parts, turn_on, defaults)
    return sum(ma for name, ma in counted.items() if name in on_second(parts))


def asleep_allowance_ma(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> float:
    """Return what the parked car may draw more than before, of its own battery. [mA]

    Every device counts; fewer than make up the house's own allowance leave that. What a second
    battery feeds is not drawn from the car's: what joins the two is open by then.
    """
    together = sum(_counted_ma(parts, turn_on, defaults).values())
    second = second_asleep_ma(parts, turn_on, defaults)
    return max(defaults.parked_increase_ma, together) - second


def allowance_reason(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> Reason:
    """Return what may be added and what that is made of."""
    allowance = asleep_allowance_ma(parts, turn_on, defaults)
    said = [
        f"{name} {shown(defaults.device_asleep_ma if ma is None else ma)} mA"
        + ("" if ma is None else " by its record")
        for name, ma in asleep_draws(parts, turn_on).items()
    ]
    least = f"at least {shown(defaults.parked_increase_ma)} mA together"
    second = second_asleep_ma(parts, turn_on, defaults)
    least += f"; {shown(second)} mA of it from the second battery" if second else ""
    return Reason(
        f"the parked car may draw {shown(allowance)} mA more than before",
        f"{', '.join(said)}; {least}",
        HOUSE_DEFAULT,
    )


def parked_after_ma(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> float | None:
    """Return the most that the parked car may draw after the work; None where it is not known
    what it drew before. The days that the battery lasts are counted with it. [mA]"""
    before = parked_before_ma(parts.job)
    return None if before is None else before + asleep_allowance_ma(parts, turn_on, defaults)


def parked_before_ma(job: Job) -> float | None:
    """Return what the parked car drew before work began: as read last, else as the job says."""
    read = _read_before_ma(job)
    return job.supply.parked_ma if read is None else read


def parked_is_read(job: Job) -> bool:
    """Whether that is a reading of this visit, and no longer what the job counts with."""
    return _read_before_ma(job) is not None


def _read_before_ma(job: Job) -> float | None:
    read = newest(job.results).get(PARKED_BEFORE)
    return None if read is None else read.value
