"""What has to be true before the engine turns while a seat or a cover is not at its place."""

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
LIVE: Final = (
    "the engine turns with {0} off, orange cables live under it: every meter, lamp and lead is set "
    "out before; no hand, tool or lead in there until the key is off"
)
_BY_ITSELF: dict[HowItStands, str] = {
    "engine": "; hands out of the engine bay: an engine that the car itself stopped starts again "
    "with nobody at the key",
}


def seats_of(changes: Iterable[Change]) -> tuple[str, ...]:
    """Return the seats that are moved."""
    return tuple(dict.fromkeys(each.what for each in changes if each.rank in _SEATS))


def live_under(changes: Iterable[Change]) -> tuple[str, ...]:
    """Return what is moved off something that is live once the engine turns."""
    return tuple(dict.fromkeys(each.what for each in changes if each.over_live))


def running_gate(
    turned: Sequence[Change], state: State, seats: Sequence[str], covers: Sequence[str] = ()
) -> str:
    """Return the gate before an engine that is started with seats loose or out, or with covers off
    what is live then; "" without."""
    started = [each.to for each in turned if each.what == KEY and each.to in RUNNING]
    if not started:
        return ""
    apart = [each for each in seats if state.get(each) in ("loose", "off")]
    bare = [each for each in covers if state.get(each) == "off"]
    loose = STANDS.format(" and ".join(apart)) + _BY_ITSELF.get(started[-1], "") if apart else ""
    live = LIVE.format(" and ".join(bare)) if bare else ""
    return "; ".join(each for each in (loose, live) if each)
