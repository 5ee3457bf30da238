"""What to make of evidence against a pin, tried in a fixed order before it is called a dispute.

The order is from the slip that explains most to the one that explains least: the other face, two
kinds of car under one scope, another plug or cavity, another state of the car. Only what is left
is a dispute, and the one reading that decides ends it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.dispute import deciding_of, settle_by_hand
from builder.proof.contradictions.explaining import Case, Explanation
from builder.proof.contradictions.face import explain_face
from builder.proof.contradictions.place import explain_place
from builder.proof.contradictions.scope import explain_scope
from builder.proof.contradictions.state import explain_state
from builder.proof.grading.grade import DISPUTED, Grade
from builder.proof.grading.weighing import place_of

__all__ = ["Attack", "Explanation", "attack_of"]

_TRIED = (explain_face, explain_scope, explain_place, explain_state)


class Attack(NamedTuple):
    """Every explanation in the order it is tried; the last one is the dispute itself."""

    tried: tuple[Explanation, ...]

    @property
    def first(self) -> Explanation:
        """The first explanation that fits; the dispute when no other does."""
        return next(one for one in self.tried if one.verdict == "fits" or one is self.tried[-1])

    @property
    def first_advice(self) -> str:
        """What to rule out before it is called a dispute, and what to do; "" for a dispute."""
        first = self.first
        if first is self.tried[-1]:
            return ""
        return f"{first.title}? {first.why}. If so, {first.do}"


def attack_of(
    vehicle: Vehicle,
    pin: Pin,
    grade: Grade,
    defaults: HouseDefaults,
    housings: Mapping[str, Housing],
) -> Attack | None:
    """Return the explanations of what speaks against a pin; None when nothing that counts does.

    Args:
        vehicle: The record that the pin stands in.
        pin: A pin, or a fuse position in the shape of one.
        grade: The grade of the pin; what it counted is what is explained.
        defaults: House defaults of the book.
        housings: The shells of the book by id; without the plug's own no face can be told.
    """
    ours = tuple(item for item in grade.counted if item.supports)
    theirs = tuple(item for item in grade.counted if not item.supports)
    if not theirs:
        return None
    case = Case(vehicle, place_of(vehicle, pin), ours, theirs, housings, defaults)
    tried = tuple(explain(case) for explain in _TRIED)
    return Attack((*tried, _dispute(case, tried, grade)))


def _dispute(case: Case, tried: tuple[Explanation, ...], grade: Grade) -> Explanation:
    vehicle, pin = case.vehicle, case.place.pin
    decides = deciding_of(vehicle, pin, case.theirs, case.defaults)
    do = f"the reading that decides: {decides.measurement.words}" if decides else (
        settle_by_hand(pin, case.theirs, case.defaults) or grade.raise_by
    )  # fmt: skip
    fitting = next((one for one in tried if one.verdict == "fits"), None)
    if fitting is not None:
        why = f"only when this is ruled out: {fitting.title}"
        return Explanation("dispute", "cannot be told", why, do)
    why = "none of the above explains it"
    if grade.band != "disputed":
        why += (
            f"; for a dispute both sides need {DISPUTED:.2f}, and they have "
            f"{grade.support:.2f} and {grade.opposition:.2f}"
        )
    return Explanation("dispute", "fits", why, do)
