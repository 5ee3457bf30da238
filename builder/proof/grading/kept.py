"""Grades that were worked out before: a check, its plans and its pages ask for the same ones."""

from __future__ import annotations

from functools import lru_cache

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.proof.grading.grade import Grade, grade_pin

_MOST = 64
"""Vehicles whose grades are kept: one meets every rule and converter, then the next one comes."""

_Grades = dict[DataPath, tuple[Pin, Grade]]


class _Subject:
    """A vehicle, told from others by identity, which is quick and, as none changes, safe; and the
    defaults that it is graded by, told by their values, since each opening of a book reads them.
    """

    __slots__ = ("defaults", "vehicle")

    def __init__(self, vehicle: Vehicle, defaults: HouseDefaults) -> None:
        self.vehicle = vehicle
        self.defaults = defaults

    def __hash__(self) -> int:
        return id(self.vehicle)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, _Subject) or self.vehicle is not other.vehicle:
            return False
        return self.defaults is other.defaults or self.defaults == other.defaults


def kept_grade(vehicle: Vehicle, pin: Pin, defaults: HouseDefaults) -> Grade:
    """Return what `grade_pin` says of a pin, worked out once; keeping it changes no result."""
    grades = _grades_of(_Subject(vehicle, defaults))
    known = grades.get(pin.path)
    if known is None or known[0] != pin:
        known = grades[pin.path] = (pin, grade_pin(vehicle, pin, defaults))
    return known[1]


@lru_cache(_MOST)
def _grades_of(subject: _Subject) -> _Grades:
    return {}  # filled by who asks
