"""The whole loop of a supply: the run out and back, and the car's own straps and body."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import at_most, shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.power.flags import PowerFlag
from builder.units import Amperes, Ohms, Volts, require_not_negative, require_positive


@dataclass(frozen=True, slots=True)
class Loop:
    """What returns through the body. `strap_ohm` None: nobody read it."""

    strap_ohm: Ohms | None
    strap_max_ohm: Ohms  # for the volts that the run leaves; 0 where it leaves none
    drop_v: Volts | None  # of the whole loop
    cures: tuple[str, ...] = ()  # of one that loses too much, the cheapest first


def supply_loop(
    run_v: Volts, current_a: Amperes, strap_ohm: Ohms | None, defaults: HouseDefaults
) -> Loop:
    """Return the loop of a supply whose ground is the body.

    Args:
        run_v: Lost in the run out and back, joints included.
        current_a: Full current.
        strap_ohm: Body and straps as read, or None.
        defaults: The volts allowed for the whole loop.
    Raises:
        ValueError: the current is not positive, or a figure is negative.
    Source: Ohm's law; the limit is a house default.

    >>> loop = supply_loop(0.347, 58.8, 0.0009, HouseDefaults())
    >>> round(loop.drop_v, 3), round(1000 * loop.strap_max_ohm, 2)
    (0.4, 2.6)
    """
    left = defaults.supply_path_drop_v - require_not_negative("run_v", run_v)
    most = max(0.0, left) / require_positive("current_a", current_a)
    if strap_ohm is None:
        return Loop(None, most, None)
    return Loop(strap_ohm, most, run_v + current_a * require_not_negative("ohm", strap_ohm))


def loop_flags(loop: Loop, defaults: HouseDefaults) -> list[PowerFlag]:
    """Return the flag of a strap that was not read, or of one that takes too many volts.

    A run that loses too much by itself has a flag of its own.
    """
    most, limit = loop.strap_max_ohm * 1000, defaults.supply_path_drop_v
    if most <= 0:
        return []
    if loop.strap_ohm is None or loop.drop_v is None:
        says = f"the car's straps and body may have {at_most(most, 'mΩ')} mΩ and nobody read them"
        return [PowerFlag("strap_unread", "strap", most, most, "mΩ", says)]
    if loop.drop_v <= limit:
        return []
    says = (
        f"{shown(loop.drop_v, 3, beside=limit)} V are lost in the whole loop, "
        f"{shown(loop.strap_ohm * 1000, 2)} mΩ of it in the car's straps and body; at most "
        f"{shown(limit, 2)} V"
    )
    if loop.cures:
        says += f". What cures it, the cheapest first: {'; or '.join(loop.cures)}"
    return [PowerFlag("loop_drop_high", "strap", loop.drop_v, limit, "V", says)]
