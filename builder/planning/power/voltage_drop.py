"""What a supply path loses: out and return, joints, hot copper; a trunk and its branches."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import Conductor, hot_ohm_per_km
from builder.units import Amperes, Ohms, Volts, require_not_negative, require_positive


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

    >>> trunk = SupplyPath(4.2, 0.4, Conductor(size_awg="1/0"))
    >>> round(path_ohm(trunk, HouseDefaults()), 5)
    0.0031
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

    >>> trunk = SupplyPath(4.2, 0.4, Conductor(size_awg="1/0"))
    >>> round(path_drop_v(trunk, 140.3, HouseDefaults()), 3)
    0.435
    """
    return require_positive("current_a", current_a) * path_ohm(path, defaults)
