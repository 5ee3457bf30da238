"""What makes a car dead, and powers it again: negatives and fuses, each where it can be reached.

With a battery of its own behind the trim a job hangs on two. By the car's own battery, that one's
negative and the fuse of the link are always at hand; the second battery's negative, its fuse and
the main fuse only while the trim over them is open. So the car is made dead from the front, and
what was added is made dead where it stands.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field

from builder.model.job import Job
from builder.model.words import UNKNOWN
from builder.planning.car.access import parts_over
from builder.planning.car.seats import has_plug
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.terminal_names import LINK_FUSE, SECOND
from builder.planning.course.car_changes import HOME, CarHands
from builder.planning.course.car_states import (
    BATTERY,
    DEAD,
    KEY,
    MAIN_FUSE,
    POWERED,
    RADIO_SET,
    plug_of,
)
from builder.planning.course.hands import open_before
from builder.planning.course.model import Change, Needs, Said, among, needs
from builder.planning.course.places import Places, reached_at
from builder.planning.power.main_fuse import main_fuse_place
from builder.planning.words import HowItStands

_OUT = among("absent", "out")
_STILL = needs(key="off")
STILL_OUT = "main fuse still out, "
"""Said before a battery goes on, once there is a holder that it could be in."""
_FUSE_MIN = 0.5
"""A fuse drawn out of its holder, or pushed in. Common practice, no source. [min]"""


@dataclass(frozen=True, slots=True)
class Batteries:
    """What of a job hangs on batteries. `at_battery`, `at_fuse` and `at_second` are what has to be
    open at the car's own, at the main fuse and at a second one."""

    fused: bool = False
    second: bool = False
    linked: bool = False  # by a fuse beside the car's own
    at_battery: Needs = field(default_factory=dict)
    at_fuse: Needs = field(default_factory=dict)
    at_second: Needs = field(default_factory=dict)
    leaves: bool = False  # what was added leaves the car, with its holders
    fuse_stays: bool = False  # in its holder when the car's own goes off: it is not on that one

    @property
    def dead(self) -> Needs:
        """What is joined and parted in: nothing live at either end."""
        found: dict[str, frozenset[HowItStands]] = {**DEAD}
        found |= {MAIN_FUSE: _OUT} if self.fused else {}
        return found | ({SECOND: among("absent", "off")} if self.second else {})

    @property
    def live(self) -> Needs:
        """What everything joined and powered asks for."""
        found: dict[str, frozenset[HowItStands]] = {**POWERED}
        found |= {MAIN_FUSE: among("in")} if self.fused else {}
        found |= {SECOND: among("on")} if self.second else {}
        return found | ({LINK_FUSE: among("in")} if self.linked else {})

    @property
    def over(self) -> frozenset[str]:
        """What lies over the car's own battery or a main fuse that goes in after it: they are
        closed last."""
        fuse = () if self.fuse_stays else self.at_fuse
        return frozenset({*self.at_battery, *fuse})

    def start(self, *, built: bool, empty: Collection[str] = ()) -> dict[str, HowItStands]:
        """Return how they stand before the work, or in a car in which it is done; `empty` are
        holders without their fuse."""
        found: dict[str, HowItStands] = {}
        for what, there in ((MAIN_FUSE, self.fused), (LINK_FUSE, self.linked)):
            if there:
                found[what] = "in" if built and what not in empty else "absent"
        if self.second:
            found[SECOND] = "on" if built else "absent"
        return found

    def changes(self, hands: CarHands) -> Iterator[Change]:
        """Yield every change of them by hand, once they are there."""
        yield from _battery(hands, self)
        if self.linked:
            yield from _link_fuse(self)
        if self.second:
            yield from _second(hands, self)
        if self.fused:
            yield from _main_fuse(self)


def batteries_of(job: Job, index: CircuitIndex, places: Places) -> Batteries:
    """Return what a job hangs on batteries, as its circuit has it."""
    second = job.supply.second_battery if SECOND in index.units else None
    vehicle, fuse = places.hands.vehicle, main_fuse_place(job.supply)
    guarded = any(each.restraint != "no" for each in parts_over(vehicle, reached_at(vehicle, fuse)))
    return Batteries(
        fused=MAIN_FUSE in index.elements,
        second=second is not None,
        linked=LINK_FUSE in index.elements,
        at_battery=at_battery(places),
        at_fuse=places.open_at([fuse]),
        at_second={} if second is None else places.open_at([second.place]),
        fuse_stays=second is not None or guarded,
    )


def at_battery(places: Places) -> Needs:
    """Return what has to be open at the car's own battery; what may come off only when that one is
    off cannot be asked for first."""
    return places.open_at(open_before(places.hands.vehicle))


def _battery(hands: CarHands, job: Batteries) -> Iterator[Change]:
    """The car's own: off, the wait for the restraint system, and on."""
    minutes = hands.house.hand_battery_min
    whose = "the car's battery negative" if job.second else "the battery negative"
    reached: Needs = {**({} if job.fuse_stays else {MAIN_FUSE: _OUT}), **job.at_battery}
    reached = {**reached, **({LINK_FUSE: _OUT} if job.linked else {})}
    yield Change(
        BATTERY, among("on"), "off", "battery",
        Said(f"windows down, bonnet and boot open or their openers known, charger off, key off and "
             f"away from the car; then {whose} off{_lies(hands)}",
             gate=_off_gate(hands)),
        {KEY: among("off", "asleep"), **reached}, {KEY: "off", RADIO_SET: "absent"}, minutes,
    )  # fmt: skip
    yield _waited(hands)
    seats = {part.name: among("on", "loose", "slid") for part in hands.parts if has_plug(part)}
    home = {plug_of(plug.id): HOME for plug in hands.plugs}
    gate = "every restraint plug home" if hands.near_restraint else ""
    fused = job.fused and not (job.fuse_stays or job.leaves)
    said = f"{STILL_OUT if fused else ''}key off; then {whose} on"
    yield Change(
        BATTERY, among("off", "waited"), "on", "battery", Said(said, gate=gate),
        {KEY: among("off"), **reached, **seats, **home}, minutes=minutes,
    )  # fmt: skip


def _off_gate(hands: CarHands) -> str:
    """When it went off; where nothing near a restraint part is moved, when that might be."""
    wait, off = hands.vehicle.safety.restraint_wait_min, "battery negative off at __:__"
    if wait is None or hands.near_restraint:
        return off
    return f"{off}; nothing near a restraint part before __:__, {wait:g} min later"


def _lies(hands: CarHands) -> str:
    """Where the car's own battery is, as its record says."""
    at = hands.vehicle.power.battery.location
    return "" if at == UNKNOWN else f" ({at})"


_NO_WAIT = (
    "nobody recorded how long this car's restraint system holds its charge: look it up in the "
    "maker's instructions"
)


def _waited(hands: CarHands) -> Change:
    wait = hands.vehicle.safety.restraint_wait_min
    text = "wait before anything near a restraint part is touched"
    if wait is None:
        said = Said(text, gate="battery negative off at __:__, earliest __:__", blocked=_NO_WAIT)
    else:
        gate = f"battery negative off at __:__, earliest __:__ ({wait:g} min later)"
        said = Said(f"{text}: {wait:g} min, the maker's figure", gate=gate)
    return Change(BATTERY, among("off"), "waited", "job", said, minutes=wait or 0.0)


def _main_fuse(job: Batteries) -> Iterator[Change]:
    """Out and in again, once it has been in; it feeds from the second battery, if there is one."""
    fed = {SECOND: among("on")} if job.second else POWERED
    still = {**_STILL, **job.at_fuse}
    out, again = Said("main fuse out"), Said("main fuse in again")
    yield Change(MAIN_FUSE, among("in"), "out", "job", out, still, minutes=_FUSE_MIN)
    wanted = {**still, **fed}
    yield Change(MAIN_FUSE, among("out"), "in", "job", again, wanted, minutes=_FUSE_MIN)


def _link_fuse(job: Batteries) -> Iterator[Change]:
    """By the car's own battery: out before that one's negative, in after it."""
    still = {**_STILL, **job.at_battery}
    out = Said(f"{LINK_FUSE} out")
    yield Change(LINK_FUSE, among("in"), "out", "job", out, still, minutes=_FUSE_MIN)
    wanted = {**still, **POWERED, SECOND: among("on")}
    again = Said(f"{LINK_FUSE} in again")
    yield Change(LINK_FUSE, among("out"), "in", "job", again, wanted, minutes=_FUSE_MIN)


def _second(hands: CarHands, job: Batteries) -> Iterator[Change]:
    """The car's own goes off first and on last."""
    wanted = {**_STILL, **DEAD, **job.at_second}
    wanted |= {MAIN_FUSE: _OUT} if job.fused else {}
    wanted |= {LINK_FUSE: _OUT} if job.linked else {}
    minutes = hands.house.hand_battery_min
    own = f"fuse of the link at the {SECOND}"
    off = Said(f"the {SECOND}'s negative off, its end covered; then the {own} out")
    yield Change(SECOND, among("on"), "off", "job", off, wanted, minutes=minutes)
    on = Said(f"the {own} in; then the {SECOND}'s negative on")
    yield Change(SECOND, among("off"), "on", "job", on, wanted, minutes=minutes)
