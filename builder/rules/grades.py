"""Grades of all pins with evidence, worked out once for each vehicle and set of defaults."""

from __future__ import annotations

from typing import Literal

from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.model.words import Function, GradeBand, Unit
from builder.proof.grading.grade import Grade
from builder.proof.grading.kept import kept_grade
from builder.rules.wiring import Site, wiring_of

Role = Literal["constant", "ground", "switched", "turn-on"]

ROLES: dict[Role, tuple[Function, ...]] = {
    "constant": ("constant",),
    "ground": ("ground",),
    "switched": ("retained", "accessory", "run"),
    "turn-on": ("amplifier_on",),
}
"""What a plan relies on, and the functions that can serve as it."""
GOOD_BANDS: frozenset[GradeBand] = frozenset({"good", "proven"})
_UNITS: frozenset[Unit] = frozenset({"radio", "amplifier"})

Graded = tuple[tuple[Site, Grade], ...]
_last: list[tuple[Vehicle, HouseDefaults, Graded]] = []


def grades_of(vehicle: Vehicle, shelf: Shelf) -> Graded:
    """The grade of every described pin that has a reading or a claim, in record order."""
    if not _last or _last[0][0] is not vehicle or _last[0][1] is not shelf.defaults:
        _last[:] = [(vehicle, shelf.defaults, _grade(vehicle, shelf.defaults))]
    return _last[0][2]


def _grade(vehicle: Vehicle, defaults: HouseDefaults) -> Graded:
    """Of pins with all their readings: a grade says what a resolution set aside, and why."""
    sites = (Site(plug, pin) for plug in vehicle.plugs for pin in plug.pins)
    return tuple(
        (site, kept_grade(vehicle, site.pin, defaults))
        for site in sites
        if site.pin.readings or site.pin.claims
    )


def role_sites(vehicle: Vehicle, role: Role) -> list[Site]:
    """Every pin of a radio or amplifier that can serve in this role."""
    sites = wiring_of(vehicle).having(*ROLES[role])
    return [site for site in sites if site.plug.unit in _UNITS]


def good_roles(vehicle: Vehicle, shelf: Shelf) -> frozenset[Role]:
    """The roles for which at least one pin is good or proven."""
    good = {site.pin.function for site, grade in grades_of(vehicle, shelf) if _is_good(grade)}
    return frozenset(role for role, functions in ROLES.items() if good.intersection(functions))


def _is_good(grade: Grade) -> bool:
    return grade.band in GOOD_BANDS
