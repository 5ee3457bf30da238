"""Grades that were worked out before: a check, its plans and its pages ask for the same ones."""

from __future__ import annotations

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.proof.grading.grade import Grade, grade_pin

_MOST = 64
"""Vehicles whose grades are kept: one meets every rule and converter, then the next one comes."""

_Grades = dict[DataPath, tuple[Pin, Grade]]
_kept: dict[int, tuple[Vehicle, HouseDefaults, _Grades]] = {}


def kept_grade(vehicle: Vehicle, pin: Pin, defaults: HouseDefaults) -> Grade:
    """Return what `grade_pin` says of a pin, worked out once; keeping it changes no result.

    Vehicles are told apart by identity, which is quick and, as they never change, safe.
    """
    grades = _grades_of(vehicle, defaults)
    known = grades.get(pin.path)
    if known is None or known[0] != pin:
        known = grades[pin.path] = (pin, grade_pin(vehicle, pin, defaults))
    return known[1]


def _grades_of(vehicle: Vehicle, defaults: HouseDefaults) -> _Grades:
    _, of, grades = _kept.pop(id(vehicle), (None, None, {}))
    if of is not defaults and of != defaults:
        grades = {}
    _kept[id(vehicle)] = (vehicle, defaults, grades)  # held, so that no other has this identity
    if len(_kept) > _MOST:
        del _kept[next(iter(_kept))]
    return grades
