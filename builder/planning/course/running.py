"""What has to be true before the engine turns while a seat is not bolted in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from builder.planning.course.car_states import KEY, RUNNING
from builder.planning.course.model import Change, Rank, State
from builder.planning.words import HowItStands

_SEATS: tuple[Rank, ...] = ("seat", "restraint plug")
STANDS: Final = (
    "the engine turns with {0} not bolted in: every restraint plug home, brake on, no gear, "
    "nobody sits on it, the car stays where it is"
)
_BY_ITSELF: dict[HowItStands, str] = {
    "engine": "; hands out of the engine bay: an engine that the car itself stopped starts again "
    "with nobody at the key",
}


def seats_of(changes: Iterable[Change]) -> tuple[str, ...]:
    """Return the seats that are moved."""
    return tuple(dict.fromkeys(each.what for each in changes if each.rank in _SEATS))


def running_gate(turned: Sequence[Change], state: State, seats: Sequence[str]) -> str:
    """Return the gate before an engine that is started with seats loose or out; "" without."""
    started = [each.to for each in turned if each.what == KEY and each.to in RUNNING]
    apart = [each for each in seats if state.get(each) in ("loose", "off")]
    if not started or not apart:
        return ""
    return STANDS.format(" and ".join(apart)) + _BY_ITSELF.get(started[-1], "")
