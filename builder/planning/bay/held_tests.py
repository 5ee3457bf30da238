"""Lines that look at what holds devices and what keeps edge and water off cables."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.job import CablePass, Job
from builder.model.vehicle import Vehicle
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, tick
from builder.planning.car.seats import seats_over, travel_words
from builder.planning.work_pack import BayTest


def held_tests(job: Job, devices: tuple[str, ...]) -> Iterator[BayTest]:
    """Yield what is looked at before power: devices held, ways through a bulkhead closed."""
    ways = [f"{one.through} closed, no bare edge{_drip(one)}" for one in job.passes]
    yield tick(
        "held", "built", "; ".join((f"{', '.join(devices)} pulled by hand, none moves", *ways)),
        "battery_off",
        "what is loose flies in a crash" + ("; an edge cuts a cable through" if ways else ""),
        since=WITH_THE_CIRCUIT,
    )  # fmt: skip


def _drip(one: CablePass) -> str:
    return ", drip loop" if one.drip_loop == "yes" else ""


def seat_tests(vehicle: Vehicle, job: Job) -> Iterator[BayTest]:
    """Yield each seat that something lies under, moved as its owner will move it."""
    for seat in seats_over(vehicle, job):
        yield tick(
            speakable(seat.name, "travel"), "whole",
            f"{seat.name} {travel_words(seat)}, as far as it goes: no cable and no device is "
            "touched or pulled", "run", "a rail cuts what lies in its way", since=WITH_THE_CIRCUIT,
        )  # fmt: skip
