"""Lines that look at what holds devices and what keeps edge and water off cables."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.job import CablePass, Job
from builder.model.vehicle import Vehicle
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, tick
from builder.planning.car.seats import has_rails, seats_over, travel_words
from builder.planning.car.supply_way import unsaid_supply_way
from builder.planning.words import SUPPLY_WAY, Turn
from builder.planning.work_pack import BayTest, JobParts


def held_tests(job: Job, vehicle: Vehicle, devices: tuple[str, ...]) -> Iterator[BayTest]:
    """Yield what is looked at before power: devices held, ways through a bulkhead closed."""
    ways = [f"{one.through} closed, no bare edge{_drip(one)}" for one in job.passes]
    if unsaid_supply_way(job, vehicle):
        ways.append(f"{SUPPLY_WAY} closed, no bare edge")
    yield tick(
        "held", "built", "; ".join((f"{', '.join(devices)} pulled by hand, none moves", *ways)),
        "battery_off",
        "what is loose flies in a crash" + ("; an edge cuts a cable through" if ways else ""),
        since=WITH_THE_CIRCUIT,
    )  # fmt: skip


def _drip(one: CablePass) -> str:
    return ", drip loop" if one.drip_loop == "yes" else ""


def restart_turn(parts: JobParts) -> Turn:
    """When a line that wants the engine to start by itself is read: a car may ask for somebody on
    the seat, belt on, so never while a seat of the work is not bolted in."""
    return "whole" if seats_over(parts.vehicle, parts.job) else "turn_on"


def seat_tests(vehicle: Vehicle, job: Job) -> Iterator[BayTest]:
    """Yield each seat that something lies under, moved as its owner will move it."""
    for seat in seats_over(vehicle, job):
        what, why = _SLID if has_rails(seat) else _SEATED
        yield tick(
            speakable(seat.name, "travel"), "whole",
            what.format(seat.name, travel_words(seat)), "run", why, since=WITH_THE_CIRCUIT,
        )  # fmt: skip


_SLID = (
    "{0} {1}, as far as it goes: no cable and no device is touched or pulled",
    "a rail cuts what lies in its way",
)
_SEATED = (
    "{0} held as before, sat on, its cushions folded where they fold: no cable and no device is "
    "touched or pinched",
    "what lies under a bench is worn through by everybody who sits down",
)
