"""The wait after the battery's negative is off, wherever hands work beside a restraint part."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from builder.planning.course.car_changes import OPEN, CarHands
from builder.planning.course.car_states import BATTERY, RADIO
from builder.planning.course.model import Act, Change, Needs, Problem, among

_Move = TypeVar("_Move", Act, Change)


def after_the_wait(hands: CarHands, problem: Problem) -> Problem:
    """Return a problem whose every move with batteries off, beside a restraint part, has waited.

    What is unplugged or joined behind a part that may be near one is as near to it as that part.
    """
    return replace(
        problem,
        acts=tuple(_waited(hands, act) for act in problem.acts),
        changes=tuple(_waited(hands, change) for change in problem.changes),
    )


def _waited(hands: CarHands, move: _Move) -> _Move:
    stands = move.needs.get(BATTERY)
    if stands is None or "on" in stands or not _is_beside(hands, move.needs):
        return move
    return replace(move, needs={**move.needs, BATTERY: among("waited")})


def _is_beside(hands: CarHands, wanted: Needs) -> bool:
    if wanted.get(RADIO) == among("pulled") and hands.radio_restraint != "no":
        return True
    return any(
        part.restraint != "no" and part.name in wanted and wanted[part.name] <= OPEN
        for part in hands.parts
    )
