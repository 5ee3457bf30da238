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
from builder.planning.tables import DEVICE_RECORD, HOUSE_DEFAULT, RECORD
from builder.planning.work_pack import JobParts
from builder.units import Amperes

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
    stored, idle, base = feeding_charge(parts, defaults), idle_a(parts), _car_a(parts)
    if stored is None or not idle or base is None:
        return None
    return listening_hours(stored.kind.usable_share * stored.held_ah, idle, base, lasting.music_a)


def _car_a(parts: JobParts) -> Amperes | None:
    """What the car itself takes of the battery that plays, key off; None where nobody read it."""
    base = parts.vehicle.power.base_load_key_off_a or None
    fed_apart = parts.job.supply.second_battery is not None  # the car's own battery feeds the car
    return 0.0 if base and fed_apart else base


def _taken(parts: JobParts, music_a: Amperes) -> list[Reason]:
    """What the hours are divided by, for who checks them."""
    base, idle = _car_a(parts), idle_a(parts)
    if base is None or not idle:
        return []
    whole = base + idle + music_a
    because = (
        f"the car itself {shown(base, 2)} A, what is added {shown(idle, 2)} A with no sound and "
        f"{shown(music_a, 2)} A more at {parts.job.supply.listening} music"
    )
    return [Reason(f"hours at {shown(whole, 2)} A", because, f"{RECORD}; {DEVICE_RECORD}")]


def days_parked(parts: JobParts, lasting: Lasting, defaults: HouseDefaults) -> float | None:
    """None where a figure is not known, or so small that the car stands for ever. [d]"""
    stored = stored_charge(parts, defaults)
    if stored is None or not lasting.parked_ma:
        return None
    days = parked_days(defaults.parked_share * stored.held_ah, lasting.parked_ma / 1000)
    return days if isfinite(days) else None


def lasting_reasons(parts: JobParts, music_a: Amperes, defaults: HouseDefaults) -> list[Reason]:
    """Return what the hours and days are counted from; `music_a` is the average of the music."""
    found = [_reason(stored_charge(parts, defaults), defaults, "hours and days")]
    if parts.job.supply.second_battery is not None:
        found = [
            _reason(feeding_charge(parts, defaults), defaults, "hours"),
            _reason(stored_charge(parts, defaults), defaults, "days"),
        ]
    return [*(each for each in found if each is not None), *_taken(parts, music_a)]


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
