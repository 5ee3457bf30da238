"""The evidence weighed for a pin: who, when, how, how complete, how heavy, for or against."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.model.names import CLAIM_NAMES
from builder.model.vehicle import Vehicle
from builder.proof.grading.item import Item
from builder.proof.pin_proof import PinProof
from builder.proof.signatures.of_pins import DEFINING


class EvidenceLine(NamedTuple):
    """One item as phrases.

    `set_aside` says what superseded it and why, "" while it counts. `remark` says why an item
    that speaks does not count once more.
    """

    who: str
    how: str
    side: str  # supports | opposes
    weight: str
    detail: str
    remark: str
    set_aside: str


def evidence_lines(vehicle: Vehicle, place: str, proof: PinProof) -> tuple[EvidenceLine, ...]:
    """Return the evidence on the pin at `place` ("A.4"): what counts first, heaviest first."""
    gone = superseded(vehicle, place)
    ordered = sorted(proof.items, key=lambda item: _order(item, proof))
    return tuple(_line(item, proof, gone) for item in ordered)


def superseded(vehicle: Vehicle, place: str) -> dict[str, str]:
    """Return the sessions and contributors set aside at a place, each with by whom and why."""
    return {
        name: f"superseded by {settled.by}, {settled.date}, because {settled.deciding}"
        for settled in vehicle.resolutions
        if settled.pin == place
        for name in settled.retires
    }


def _order(item: Item, proof: PinProof) -> tuple[bool, bool, float, str]:
    return (item.retired, not _counts(item, proof), -item.weight, item.contributor)


def _counts(item: Item, proof: PinProof) -> bool:
    return any(item is counted for counted in proof.counted)


def _line(item: Item, proof: PinProof, gone: Mapping[str, str]) -> EvidenceLine:
    counts = _counts(item, proof) or item.retired
    return EvidenceLine(
        f"{item.contributor}, {' and '.join(item.dates)}",
        ", ".join(_how(item)),
        "supports" if item.supports else "opposes",
        f"weighs {item.weight:.2f}",
        "" if item.supports else item.because,
        "" if counts else "counts once: a better item of the same hand, or a copy, stands for it",
        _set_aside(item, gone) if item.retired else "",
    )


def _how(item: Item) -> Iterator[str]:
    if item.method in CLAIM_NAMES:
        yield CLAIM_NAMES[item.method]
        return
    yield "meter"
    yield "every defining state" if item.method == "full" else "some defining states"
    if not item.face_known:
        yield "face not recorded"
    if item.battery_missing:
        yield "battery volts not recorded"
    if item.missing and item.supports:
        words = DEFINING[item.kind]
        yield f"still open: {'; '.join(words[name] for name in item.missing)}"


def _set_aside(item: Item, gone: Mapping[str, str]) -> str:
    names = (item.contributor, *item.sessions)
    return next((gone[name] for name in names if name in gone), "superseded")
