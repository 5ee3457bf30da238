"""What a job does with the wires of a loom: keep, cut, close off, join beside."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from builder.model.parts.loom import LoomEnd
from builder.model.parts.loom_wires import LoomCarries, Point
from builder.model.pin import Pin
from builder.model.words import Function
from builder.planning.car.pairs import Leg
from builder.planning.car.selection import Selection, Tap
from builder.planning.car.treatments import wires_of
from builder.planning.harness.at_plug import LoomUse, looms_of
from builder.planning.looms.conductors import Conductor, Terminal, at_cavity
from builder.planning.looms.cutting import Cut, Half
from builder.planning.looms.ring_out import Use
from builder.planning.plan import TurnOn
from builder.planning.work_pack import JobParts


class Wanted(NamedTuple):
    """What a job wants of one cavity: both halves of its wire, or a wire beside it."""

    unit_half: Half | None  # None: the wire stays whole
    car_half: Half | None
    tapped: bool = False


@dataclass(frozen=True)
class LoomPlan:
    """A loom of a job, and what is wanted of it by cavity of the car's plug."""

    use: LoomUse
    wanted: Mapping[str, Wanted]

    @property
    def ends(self) -> tuple[LoomEnd, LoomEnd]:
        """The end at the unit, then that at the car's plug."""
        assert self.use.ends is not None, "a loom without both ends is refused"
        return self.use.ends

    @cached_property
    def cuts(self) -> tuple[Cut, ...]:
        """The wires that are cut, those that a branch brings out already are not among them."""
        found: dict[Conductor, Cut] = {}
        for cavity in self.wanted:
            for wire, cut in self._cuts_at(cavity):
                found.setdefault(wire, cut)
        return tuple(found.values())

    def _cuts_at(self, cavity: str) -> Iterator[tuple[Conductor, Cut]]:
        if self.wanted[cavity].unit_half is None:
            return
        for end in self.ends:
            wire = self.single(end, cavity)
            if wire is not None and self._runs_on(wire):
                near = Terminal(end.name, cavity)
                other = wire.other(near)
                halves = (self._half(end, cavity), self._half_at(other))
                yield wire, Cut(Point(end.name, cavity), *halves)

    def _runs_on(self, wire: Conductor) -> bool:
        names = {end.name for end in self.ends}
        return {wire.start.place, wire.to.place} <= names

    def single(self, end: LoomEnd, cavity: str) -> Conductor | None:
        """Return the wire in a cavity of an end; None where none sits, or several do."""
        found = at_cavity(self.use.loom, end.name, cavity)
        return found[0] if len(found) == 1 else None

    def _half(self, end: LoomEnd, cavity: str) -> Half:
        wanted = self.wanted.get(cavity)
        half = None if wanted is None else wanted[self.ends.index(end)]
        return half if half is not None else "closed"  # type: ignore[return-value]

    def _half_at(self, point: Terminal) -> Half:
        end = next(each for each in self.ends if each.name == point.place)
        return self._half(end, point.cavity)

    @property
    def taps(self) -> tuple[Point, ...]:
        """The cavities of the car's end whose wire gets another beside it."""
        car = self.ends[1].name
        return tuple(Point(car, cavity) for cavity, each in self.wanted.items() if each.tapped)

    @cached_property
    def uses(self) -> dict[Point, Use]:
        """What each cavity that the car uses carries, and behind which fuse."""
        pins = self.use.plug.pins
        fuses = [pin.fuse.rating_a for pin in pins if pin.fuse and pin.fuse.rating_a]
        biggest = max(fuses, default=None)
        return {
            Point(end.name, pin.cavity): _use_of(pin, biggest) for pin in pins for end in self.ends
        }


_CARRIES: dict[Function, LoomCarries] = {
    **dict.fromkeys(("constant", "constant_sleeps", "accessory", "run", "retained"), "supply"),
    "camera_supply": "supply",
    "ground": "ground",
    "speaker": "speaker",
    **dict.fromkeys(("data_high", "data_low", "data_single"), "data"),
    **dict.fromkeys(("line", "microphone", "camera_signal", "shield"), "signal"),
}  # fmt: skip
"""What a wire of a function is rung out as; every other carries milliamperes."""


def carries_of(function: Function) -> LoomCarries:
    """Return what a wire of the car is to a loom."""
    return _CARRIES.get(function, "control")


def _use_of(pin: Pin, biggest_a: float | None) -> Use:
    """A ground carries what the largest fuse of its plug lets through."""
    carries = carries_of(pin.function)
    own = pin.fuse.rating_a if pin.fuse else None
    return Use(carries, biggest_a if carries == "ground" else own)


def loom_plans(
    parts: JobParts, selection: Selection, turn_on: TurnOn, feeding: Sequence[Leg]
) -> dict[str, LoomPlan]:
    """Return the looms of a job by plug, with what is wanted of each.

    `feeding` are the cavities that the converter's supply and ground are taken from.
    """
    return {
        plug: LoomPlan(use, wanted_at(parts, selection, turn_on, plug, feeding))
        for plug, use in looms_of(parts).items()
    }


def wanted_at(
    parts: JobParts, selection: Selection, turn_on: TurnOn, plug: str, feeding: Sequence[Leg]
) -> dict[str, Wanted]:
    """Return what a job wants of each cavity of a plug."""
    broken = {tap.pair.channel: tap.pair for tap in selection.broken}
    driven = {channel for speaker in parts.job.speakers for channel in wires_of(speaker, broken)}
    found: dict[str, Wanted] = {}
    for tap in selection.touched:
        for leg in tap.pair.legs:
            if leg.plug.id == plug:
                found[leg.pin.cavity] = _of_tap(tap, driven=tap.pair.channel in driven)
    for leg in feeding:
        if leg.plug.id == plug:
            found.setdefault(leg.pin.cavity, Wanted(None, None, True))
    if turn_on.plug == plug and turn_on.cavity and turn_on.interface is None:
        found[turn_on.cavity] = Wanted(None, None, True)
    return found


def _of_tap(tap: Tap, *, driven: bool) -> Wanted:
    if tap.treatment != "intercept":
        return Wanted(None, None, True)
    return Wanted("cable" if tap.converter_input else "closed", "cable" if driven else "closed")
