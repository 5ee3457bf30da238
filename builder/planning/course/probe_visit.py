"""The shortest visit that takes readings and joins nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.planning.bay.line import proof_line
from builder.planning.course.batteries import Batteries, at_battery
from builder.planning.course.car_states import RADIO_SET
from builder.planning.course.hands import begins, hands_of, order, whole
from builder.planning.course.make_course import car_changes_of, tagged
from builder.planning.course.model import Act, Needs, Problem, Said, among, needs
from builder.planning.course.noting import as_noted_act, noting_acts
from builder.planning.course.places import Places, reached_at
from builder.planning.course.reading import Reading, reading_acts
from builder.planning.course.search import shortest
from builder.planning.course.sheet import CourseSheet, course_sheet
from builder.planning.course.trade import TOLD, every_constraint
from builder.planning.course.waiting import after_the_wait
from builder.planning.plan import ProofReading
from builder.planning.work_pack import BayTest


def visit_sheet(
    vehicle: Vehicle,
    tests: Sequence[BayTest],
    house: HouseDefaults,
) -> CourseSheet:
    """Return steps and lines of a visit, in the order with the fewest changes."""
    problem = _problem(vehicle, tests, house)
    return course_sheet(shortest(problem), problem, tests)


def visit_min(vehicle: Vehicle, readings: Sequence[ProofReading], house: HouseDefaults) -> float:
    """Return how long the hands need for a visit that takes these readings. [min]

    The car comes whole and goes whole: getting at the pins counts, and waiting until it sleeps.
    """
    steps = visit_sheet(vehicle, [proof_line(reading) for reading in readings], house).steps
    return sum(step.takes_min for step in steps)


def _problem(vehicle: Vehicle, tests: Sequence[BayTest], house: HouseDefaults) -> Problem:
    read = (test.reading.fuse_position for test in tests if test.reading)
    spots = [reached_at(vehicle, each) for each in read if each]
    hands = hands_of(vehicle, house, tests, spots, tone_at="", slides=True)
    places = Places(hands)
    batteries = Batteries(at_battery=at_battery(places))
    acts = (
        *noting_acts(vehicle),
        *reading_acts(tests, Reading(places, house, whole=whole(hands), joins=False)),
        as_noted_act(whole(hands)),
        *_last({**whole(hands), **needs(key="off")}),
    )
    problem = Problem(
        begins=begins(hands, {}),
        ends={**whole(hands), RADIO_SET: among("noted"), **needs(play="off", key="off asleep")},
        acts=tuple(tagged(act) for act in acts),
        changes=tuple(car_changes_of(hands, batteries)),
        trade=tuple(every_constraint()),
        order=order(hands, (), batteries.over),
    )
    return after_the_wait(hands, problem)


def _last(wanted: Needs) -> Iterator[Act]:
    send = "send the readings in with the record; the plan is made again from them"
    yield Act("send in", "close", Said(send), wanted, frozenset({TOLD}))
    nothing = Said("join nothing until that is done", blocked="the readings are not in yet")
    yield Act("join nothing", "close", nothing, wanted, frozenset({TOLD}))
