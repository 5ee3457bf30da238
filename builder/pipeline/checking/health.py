"""What one vehicle adds to the health of the book."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from builder.findings import DataPath
from builder.model.names import short_function_name
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.model.words import Function, GradeBand
from builder.planning.job.wanted_pins import WantedPin
from builder.proof.pin_proof import PinProof
from builder.rendering.pages.health import Disputed, GradeCount, Health, room_of
from builder.rendering.pages.wording import anchor

_SWITCHED: tuple[Function, ...] = ("retained", "accessory", "run")
_RELIABLE: frozenset[GradeBand] = frozenset({"proven", "good"})


def health_of(
    vehicle: Vehicle, proofs: Mapping[DataPath, PinProof], wanted: Sequence[WantedPin] = ()
) -> Health:
    """Return the vehicle's grades, ages, disputes and whether it has a switched supply.

    `wanted` are its pins worth measuring first.
    """
    return Health(
        vehicle.id,
        vehicle.title,
        tuple(_grades(vehicle, proofs)),
        _measured(vehicle),
        tuple(_disputed(vehicle, proofs)),
        _no_switched(vehicle, proofs),
        tuple(wanted),
    )


def _pins(vehicle: Vehicle) -> Iterator[tuple[str, Pin]]:
    return ((plug.id, pin) for plug in vehicle.plugs for pin in plug.pins)


def _grades(vehicle: Vehicle, proofs: Mapping[DataPath, PinProof]) -> Iterator[GradeCount]:
    pins: Counter[tuple[Function, GradeBand, str]] = Counter()
    room: dict[tuple[Function, GradeBand, str], float] = {}
    for _, pin in _pins(vehicle):
        proof = proofs[pin.path]
        key = (pin.function, proof.band, proof.raise_by)
        pins[key] += 1
        room[key] = room.get(key, 0.0) + room_of(proof.score)
    for shared, count in pins.items():
        yield GradeCount(*shared, count, room[shared])


def _measured(vehicle: Vehicle) -> tuple[tuple[str, int], ...]:
    dates = {session.id: session.date for session in vehicle.sessions}
    newest = (
        max((dates.get(reading.session, "") for reading in pin.readings), default="")
        for _, pin in _pins(vehicle)
    )
    return tuple(sorted(Counter(newest).items()))


def _disputed(vehicle: Vehicle, proofs: Mapping[DataPath, PinProof]) -> Iterator[Disputed]:
    for plug, pin in _pins(vehicle):
        if proofs[pin.path].dispute:
            place = anchor("dispute", plug, pin.cavity)
            yield Disputed(f"{plug}.{pin.cavity}", pin.function, place)


def _no_switched(vehicle: Vehicle, proofs: Mapping[DataPath, PinProof]) -> str:
    found = [(plug, pin) for plug, pin in _pins(vehicle) if pin.function in _SWITCHED]
    bands = {proofs[pin.path].band for _, pin in found}
    if bands & _RELIABLE:
        return ""
    if not found:
        woken = vehicle.radio.data_wake == "yes"
        return "the radio is woken by a data message" if woken else "no such wire is described"
    plug, pin = max(found, key=lambda site: proofs[site[1].path].score)
    what = short_function_name(pin.function)
    return f"{plug}.{pin.cavity} ({what}) is {proofs[pin.path].band}"
