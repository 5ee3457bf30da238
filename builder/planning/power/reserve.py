"""What the car can spare: alternator or DC-DC converter, listening with the engine off, parking."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.power.flags import PowerFlag
from builder.units import Amperes, require_not_negative, require_positive

_HOURS_A_DAY = 24


DC_DC = "DC-DC converter"
"""What feeds the 12 V side of a hybrid or electric car."""


@dataclass(frozen=True, slots=True)
class Need:
    """What is taken while the engine runs: by the music, and by a second battery that charges."""

    music_a: Amperes
    charging_a: Amperes = 0.0

    @property
    def all_a(self) -> Amperes:
        """Both together. [A]"""
        return self.music_a + self.charging_a

    def words(self, beside: Amperes) -> str:
        """Who takes how much, rounded so that it can be told from `beside`."""
        if not self.charging_a:
            return f"music takes {shown(self.music_a, 1, beside=beside)} A"
        return (
            f"music takes {shown(self.music_a, 1)} A and the second battery "
            f"{shown(self.charging_a, 1)} A, {shown(self.all_a, 1, beside=beside)} A together"
        )


@dataclass(frozen=True, slots=True)
class Reserve:
    """What is left for the amplifiers in one condition. A negative spare is a shortage."""

    at: str  # hot idle | 2000 r/min | DC-DC converter
    reserve_a: Amperes
    need: Need

    @property
    def spare_a(self) -> Amperes:
        """Reserve less need. [A]"""
        return self.reserve_a - self.need.all_a

    @property
    def flags(self) -> tuple[PowerFlag, ...]:
        """The shortage, or nothing."""
        if self.spare_a >= 0:
            return ()
        need = self.need.all_a
        spare = shown(self.reserve_a, 1, beside=need)
        says = f"{spare} A to spare at {self.at}, {self.need.words(self.reserve_a)}"
        flag = PowerFlag("reserve_short", self.at, self.reserve_a, need, "A", says)
        return (flag,)


def alternator_reserves(
    alternator_a: Amperes,
    base_a: Amperes,
    need: Need,
    defaults: HouseDefaults,
    idle_share: float | None = None,
) -> tuple[Reserve, ...]:
    """Return what is left at hot idle and at 2000 r/min, share·rating - base. [A]

    Args:
        alternator_a: Rating.
        base_a: What the car itself takes, engine running.
        need: What is taken of it.
        defaults: House shares.
        idle_share: Measured on this car; otherwise the house figure.
    Raises:
        ValueError: an argument is not positive and finite.

    >>> idle, cruise = alternator_reserves(150.0, 50.0, Need(46.8), HouseDefaults())
    >>> (round(idle.spare_a, 1), round(cruise.spare_a, 1))
    (-14.3, 30.7)
    """
    shares = (
        ("hot idle", defaults.alternator_idle_share if idle_share is None else idle_share),
        ("2000 r/min", defaults.alternator_cruise_share),
    )
    rating, base = require_positive("alternator_a", alternator_a), require_positive("a", base_a)
    require_positive("need", need.all_a)
    return tuple(
        Reserve(at, require_positive("share", share) * rating - base, need) for at, share in shares
    )


def dc_dc_reserve(rating_a: Amperes, base_a: Amperes, need: Need) -> Reserve:
    """Return what the DC-DC converter of a hybrid or electric car leaves, rating - base. [A]

    Raises:
        ValueError: an argument is not positive and finite.

    >>> dc_dc_reserve(150.0, 60.0, Need(40.0)).spare_a
    50.0
    """
    left = require_positive("rating_a", rating_a) - require_positive("base_a", base_a)
    require_positive("need", need.all_a)
    return Reserve(DC_DC, left, need)


def listening_hours(
    usable_ah: float, idle_a: Amperes, key_off_base_a: Amperes, music_a: Amperes
) -> float:
    """Return how long music may play with the engine off. [h]

    Args:
        usable_ah: What may be taken of what the battery holds. [Ah]
        idle_a: The new devices, playing nothing.
        key_off_base_a: What the car takes from it with key off and radio on.
        music_a: Average of the amplifiers with music.
    Raises:
        ValueError: an argument is not positive and finite.

    >>> round(listening_hours(35.0, 1.1, 3.0, 9.9), 2)
    2.5
    """
    drawn = (
        require_positive("idle_a", idle_a)
        + require_not_negative("key_off_base_a", key_off_base_a)
        + require_positive("music_a", music_a)
    )
    return require_positive("usable_ah", usable_ah) / drawn


def parked_days(usable_ah: float, parked_a: Amperes) -> float:
    """Return how long the car may stand before the battery is weak. [d]

    Raises:
        ValueError: an argument is not positive and finite.

    >>> round(parked_days(28.0, 0.03), 1)
    38.9
    """
    usable = require_positive("usable_ah", usable_ah)
    return usable / require_positive("parked_a", parked_a) / _HOURS_A_DAY
