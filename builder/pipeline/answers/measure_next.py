"""`next`: the readings that would raise a vehicle most."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from functools import partial
from typing import Any

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.planning.course.probe_visit import visit_min
from builder.planning.job.wanted_pins import Standing, WantedPin, wanted_pins
from builder.planning.plan import Plan
from builder.planning.trust import position_as_pin
from builder.proof.grading.grade import PROVEN, Grade, grade_pin
from builder.proof.pin_proof import PinProof

MOST_OF_A_VEHICLE = 10
"""So many pins of one vehicle are listed at most."""


def wanted_of(
    vehicle: Vehicle,
    proofs: Mapping[DataPath, PinProof],
    plans: Sequence[Plan],
    defaults: HouseDefaults,
) -> list[WantedPin]:
    """Return the pins of one vehicle worth measuring, best first."""
    standing = dict(_standing(vehicle, proofs, defaults))
    minutes = partial(visit_min, vehicle, house=defaults)
    return wanted_pins(vehicle.id, vehicle.title, plans, standing, minutes)[:MOST_OF_A_VEHICLE]


def _standing(
    vehicle: Vehicle, proofs: Mapping[DataPath, PinProof], defaults: HouseDefaults
) -> Iterator[tuple[str, Standing]]:
    for plug in vehicle.plugs:
        for pin in plug.pins:
            yield f"{plug.id}.{pin.cavity}", _of_grade(pin.function, proofs[pin.path])
    for each in vehicle.fuse_positions:
        grade = grade_pin(vehicle, position_as_pin(each), defaults)
        yield each.position, _of_grade(each.function, grade)


def _of_grade(function: Function, grade: PinProof | Grade) -> Standing:
    return Standing(function, grade.band, max(0.0, PROVEN - grade.score), grade.raise_by)


def next_data(pin: WantedPin) -> dict[str, Any]:
    """A wanted pin as plain data."""
    return asdict(pin)
