"""What of a car a job moves, and what is open while it is worked on: there, and on the way back."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.car.access import job_spots
from builder.planning.car.route_zones import restraint_zones_touched
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.terminal_names import SECOND, plug_name
from builder.planning.course.batteries import Batteries, batteries_of
from builder.planning.course.car_changes import CarHands
from builder.planning.course.hands import hands_of
from builder.planning.course.model import Needs
from builder.planning.course.places import Places, plug_in, reached_at
from builder.planning.levels.tone_heard import tone_at
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.work_pack import BayTest, JobParts


@dataclass(frozen=True, slots=True)
class JobHands:
    """What a job moves of its car, its places, and what is open while all of them are reached."""

    hands: CarHands
    places: Places
    spots: tuple[str, ...]
    open: Needs
    batteries: Batteries


def job_hands(
    parts: JobParts,
    index: CircuitIndex,
    tests: Sequence[BayTest],
    house: HouseDefaults,
    besides: Sequence[str] = (),
    named: Collection[str] = (),
    *,
    besides_tone: str = "",
) -> JobHands:
    """Return what is moved for a job, for all of its joints, and for these lines of its sheet.

    `besides` and `named` are further places and plugs of the car, `besides_tone` is what else plays
    with a tone and where the fader stands.
    """
    vehicle, circuit = parts.vehicle, index.circuit
    plugs = [unit for unit in circuit.units if unit.kind == "plug"]
    touched = {plug_in(each.id) for unit in plugs for each in unit.terminals}
    between = {unit.place for unit in circuit.units if unit.kind == "interface"}
    touched |= {each.id for each in vehicle.plugs if plug_name(each) in between}
    touched |= {*named}
    joined = (joint.place for joint in circuit.joints if made_by_us(index, joint))
    spots = tuple(dict.fromkeys((*job_spots(vehicle, parts.job), *joined, *besides)))
    over = [reached_at(vehicle, each) for each in spots]
    zones = restraint_zones_touched(parts.job, vehicle)
    played_at = tone_at(vehicle, parts.job, besides_tone)
    hands = hands_of(vehicle, house, tests, over, touched, zones, tone_at=played_at)
    places = job_places_of(parts, hands)
    batteries = batteries_of(parts.job, index, places)
    return JobHands(hands, places, spots, places.open_at(spots), batteries)


def job_places_of(parts: JobParts, hands: CarHands) -> Places:
    """Return the places of a job; its second battery's are where that one stands."""
    second = parts.job.supply.second_battery
    return Places(hands, {} if second is None else {SECOND: second.place})
