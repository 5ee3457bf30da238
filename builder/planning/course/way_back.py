"""The way back to stock as a course: what the job did undone, by the hands that did it.

What comes off, waits and goes home is what it was on the way there; only the acts are others.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from builder.planning.bay.close_tests import close_tests
from builder.planning.circuit.index import CircuitIndex
from builder.planning.course.back_trade import BACK, LEFT_WHOLE, NOTED, READ
from builder.planning.course.back_work import BackWork
from builder.planning.course.car_states import PLAYABLE, RADIO_SET, asked_by, plug_of
from builder.planning.course.hands import begins, order, whole
from builder.planning.course.job_hands import JobHands, job_hands
from builder.planning.course.make_course import car_changes_of
from builder.planning.course.model import Act, Course, Needs, Problem, Said, among, needs
from builder.planning.course.noting import TO_NOTE
from builder.planning.course.search import shortest
from builder.planning.course.taking_out import taking_out_acts
from builder.planning.course.undoing import undoing_acts
from builder.planning.course.undoing_otherwise import loomed_in, otherwise_acts, otherwise_at
from builder.planning.course.waiting import after_the_wait
from builder.planning.words import HowItStands, TestState


def back_course(bay: BackWork) -> Course:
    """Return how the car comes to be as it left the factory, with the fewest changes."""
    return shortest(back_problem(bay))


def back_problem(bay: BackWork) -> Problem:
    """Return what is undone, from the car as it stands to the car as it came."""
    index = CircuitIndex(bay.circuit)
    places, named = otherwise_at(bay.joined, bay.parts.vehicle)
    moved = job_hands(bay.parts, index, (), bay.defaults, places, named)
    plugs = [plug_of(each.id) for each in moved.hands.plugs]
    loomed = loomed_in(bay.joined, index, moved)
    as_it_is: dict[str, HowItStands] = {what: "loomed" for what in plugs if what in loomed}
    as_it_is |= moved.batteries.start(built=True, empty=bay.joined.empty)
    home: Needs = {**whole(moved.hands), **dict.fromkeys(plugs, among("home"))}
    problem = Problem(
        begins=begins(moved.hands, as_it_is),
        ends={**home, RADIO_SET: PLAYABLE, **needs(play="off", key="off asleep")},
        acts=tuple(_acts(bay, index, moved, loomed, home)),
        changes=tuple(car_changes_of(moved.hands, replace(moved.batteries, leaves=True))),
        trade=BACK,
        order=order(moved.hands, (), moved.batteries.over),
    )
    return after_the_wait(moved.hands, problem)


def _acts(
    bay: BackWork,
    index: CircuitIndex,
    moved: JobHands,
    loomed: Mapping[str, str],
    home: Needs,
) -> Iterator[Act]:
    yield Act("note", "close", Said(_NOTED), needs(battery="on"), frozenset({NOTED}), minutes=5.0)
    yield from undoing_acts(bay, index, moved, loomed)
    yield from otherwise_acts(bay.joined, moved)
    yield from taking_out_acts(bay, index, moved)
    yield from _reading_acts(bay, home)


_PLAYS = "radio plays at every speaker of the car, each corner of balance and fader by itself"
_NOTED = f"write down {TO_NOTE}"
_AS_FOUND = (
    "radio presets, clock and window positions set again as they were written down; lamps and "
    "faults as today, sounds as before the work"
)


def _reading_acts(bay: BackWork, home: Needs) -> Iterator[Act]:
    """Yield what is looked at in the car as it came: what the job looks at in the whole car."""
    yield _read(_PLAYS, "tuner", home)
    for test in close_tests(bay.parts, bay.turn_on, bay.defaults):
        if test.turn == "whole":
            yield _read(test.what, test.state, home)
    said = Said(_AS_FOUND)
    wanted = {**home, **asked_by("run"), RADIO_SET: PLAYABLE}
    yield Act("as found", "close", said, wanted, frozenset({LEFT_WHOLE}))


def _read(what: str, state: TestState, home: Needs) -> Act:
    return Act(what, "close", Said(what), {**home, **asked_by(state)}, frozenset({READ}))
