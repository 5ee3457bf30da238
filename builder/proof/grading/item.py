"""One piece of evidence on a pin; the one that a claim makes."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Claim, Pin
from builder.model.vehicle import Vehicle
from builder.model.words import ClaimMethod, Function
from builder.proof.words import Defining, Method

Fingerprint = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Item:
    """One piece of evidence on a pin.

    `method` is full, part, job, paper, colour or told. `weight` is 0 to 1. `near_years` is empty
    for what was not measured or when the car's year is not recorded. `fingerprint` is the same
    for readings that agree in every figure and in their date. `missing` names the defining
    states that the readings leave open. `dates` are those of the claim or of the sessions.
    `says` is the function that a claim names, None for what was measured. `counts_as` is the one
    contributor that the handle `contributor` counts as; `car` is the tag of the measured car, ""
    for what was not measured.
    """

    contributor: str
    method: Method
    weight: float
    supports: bool
    because: str
    sessions: tuple[str, ...] = ()
    measured: bool = False
    years: tuple[int, ...] = ()
    in_scope: bool = True
    face_known: bool = True
    battery_missing: bool = False
    retired: bool = False
    kind: str = ""
    missing: tuple[Defining, ...] = ()
    fingerprint: Fingerprint = ()
    dates: tuple[str, ...] = ()
    says: Function | None = None
    counts_as: str = ""
    car: str = ""


def agrees(claim: Claim, pin: Pin) -> bool:
    """Whether a claim says what the record says of the pin; what it leaves out it does not deny."""
    return (
        claim.says == pin.function
        and claim.channel in (None, pin.channel)
        and claim.leg in (None, pin.leg)
    )


def item_of_claim(
    vehicle: Vehicle, claim: Claim, pin: Pin, defaults: HouseDefaults, retired: frozenset[str]
) -> Item:
    """Weigh a claim; one whose contributor a resolution retired weighs nothing."""
    gone = claim.by in retired
    weights: dict[ClaimMethod, float] = {
        "paper": defaults.weight_paper,
        "colour": defaults.weight_colour,
        "told": defaults.weight_told,
        "job": defaults.weight_job,
    }
    said = " ".join(word for word in (claim.channel, claim.leg, claim.says) if word)
    return Item(
        claim.by,
        claim.method,
        0.0 if gone else weights[claim.method],
        agrees(claim, pin),
        f"{claim.by} ({claim.method}, {claim.date}) says {said.replace('_', ' ')}",
        retired=gone,
        dates=(claim.date,),
        says=claim.says,
        counts_as=vehicle.contributor(claim.by),
    )
