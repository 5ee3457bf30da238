"""The grading that plans ask, from what was proved already."""

from __future__ import annotations

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.planning.trust import GradeLike, GradeOf
from builder.proof.grading.grade import grade_pin
from builder.proof.pin_proof import PinProof


def known_grades(proofs: dict[DataPath, PinProof], defaults: HouseDefaults) -> GradeOf:
    """Return a grading of pins that looks up what was proved; fuse positions are graded anew."""

    def grade(vehicle: Vehicle, pin: Pin) -> GradeLike:
        return proofs.get(pin.path) or grade_pin(vehicle, pin, defaults)

    return grade
