"""Riding through an engine restart: hold-up of a turn-on, and what staying awake costs."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.power.flags import PowerFlag
from builder.planning.preferred import next_preferred
from builder.planning.tables import AUDIO_SUPPLY_V, E6, E12
from builder.units import Amperes, Ohms, Volts, require_positive


@dataclass(frozen=True, slots=True)
class HoldUp:
    """A capacitor that keeps a turn-on alive, and the resistor that lets it charge gently."""

    needed_farad: float
    capacitor_farad: float  # next preferred value that is enough when it is short of it
    short_share: float  # by how much it may be
    held_s: float  # the dip and the margin
    start_v: Volts  # after the diode
    end_v: Volts  # of the capacitor, when what it holds lets go
    charge_ohm: Ohms
    inrush_a: Amperes  # at first, with the engine charging the battery

    @property
    def least_v(self) -> Volts:
        """What the capacitor that was chosen must hold at least, to last as long."""
        share = self.needed_farad / (self.capacitor_farad * (1 - self.short_share))
        return self.end_v + share * (self.start_v - self.end_v)

    @property
    def after_s(self) -> float:
        """How long it keeps its inputs on when they are switched off, charged as planned."""
        return self.held_s * self.capacitor_farad / self.needed_farad


def hold_up_farad(current_a: Amperes, held_s: float, start_v: Volts, end_v: Volts) -> float:
    """Return the capacitance that feeds a steady current while it sinks, I·t/(V0 - V1). [F]

    Raises:
        ValueError: an argument is not positive and finite, or the start is not above the end.
    Source: charge of a capacitor, Q = C·V.

    >>> round(hold_up_farad(0.018, 0.5, 11.4, 9.5), 5)
    0.00474
    """
    sinks = require_positive("start above the threshold", start_v - require_positive("V", end_v))
    charge = require_positive("current_a", current_a) * require_positive("held_s", held_s)
    return charge / sinks


def charge_resistor_ohm(
    current_a: Amperes, gives_a: Amperes | None, defaults: HouseDefaults
) -> Ohms:
    """Return what lets an empty capacitor take no more than its source has beside the inputs.

    Args:
        current_a: What the inputs draw meanwhile.
        gives_a: What the source gives; None or no more than the inputs take: the house's least.
        defaults: Diode, and the least resistor.
    Source: Ohm's law at 14.4 V, when the engine charges; IEC 60063, series E12.

    >>> charge_resistor_ohm(0.012, 0.2, HouseDefaults())
    82.0
    """
    least = require_positive("hold_up_charge_ohm", defaults.hold_up_charge_ohm)
    if gives_a is None or gives_a <= current_a:
        return least
    limit = (AUDIO_SUPPLY_V - defaults.hold_up_diode_v) / (gives_a - current_a)
    return max(least, next_preferred(limit, E12))


def size_hold_up(
    current_a: Amperes, dip_s: float, resting_v: Volts, threshold_v: Volts,
    defaults: HouseDefaults, gives_a: Amperes | None = None,
) -> HoldUp:  # fmt: skip
    """Return the capacitor that carries turn-on inputs over a dip.

    It fills through a diode, and empties through a second one or through its charging resistor,
    whichever loses less. It is enough when it is short of its printed value by as much as is
    allowed of such parts: 20 % (IEC 60384-4 and makers' sheets, from memory).

    Args:
        current_a: All inputs it feeds.
        dip_s: Measured length of the dip; the house margin is added.
        resting_v: Just before the dip; the diode takes its share.
        threshold_v: Highest turn-off threshold among the inputs.
        defaults: Margin, diode and least charging resistor.
        gives_a: The most that feeds it, when known.
    Raises:
        ValueError: an argument is not positive, or nothing is left above the threshold.

    >>> size_hold_up(0.018, 0.35, 12.1, 9.5, HouseDefaults()).capacitor_farad
    0.0068
    """
    start = resting_v - defaults.hold_up_diode_v
    held = require_positive("dip_s", dip_s) + defaults.hold_up_margin_s
    ohm = charge_resistor_ohm(current_a, gives_a, defaults)
    end = threshold_v + min(defaults.hold_up_diode_v, current_a * ohm)
    needed = hold_up_farad(current_a, held, start, end)
    inrush = (max(resting_v, AUDIO_SUPPLY_V) - defaults.hold_up_diode_v) / ohm
    short = defaults.hold_up_short_share
    chosen = next_preferred(needed / (1 - short), E6)
    return HoldUp(needed, chosen, short, held, start, end, ohm, inrush)


def dip_flags(device: str, dip_v: Volts, min_v: Volts) -> list[PowerFlag]:
    """Return the flag of a supply that falls below what a device works down to. [V]

    A hold-up of the turn-on does not help there: the main supply itself is short. A supply that
    falls to nothing at all is one of them.

    Raises:
        ValueError: `min_v` is not positive and finite.

    >>> [flag.kind for flag in dip_flags("converter", 8.0, 9.0)]
    ['supply_dips']
    """
    if dip_v >= require_positive("min_v", min_v):
        return []
    says = (
        f"the supply falls to {shown(dip_v, beside=min_v)} V, {device} works down to "
        f"{shown(min_v)} V"
    )
    return [PowerFlag("supply_dips", device, dip_v, min_v, "V", says)]


@dataclass(frozen=True, slots=True)
class Latch:
    """Charge lost because a converter stays awake after each lock."""

    ah_per_lock: float
    ah_per_day: float
    limit_ah_per_day: float

    @property
    def heavy(self) -> bool:
        """Whether it takes more than the house allows, unrounded."""
        return self.ah_per_day > self.limit_ah_per_day


def latch_charge(
    idle_a: Amperes, hold_min: float, locks_per_day: float, defaults: HouseDefaults
) -> Latch:
    """Return the charge that staying awake takes, I·t/60 a lock, times locks. [Ah]

    Raises:
        ValueError: an argument is not positive and finite.

    >>> round(latch_charge(1.1, 12.0, 6.0, HouseDefaults()).ah_per_day, 2)
    1.32
    """
    a_lock = require_positive("idle_a", idle_a) * require_positive("hold_min", hold_min) / 60
    a_day = a_lock * require_positive("locks_per_day", locks_per_day)
    return Latch(a_lock, a_day, defaults.latch_ah_per_day)
