"""The single wires of a loom, and what can be touched of each with a probe."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from builder.findings import DataPath
from builder.model.parts import Loom
from builder.model.parts.loom_wires import LoomCarries, LoomWire, Point
from builder.model.wire import Wire

CABLE: Final = "(cable)"
"""The place of a cable's far end: no loom calls anything so."""


class Terminal(NamedTuple):
    """A point of a loom: a cavity of a plug of it, a bare end of one wire, or a splice.

    A bare end is known by what its wire comes from (`of`), since a branch may hold several.
    """

    place: str
    cavity: str = ""
    of: str = ""

    @property
    def shown(self) -> str:
        """As a person names it: "radio end.11", "branch 1 (from car end.1)"."""
        if self.place == CABLE:
            return f"the cable from {self.of}"
        name = f"{self.place}.{self.cavity}" if self.cavity else self.place
        return f"{name} (from {self.of})" if self.of else name

    @property
    def by_number(self) -> tuple[int, str]:
        """What cavities are put in order by: their numbers, then those with letters."""
        return (int(self.cavity), "") if self.cavity.isdigit() else (200, self.cavity)

    @property
    def is_splice(self) -> bool:
        """Whether it lies under the tape, where no probe reaches."""
        return not self.cavity and not self.of


class Conductor(NamedTuple):
    """One wire from end to end. `path` is where the record says it; `through` one of several."""

    start: Terminal
    to: Terminal
    wire: Wire | None
    carries: LoomCarries | None
    fuse_a: float | None
    path: DataPath
    through: bool = False

    def other(self, end: Terminal) -> Terminal:
        """The end that is not this one."""
        return self.to if end == self.start else self.start


def conductors(loom: Loom) -> tuple[Conductor, ...]:
    """Return every single wire of a loom, those of a `through` one by one, in their order."""
    return tuple(one for at, wire in enumerate(loom.wires) for one in _of(loom, wire, at))


def _of(loom: Loom, wire: LoomWire, at: int) -> Iterator[Conductor]:
    said = (wire.wire, wire.carries, wire.fuse_a)
    for number, cavity in enumerate(wire.through):
        first, second = (Terminal(end.name, cavity) for end in loom.ends[:2])
        yield Conductor(first, second, *said, ("wires", at, "through", number), True)
    if wire.start is not None and wire.to is not None:
        bare = {branch.name for branch in loom.branches if branch.housing is None}
        start, to = (
            _terminal(point, other, bare)
            for point, other in ((wire.start, wire.to), (wire.to, wire.start))
        )
        yield Conductor(start, to, *said, ("wires", at))


def _terminal(point: Point, other: Point, bare: set[str]) -> Terminal:
    of = other.shown if point.place in bare and not point.cavity else ""
    return Terminal(point.place, point.cavity, of)


def at_cavity(loom: Loom, end: str, cavity: str) -> tuple[Conductor, ...]:
    """Return what sits in a cavity of an end or branch: one wire, none, or two in one crimp."""
    here = Terminal(end, cavity)
    return tuple(each for each in conductors(loom) if here in (each.start, each.to))


def leading_to(loom: Loom, branch: str) -> tuple[Conductor, ...]:
    """Return the wires that end in a branch, bare or in its plug."""
    return tuple(each for each in conductors(loom) if branch in (each.start.place, each.to.place))


def length_m(loom: Loom, conductor: Conductor) -> float | None:
    """How long a wire is [m]; None when it is not recorded.

    From where its one end lies along the bundle to where its other does, and along the branch that
    it leaves by. Where nobody recorded where a branch leaves, the wire is as long as the branch.
    """
    lies = [_along_m(loom, point) for point in (conductor.start, conductor.to)]
    places = {conductor.start.place, conductor.to.place}
    branches = [each for each in loom.branches if each.name in places]
    if any(each.length_m is None for each in branches):
        return None
    out = sum(each.length_m or 0.0 for each in branches)
    ends = {end.name for end in loom.ends}
    if None not in lies and not places <= ends:
        return round(out + abs((lies[0] or 0.0) - (lies[1] or 0.0)), 3) or None
    if conductor.start.is_splice or conductor.to.is_splice:
        return None
    return out if branches else loom.length_m


def _along_m(loom: Loom, point: Terminal) -> float | None:
    """How far along the bundle a point lies from the first end [m]."""
    if point.place == loom.ends[0].name:
        return 0.0
    if point.place in {end.name for end in loom.ends}:
        return loom.length_m
    return loom.lies_m.get(point.place)
