"""What the battery of a job is sure to hold when work begins, and what that is counted from."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import rounded_down, shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.power.battery_kinds import BatteryKind, aged_ah, battery_kind
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class StoredCharge:
    """A battery with what it holds at the least rest volts that are accepted."""

    kind: BatteryKind
    label_ah: float
    aged_ah: float

    @property
    def held_ah(self) -> float:
        """What it holds then. [Ah]"""
        return self.aged_ah * self.kind.accepted_share

    @property
    def _percent(self) -> float:
        """How full it is at the least, as printed: rounded down, nothing is promised."""
        return rounded_down(100 * self.kind.accepted_share, 1)

    @property
    def held_words(self) -> str:
        """What it holds as printed: made of the share that is printed beside it."""
        return f"{shown(rounded_down(self.aged_ah * self._percent / 100, 1))} Ah"

    @property
    def words(self) -> str:
        """What it is counted from, for the customer too."""
        share = f"{shown(self._percent)}%"
        aged = "" if self.aged_ah == self.label_ah else f", {shown(self.aged_ah)} Ah left by age"
        return (
            f"{_article(self.kind.name)} {self.kind.name} battery of "
            f"{shown(self.label_ah)} Ah{aged}, at "
            f"{shown(self.kind.accepted_v)} V at rest {share} full"
        )


def stored_charge(parts: JobParts, defaults: HouseDefaults) -> StoredCharge | None:
    """Return what the car's battery holds; None where nobody recorded its capacity."""
    stated = parts.job.supply.battery
    label = stated.ah if stated and stated.ah else parts.vehicle.power.battery.capacity_ah
    if not label:
        return None
    kind = battery_kind(stated.type if stated else "unknown", defaults)
    return StoredCharge(kind, label, aged_ah(label, stated.age_years if stated else None, defaults))


def feeding_charge(parts: JobParts, defaults: HouseDefaults) -> StoredCharge | None:
    """Return what feeds the music with the engine off: a second battery alone, if any."""
    second = parts.job.supply.second_battery
    if second is None:
        return stored_charge(parts, defaults)
    kind = battery_kind(second.type, defaults)
    return StoredCharge(kind, second.ah, aged_ah(second.ah, second.age_years, defaults))


def _article(name: str) -> str:
    """The article before a kind of battery: "an AGM", "a lithium"."""
    return "an" if name[0].lower() in "aeiou" else "a"
