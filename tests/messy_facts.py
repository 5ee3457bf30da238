"""What a record and its visits say of a car, one fact a line, however it came in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from builder.book import open_book
from builder.model.plugs import Pin, Plug, Reading
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import vehicle_meant


def facts_of(book: Path, name: str) -> list[str]:
    """The facts of a car of a book, its visits among them."""
    car = vehicle_meant(open_book(book), name)[1]
    return [*_of_car(car), *(line for plug in car.plugs for line in _of_plug(car, plug))]


def _of_car(car: Vehicle) -> Iterator[str]:
    scope, safety = car.scope, car.safety
    yield f"car {car.make} {car.model} {scope.year_from}-{scope.year_to} {car.variant}"
    yield (
        f"scope bodies {_all(scope.bodies)}; trims {_all(scope.trims)}; driver {scope.drive_side}; "
        f"markets {_all(scope.markets)}; radios {_all(scope.radios)}"
    )
    amplifier, hybrid = car.factory_amplifier.feed, car.features.hybrid
    yield f"radio {car.radio.outputs}; factory amplifier {amplifier}; hybrid {hybrid}"
    wait = safety.restraint_wait_min or "unknown"
    zones, volts = _all(safety.restraint_zones), _all(safety.high_voltage_zones)
    yield f"zones restraint {zones}; high voltage {volts}; wait {wait}"
    sounds = [
        each if isinstance(each, str) else f"{each.sound}: {_all(each.channels)}"
        for each in car.protected_sounds
    ]
    yield f"sounds {'; '.join(sounds) or 'none'}"
    for settled in car.resolutions:
        gone = {each.date for each in car.sessions if each.id in settled.retires}
        yield (
            f"{settled.pin} settled by {settled.by} {settled.date}, "
            f"what was read {_all(sorted(gone))} counts no longer"
        )


def _all(words: Iterable[object]) -> str:
    return " ".join(map(str, words)) or "none"


def _of_plug(car: Vehicle, plug: Plug) -> Iterator[str]:
    yield (
        f"{plug.id} {plug.housing} {_all(plug.shell_colours)}, counted on the {plug.read_from}, "
        f"empty {_all(plug.empty)}"
    )
    for pin in plug.pins:
        yield " ".join(part for part in (f"{plug.id}.{pin.cavity}", *_of_pin(pin)) if part)
        for reading in pin.readings:
            yield f"{plug.id}.{pin.cavity} read {_of_reading(car, reading)}"


def _of_pin(pin: Pin) -> Iterator[str]:
    yield from (pin.function, pin.channel or "", pin.leg or "")
    if pin.wire is not None:
        yield "/".join(each for each in (pin.wire.base, pin.wire.stripe) if each)
        yield f"{pin.wire.size_mm2} mm2" if pin.wire.size_mm2 else ""
        yield f"{pin.wire.size_awg} awg" if pin.wire.size_awg else ""
    yield f"only {_all(pin.only_if.trims)}" if pin.only_if else ""


def _of_reading(car: Vehicle, reading: Reading) -> str:
    visit = car.session(reading.session)
    assert visit is not None
    minutes = f" {reading.minutes:g} min" if reading.minutes is not None else ""
    return (
        f"{reading.state}{minutes} {reading.value} {reading.quantity} battery {reading.battery_v} "
        f"by {visit.by} {visit.date} {visit.car.tag} {visit.car.trim} {visit.read_from}"
    )
