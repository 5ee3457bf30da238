"""A turn-on source of a better rung that nobody proved: asked for, never silently passed over."""

from __future__ import annotations

from typing import Final

from builder.planning.car.turn_on_place import Place
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE
from builder.planning.words import RUNG_NAMES, RungKind, RungVerdict

LOWER_RUNG_RULE = "ONN108"
"""The rule that a job accepts, with a reason, to stay on the lower rung that is proved."""

UNPROVED: Final[RungVerdict] = "unproved"
"""Verdict of the better rung that such a job leaves alone."""

FOLLOWS_THE_RADIO = frozenset({1, 5})
"""Rungs that are live whenever the radio is awake, key or no key."""


def better_unproved(
    proved: Place | None, places: list[Place], *, needs_awake: bool
) -> Place | None:
    """Return the best place that a reading would put above the chosen one, or None.

    Args:
        proved: The place chosen as things are proved.
        places: All candidates.
        needs_awake: Whether a sound must survive the key; following the radio then counts first.
    """
    if proved is None or proved.verdict != "fit":
        return None
    above = [
        place
        for place in places
        if place.verdict == "weak"
        and not place.driver
        and place.rung < proved.rung
        and _order(place, needs_awake) < _order(proved, needs_awake)
    ]
    return min(above, key=lambda place: _order(place, needs_awake), default=None)


def _order(place: Place, needs_awake: bool) -> tuple[bool, int]:
    return (needs_awake and place.rung not in FOLLOWS_THE_RADIO, place.rung)


def lower_rung_reasons(chosen: Place | None, passed: Place | None) -> tuple[Reason, ...]:
    """Return what is said first of a plan that stays on a lower rung because the job accepts it."""
    if chosen is None or passed is None:
        return ()
    decision = f"the turn-on stays on {named(chosen)}"
    because = (
        f"better would be {named(passed)}, which is not proved: {passed.because}. The job accepts "
        "the lower rung"
    )
    return (Reason(decision, because, COMMON_PRACTICE),)


def named(place: Place) -> str:
    """Return a place as a person names it, e.g. "the retained supply at A.7, rung 2"."""
    if place.kind == "offset_wake":
        return f"the bias of {place.where}, rung {place.rung}"
    by_name = place.kind in ("fuse_position", "data_interface")
    where = f" {place.where}" if by_name else f" at {place.where}"
    return f"{_SAID[place.kind]}{where if place.where else ''}, rung {place.rung}"


_SAID: dict[RungKind, str] = {
    "amplifier_on": f"the {RUNG_NAMES['amplifier_on']}",
    "retained": f"the {RUNG_NAMES['retained']}",
    "accessory": f"the {RUNG_NAMES['accessory']}",
    "fuse_position": "fuse position",
    "data_interface": "the data interface",
    "run": f"the {RUNG_NAMES['run']}",
    "signal_wake": "the sound itself",
}
"""What a rung is in a sentence."""
