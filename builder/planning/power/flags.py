"""What can be wrong with a supply, as values that a rule can judge."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import (
    COPPER_CLAD,
    Conductor,
    effective_area_mm2,
    fuse_ceiling_a,
    is_copper,
)
from builder.planning.power.fuse_sizes import FuseDistance
from builder.planning.words import MAIN_FUSE, PowerFlagKind
from builder.units import Amperes, Volts, require_positive


@dataclass(frozen=True, slots=True)
class PowerFlag:
    """One shortcoming. `value` and `limit` are unrounded and share `unit`.

    Kinds: fuse_above_ceiling | fuse_below_full_current | fuse_below_on_board | no_fuse_fits |
    drop_above_limit | copper_clad | metal_unknown | reserve_short | fuse_far | ground_thinner |
    ground_long | radio_tap_heavy | supply_dips | loop_drop_high | strap_unread
    """

    kind: PowerFlagKind
    where: str
    value: float
    limit: float
    unit: str
    says: str


def fuse_flags(
    where: str,
    fuse_a: Amperes | None,
    full_current_a: Amperes,
    on_board_a: Amperes,
    conductor: Conductor,
    defaults: HouseDefaults,
) -> list[PowerFlag]:
    """Return what is wrong with a fuse: above the wire's ceiling, below what flows or is fused.

    `fuse_a` is None when no standard fuse reaches the floor.

    Raises:
        ValueError: the conductor's size is unknown.
    """
    if fuse_a is None:
        floor = max(full_current_a, on_board_a)
        says = f"no standard fuse reaches {shown(floor, 1)} A: divide the load"
        return [PowerFlag("no_fuse_fits", where, floor, floor, "A", says)]
    ceiling = fuse_ceiling_a(conductor, defaults)
    most = f"does not protect {conductor.words}, at most {shown(ceiling, beside=fuse_a)} A"
    full = f"is under the full current of {shown(full_current_a, 1, beside=fuse_a)} A"
    on_board = f"is under the {shown(on_board_a, beside=fuse_a)} A on board"
    tried: list[tuple[bool, PowerFlagKind, Amperes, str]] = [
        (fuse_a > ceiling, "fuse_above_ceiling", ceiling, most),
        (fuse_a < full_current_a, "fuse_below_full_current", full_current_a, full),
        (fuse_a < on_board_a, "fuse_below_on_board", on_board_a, on_board),
    ]
    return [
        PowerFlag(kind, where, fuse_a, limit, "A", f"a {shown(fuse_a)} A fuse {says}")
        for wrong, kind, limit, says in tried
        if wrong
    ]


def drop_flags(where: str, drop_v: Volts, defaults: HouseDefaults) -> list[PowerFlag]:
    """Return the flag of a path that loses too much, compared unrounded. [V]

    >>> [flag.kind for flag in drop_flags("supply of sub amp", 0.6, HouseDefaults())]
    ['drop_above_limit']
    """
    limit = defaults.supply_path_drop_v
    if drop_v <= limit:
        return []
    says = f"{shown(drop_v, 3, beside=limit)} V is lost on the way, at most {shown(limit, 2)} V"
    return [PowerFlag("drop_above_limit", where, drop_v, limit, "V", says)]


def metal_flags(where: str, conductor: Conductor, defaults: HouseDefaults) -> list[PowerFlag]:
    """Return the flag of a conductor that is not copper, or not known to be."""
    if is_copper(conductor):
        return []
    factor = defaults.cca_resistance_factor
    said = f"computed with {factor:g} times the resistance and a lower fuse ceiling"
    if conductor.material == COPPER_CLAD:
        return [PowerFlag("copper_clad", where, factor, 1.0, "", f"copper-clad aluminium, {said}")]
    says = f"nobody knows whether this is copper, so it is {said}"
    return [PowerFlag("metal_unknown", where, factor, 1.0, "", says)]


def ground_flags(
    supply: Conductor, ground: Conductor, ground_m: float, defaults: HouseDefaults
) -> list[PowerFlag]:
    """Return what is wrong with a ground lead: thinner than the supply, or too long. [m]

    Raises:
        ValueError: the length is not positive and finite, or a size is unknown.
    """
    require_positive("ground_m", ground_m)
    found = []
    back, out = effective_area_mm2(ground), effective_area_mm2(supply)
    if back < out * (1 - 1e-9):
        says = f"{ground.words} returns what {supply.words} brings"
        found.append(PowerFlag("ground_thinner", "ground", back, out, "mm²", says))
    limit = defaults.ground_lead_max_m
    if ground_m > limit:
        says = f"{shown(ground_m, beside=limit)} m of ground lead, at most {shown(limit)} m"
        found.append(PowerFlag("ground_long", "ground", ground_m, limit, "m", says))
    return found


def fuse_far_flags(distance: FuseDistance) -> list[PowerFlag]:
    """Return the flag of a main fuse too far along the wire from the battery. [m]"""
    if distance.within_house:
        return []
    says = (
        f"{shown(distance.distance_m, beside=distance.house_limit_m)} m of wire before the fuse, "
        f"at most {shown(distance.house_limit_m)} m"
    )
    return [
        PowerFlag("fuse_far", MAIN_FUSE, distance.distance_m, distance.house_limit_m, "m", says)
    ]


def shared_fuse_flags(
    draw_a: Amperes, fuse_a: Amperes, of: str, defaults: HouseDefaults
) -> list[PowerFlag]:
    """Return the flag of a device that takes more than its share of a fuse of the car. [A]

    `of` is what the fuse is there for, "the radio".

    Raises:
        ValueError: an argument is not positive and finite.

    >>> [flag.limit for flag in shared_fuse_flags(3.0, 10.0, "the radio", HouseDefaults())]
    [2.0]
    """
    limit = defaults.radio_fuse_share * require_positive("fuse_a", fuse_a)
    if require_positive("draw_a", draw_a) <= limit:
        return []
    draws, fuse = shown(draw_a, beside=limit), shown(fuse_a)
    says = f"{draws} A from {of}'s {fuse} A fuse, at most {shown(limit)} A"
    return [PowerFlag("radio_tap_heavy", f"{of}'s supply", draw_a, limit, "A", says)]
