"""What a supply path loses: out and return, joints, hot copper; a trunk and its branches."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import Conductor, hot_ohm_per_km
from builder.units import Amperes, Ohms, Volts, require_not_negative, require_positive


def voltage_drop_v(current_a: Amperes, length_m: float, ohm_per_km: float) -> Volts:
    """Return the voltage lost along one conductor. [V]

    Args:
        current_a: Steady current. [A] > 0
        length_m: One-way conductor length. [m] > 0
        ohm_per_km: At the conductor's working temperature. [Ω/km]
    Returns:
        Drop over the one-way length; the caller adds the return path.
    Raises:
        ValueError: an argument is not positive and finite.
    Source: Ohm's law; worked cases in tests/vectors/voltage_drop.json.
    """
    require_positive("current_a", current_a)
    require_positive("length_m", length_m)
    return current_a * length_m * require_positive("ohm_per_km", ohm_per_km) / 1000


@dataclass(frozen=True, slots=True)
class SupplyPath:
    """A way out and back. The return may be shorter and of another size; `joints` once a path."""

    out_m: float
    return_m: float
    conductor: Conductor
    return_conductor: Conductor | None = None
    joints: bool = True

    @property
    def length_m(self) -> float:
        """Out and return together. [m]"""
        return self.out_m + self.return_m


def path_ohm(path: SupplyPath, defaults: HouseDefaults) -> Ohms:
    """Return the resistance of a path, hot, joints included where they count. [Ω]

    A way may be 0 m long, an amplifier bolted to the battery; the joints are left then.

    Raises:
        ValueError: a length is negative or not finite, or a size is unknown.
    """
    require_not_negative("out_m", path.out_m)
    require_not_negative("return_m", path.return_m)
    back = path.return_conductor or path.conductor
    wires = path.out_m * hot_ohm_per_km(path.conductor, defaults)
    wires += path.return_m * hot_ohm_per_km(back, defaults)
    return wires / 1000 + (defaults.joint_ohm if path.joints else 0.0)


def path_drop_v(path: SupplyPath, current_a: Amperes, defaults: HouseDefaults) -> Volts:
    """Return what a path loses at a current. [V]

    Raises:
        ValueError: the current is not positive, or a length is negative.
    """
    return require_positive("current_a", current_a) * path_ohm(path, defaults)


def cumulative_drops_v(
    trunk: SupplyPath, branches: Iterable[tuple[SupplyPath, Amperes]], defaults: HouseDefaults
) -> tuple[Volts, tuple[Volts, ...]]:
    """Return the trunk's drop at the current of all branches, and the drop to each branch's end.

    Args:
        trunk: From the battery to the place where it divides.
        branches: Each with its current. [A] At least one.
    Returns:
        The trunk alone [V], then trunk and branch together in the order given [V].
    Raises:
        ValueError: no branch, a current that is not positive, or a length that is negative.
    """
    listed = tuple(branches)
    before = path_drop_v(trunk, sum(current for _, current in listed), defaults)
    ends = tuple(before + path_drop_v(path, current, defaults) for path, current in listed)
    return before, ends


def end_voltage_v(source_v: Volts, drop_v: Volts) -> Volts:
    """Return what is left at the far end. [V]

    Raises:
        ValueError: nothing would be left.
    """
    return require_positive("voltage at the far end", source_v - drop_v)
