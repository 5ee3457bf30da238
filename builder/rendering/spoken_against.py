"""What speaks against the pins of a vehicle as plain data: the same that the text shows."""

from __future__ import annotations

from typing import Any

from builder.model.vehicle import Vehicle
from builder.proof.contradictions.spoken_against import Attack, Explanation
from builder.proof.pin_proof import PinProof, Proofs
from builder.rendering.pages.disputes import DisputeView, dispute_views


def spoken_against(vehicle: Vehicle, proofs: Proofs) -> list[dict[str, Any]]:
    """Return one entry for each pin that something counts against, in the order of the record.

    `tried` has every explanation in the order it is tried, `first` the first one that fits.
    `dispute` holds both sides and the reading that decides; None where it comes to no dispute.
    """
    views = {view.place: view for view in dispute_views(vehicle, proofs)}
    return [
        _entry(plug.id, pin.cavity, proofs[pin.path], views.get(f"{plug.id}.{pin.cavity}"))
        for plug in vehicle.plugs
        for pin in plug.pins
        if proofs[pin.path].attack or proofs[pin.path].dispute
    ]


def _entry(plug: str, cavity: str, proof: PinProof, view: DisputeView | None) -> dict[str, Any]:
    return {
        "plug": plug,
        "cavity": cavity,
        "grade": proof.band,
        **_explained(proof.attack),
        "dispute": _dispute(view) if view else None,
    }


def _explained(attack: Attack | None) -> dict[str, Any]:
    if attack is None:
        return {"tried": [], "first": None}
    return {"tried": [_one(one) for one in attack.tried], "first": _one(attack.first)}


def _one(one: Explanation) -> dict[str, str]:
    do = "" if one.verdict == "does not fit" else one.do
    return {
        "cause": one.cause, "title": one.title, "verdict": one.verdict, "why": one.why, "do": do,
    }  # fmt: skip


def _dispute(view: DisputeView) -> dict[str, Any]:
    return {
        "sides": [
            {"says": side.says, "strength": float(side.strength), "voices": list(side.voices)}
            for side in view.sides
        ],
        "measure": view.measure,
        "answers": [answer._asdict() for answer in view.answers],
        "safety": view.safety,
        "instead": view.instead,
    }
