"""Negatives and fuses as a walk finds them: each where a hand gets at it, nothing joined live."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.car.access import parts_over
from builder.planning.circuit.terminal_names import LINK_FUSE, SECOND
from builder.planning.course.car_states import BATTERY, MAIN_FUSE
from builder.planning.course.model import State
from builder.planning.course.places import reached_at
from builder.planning.power.main_fuse import main_fuse_place
from builder.planning.words import HowItStands
from builder.planning.work_pack import JobParts


def powered(parts: JobParts, state: State, what: str, value: HowItStands) -> Iterator[str]:
    """Yield each law that moving a negative or a fuse breaks; nothing of any other thing."""
    if value == "waited" or what not in (BATTERY, SECOND, MAIN_FUSE, LINK_FUSE):
        return
    yield from _covered(parts, state, what)
    feeds = BATTERY if parts.job.supply.second_battery is None else SECOND
    if what == feeds and state[MAIN_FUSE] == "in" and not _is_shut_in(parts):
        yield f"the {what} goes {value} with the main fuse in"
    if what in (BATTERY, SECOND) and state.get(LINK_FUSE) == "in":
        yield f"the negative of the {what} is moved while two batteries are linked"
    if what == SECOND and state[BATTERY] == "on":
        yield "the second battery is moved while the car's is on"
    if what == LINK_FUSE and value == "in" and {state[BATTERY], state[SECOND]} != {"on"}:
        yield "two batteries are linked before both have their ground"


def _covered(parts: JobParts, state: State, what: str) -> Iterator[str]:
    """What still lies over it; over a battery, what may only move when that one is off is no
    matter of the course."""
    over = parts_over(parts.vehicle, _place(parts, what))
    if what == BATTERY and any(each.restraint != "no" for each in over):
        return
    yield from (f"{each.name} is still on" for each in over if state[each.name] == "on")


def _is_shut_in(parts: JobParts) -> bool:
    """Whether the main fuse lies under what moves only when the battery is off: it stays in."""
    over = parts_over(parts.vehicle, _place(parts, MAIN_FUSE))
    return any(each.restraint != "no" for each in over)


def _place(parts: JobParts, what: str) -> str:
    supply = parts.job.supply
    if what == MAIN_FUSE:
        return reached_at(parts.vehicle, main_fuse_place(supply))
    second = supply.second_battery
    if what == SECOND and second is not None:
        return reached_at(parts.vehicle, second.place)
    return parts.vehicle.power.battery.location
