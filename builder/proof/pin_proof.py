"""What is proved of a pin: its grade and why, what it should read, what speaks against it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.model.words import GradeBand
from builder.proof.contradictions.dispute import Dispute, dispute_of
from builder.proof.contradictions.spoken_against import Attack, attack_of
from builder.proof.grading.grade import shown_score
from builder.proof.grading.item import Item
from builder.proof.grading.kept import kept_grade
from builder.proof.signatures.of_pins import kinds_of_pin, kinds_on_rail
from builder.proof.signatures.shapes import Kind


class PinProof(NamedTuple):
    """What is proved of one pin.

    `score` is 0 to 1. `kinds` are all that the pin may be of, with what such a pin reads. `items`
    is all evidence, what was set aside too; `counted` what of it made the score. `house` names the
    house defaults that the grade was made with, `defaults` are their values. `attack` is what
    speaks against the pin, with every explanation tried.
    """

    band: GradeBand
    score: float
    why: str
    raise_by: str
    kinds: tuple[Kind, ...] = ()
    items: tuple[Item, ...] = ()
    counted: tuple[Item, ...] = ()
    dispute: Dispute | None = None
    attack: Attack | None = None
    house: tuple[str, ...] = ()
    defaults: HouseDefaults = HouseDefaults()

    @property
    def shown(self) -> str:
        """The score with two figures, as it stands beside the band everywhere."""
        return shown_score(self.score)


Proofs = Mapping[DataPath, PinProof]
"""The proof of each pin by the pin's path in its record."""

UNGRADED = PinProof("unproved", 0.0, "Nobody has graded this pin.", "Measure it.")

_NO_HOUSINGS: Mapping[str, Housing] = {}


def prove(
    vehicle: Vehicle, defaults: HouseDefaults, housings: Mapping[str, Housing] = _NO_HOUSINGS
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


def _proof(
    vehicle: Vehicle, pin: Pin, defaults: HouseDefaults, housings: Mapping[str, Housing]
) -> PinProof:
    grade = kept_grade(vehicle, pin, defaults)
    choices = tuple(kind.id for kind in kinds_of_pin(vehicle, pin, defaults))
    return PinProof(
        grade.band,
        grade.score,
        grade.why,
        grade.raise_by,
        _kinds(choices, vehicle.factory_amplifier.rail_v, defaults),
        grade.items,
        grade.counted,
        dispute_of(vehicle, pin, grade, defaults),
        attack_of(vehicle, pin, grade, defaults, housings),
        grade.house,
        defaults,
    )


@lru_cache(maxsize=256)
def _kinds(ids: tuple[str, ...], rail_v: float | None, defaults: HouseDefaults) -> tuple[Kind, ...]:
    # One tuple for all pins of the same kinds: what pages say of it is then made once, too.
    table = kinds_on_rail(rail_v, defaults)
    return tuple(table[name] for name in ids)
