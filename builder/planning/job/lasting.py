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
from builder.planning.tables import DEVICE_RECORD, HOUSE_DEFAULT, INTERFACE_RECORD, RECORD
from builder.planning.work_pack import JobParts
from builder.units import Amperes

_REST_SOURCE = "rest volts by charge: Battery Council International and makers' sheets (memory)"


@dataclass(frozen=True, slots=True)
class Lasting:
    """What is drawn from the battery besides what the record of the job says.

    `parked_ma` is what the parked car may draw after the work, None where it is not known what it
    drew before; `music_a` what everything added takes with music, `interface_a` what a data
    interface draws while it does.
    """

    latch_ah_per_day: float | None
    parked_ma: float | None
    music_a: float
    interface_a: float = 0.0


def listening_h(parts: JobParts, lasting: Lasting, defaults: HouseDefaults) -> float | None:
    """Return how long music plays with the engine off; None where a figure is not known. [h]"""
    stored, idle, base = feeding_charge(parts, defaults), idle_a(parts), _car_a(parts)
    if stored is None or not idle or base is None:
        return None
    usable_ah = stored.kind.usable_share * stored.held_ah
    base += _beside_a(parts, lasting.interface_a)
    return listening_hours(usable_ah, idle, base, lasting.music_a)


def _fed_apart(parts: JobParts) -> bool:
    """Whether the car's own battery feeds the car and nothing else: a second one plays."""
    return parts.job.supply.second_battery is not None


def _car_a(parts: JobParts) -> Amperes | None:
    """What the car itself takes of the battery that plays, key off; None where nobody read it."""
    base = parts.vehicle.power.base_load_key_off_a or None
    return 0.0 if base and _fed_apart(parts) else base


def _beside_a(parts: JobParts, interface_a: Amperes) -> Amperes:
    """What a data interface takes of the battery that plays: the car's own plug feeds it."""
    return 0.0 if _fed_apart(parts) else interface_a


def _taken(parts: JobParts, music_a: Amperes, interface_a: Amperes) -> list[Reason]:
    """What the hours are divided by, for who checks them."""
    base, idle, beside = _car_a(parts), idle_a(parts), _beside_a(parts, interface_a)
    if base is None or not idle:
        return []
    whole, source = base + beside + idle + music_a, f"{RECORD}; {DEVICE_RECORD}"
    said = f"the data interface {shown(beside, 2, beside=0.0)} A, " if beside else ""
    because = (
        f"the car itself {shown(base, 2)} A, {said}what is added {shown(idle, 2)} A with no sound "
        f"and {shown(music_a, 2)} A more at {parts.job.supply.listening} music"
    )
    source = f"{source}; {INTERFACE_RECORD}" if beside else source
    return [Reason(f"hours at {shown(whole, 2)} A", because, source)]


def days_parked(parts: JobParts, lasting: Lasting, defaults: HouseDefaults) -> float | None:
    """None where a figure is not known, or so small that the car stands for ever. [d]"""
    stored = stored_charge(parts, defaults)
    if stored is None or not lasting.parked_ma:
        return None
    days = parked_days(defaults.parked_share * stored.held_ah, lasting.parked_ma / 1000)
    return days if isfinite(days) else None


def lasting_reasons(parts: JobParts, lasting: Lasting, defaults: HouseDefaults) -> list[Reason]:
    """Return what the hours and days are counted from."""
    found = [_reason(stored_charge(parts, defaults), defaults, "hours and days")]
    if parts.job.supply.second_battery is not None:
        found = [
            _reason(feeding_charge(parts, defaults), defaults, "hours"),
            _reason(stored_charge(parts, defaults), defaults, "days"),
        ]
    return [
        *(each for each in found if each is not None),
        *_taken(parts, lasting.music_a, lasting.interface_a),
    ]


def _reason(stored: StoredCharge | None, defaults: HouseDefaults, what: str) -> Reason | None:
    if stored is None:
        return None
    music, parked = stored.kind.usable_share, defaults.parked_share
    because = (
        f"{stored.words}: {stored.held_words}, of which music may take {music:.0%} and "
        f"standing {parked:.0%}"
    )
    decision = f"{what} from {stored.held_words}, not from the label"
    return Reason(decision, because, f"{_REST_SOURCE}; {HOUSE_DEFAULT}")
