"""The grade of every pin of a vehicle and what each should read, in the shape pages ask for."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.planning.trust import GradeLike, GradeOf
from builder.proof.attack import attack_of
from builder.proof.dispute import dispute_of
from builder.proof.grading import grade_pin
from builder.proof.house import house_words
from builder.proof.signatures import kinds_of_pin, kinds_on_rail
from builder.rendering.pages.expected import expected_kinds
from builder.rendering.pages.grades import ExpectedKind, PinProof

NO_HOUSINGS: Mapping[str, Housing] = {}


def prove(
    vehicle: Vehicle, defaults: HouseDefaults, housings: Mapping[str, Housing] = NO_HOUSINGS
) -> dict[DataPath, PinProof]:
    """Return the proof of every pin, by the pin's path.

    `housings` are the shells of the book by id: without them nobody can tell whether what speaks
    against a pin was counted from the other face.
    """
    return {
        pin.path: _proof(vehicle, pin, defaults, housings)
        for plug in vehicle.plugs
        for pin in plug.pins
    }


def known_grades(proofs: dict[DataPath, PinProof], defaults: HouseDefaults) -> GradeOf:
    """Return a grading of pins that looks up what was proved; fuse positions are graded anew."""

    def grade(vehicle: Vehicle, pin: Pin) -> GradeLike:
        return proofs.get(pin.path) or grade_pin(vehicle, pin, defaults)

    return grade


def _proof(
    vehicle: Vehicle, pin: Pin, defaults: HouseDefaults, housings: Mapping[str, Housing]
) -> PinProof:
    grade = grade_pin(vehicle, pin, defaults)
    choices = tuple(kind.id for kind in kinds_of_pin(vehicle, pin, defaults))
    return PinProof(
        grade.band,
        grade.score,
        grade.why,
        grade.raise_by,
        _expected(choices, vehicle.factory_amplifier.rail_v, defaults),
        grade.items,
        grade.counted,
        dispute_of(vehicle, pin, grade, defaults),
        attack_of(vehicle, pin, grade, defaults, housings),
        house_words(grade.house, defaults),
    )


@lru_cache(maxsize=256)
def _expected(
    kind_ids: tuple[str, ...], rail_v: float | None, defaults: HouseDefaults
) -> tuple[ExpectedKind, ...]:
    # The same few kinds come back on every car, so their phrases are made once.
    table = kinds_on_rail(rail_v, defaults)
    return expected_kinds((table[name] for name in kind_ids), defaults)
