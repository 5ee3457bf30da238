"""How long the battery lasts: music with the engine off, and the car left standing."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.job.stored_charge import StoredCharge, feeding_charge, stored_charge
from builder.planning.plan import Reason
from builder.planning.power.idle_current import idle_a
from builder.planning.power.reserve import listening_hours, parked_days
from builder.planning.tables import HOUSE_DEFAULT
from builder.planning.work_pack import JobParts

_REST_SOURCE = "rest volts by charge: Battery Council International and makers' sheets (memory)"


@dataclass(frozen=True, slots=True)
class Lasting:
    """What is drawn from the battery besides what the record of the job says.

    `parked_ma` is what the parked car may draw after the work, None where it is not known what it
    drew before; `music_a` what everything added takes with music.
    """

    latch_ah_per_day: float | None
    parked_ma: float | None
    music_a: float


def listening_h(parts: JobParts, lasting: Lasting, defaults: HouseDefaults) -> float | None:
    """Return how long music plays with the engine off; None where a figure is not known. [h]"""
    stored, idle = feeding_charge(parts, defaults), idle_a(parts)
    base = parts.vehicle.power.base_load_key_off_a
    if stored is None or not idle or not base:
        return None
    if parts.job.supply.second_battery is not None:
        base = 0.0  # the car's own battery feeds the car
    return listening_hours(stored.kind.usable_share * stored.held_ah, idle, base, lasting.music_a)


def days_parked(parts: JobParts, lasting: Lasting, defaults: HouseDefaults) -> float | None:
    """None where a figure is not known, or so small that the car stands for ever. [d]"""
    stored = stored_charge(parts, defaults)
    if stored is None or not lasting.parked_ma:
        return None
    days = parked_days(defaults.parked_share * stored.held_ah, lasting.parked_ma / 1000)
    return days if isfinite(days) else None


def lasting_reasons(parts: JobParts, defaults: HouseDefaults) -> list[Reason]:
    """Return what the hours and days are counted from."""
    found = [_reason(stored_charge(parts, defaults), defaults, "hours and days")]
    if parts.job.supply.second_battery is not None:
        found = [
            _reason(feeding_charge(parts, defaults), defaults, "hours"),
            _reason(stored_charge(parts, defaults), defaults, "days"),
        ]
    return [each for each in found if each is not None]


def _reason(stored: StoredCharge | None, defaults: HouseDefaults, what: str) -> Reason | None:
    if stored is None:
        return None
    music, parked = stored.kind.usable_share, defaults.parked_share
    because = (
        f"{stored.words}: {shown(stored.held_ah, 1)} Ah, of which music may take {music:.0%} and "
        f"standing {parked:.0%}"
    )
    decision = f"{what} from {shown(stored.held_ah, 1)} Ah, not from the label"
    return Reason(decision, because, f"{_REST_SOURCE}; {HOUSE_DEFAULT}")
