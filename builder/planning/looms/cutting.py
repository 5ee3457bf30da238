"""Wires of a loom that are cut, and what becomes of their halves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from builder.model.parts import Loom
from builder.model.parts.loom_wires import Point
from builder.planning.looms.conductors import CABLE, Conductor, Terminal, at_cavity, conductors

Half = Literal["cable", "closed"]
"""What becomes of half a wire: joined to a cable, whose far end is then a point of the loom, or cut
back and closed off."""


class Cut(NamedTuple):
    """A wire cut in two. `at` is one of its cavities; `near` is the half on that side."""

    at: Point
    near: Half
    far: Half


class Harness(NamedTuple):
    """A loom as it will be: its wires, and the points whose wire was closed off."""

    wires: tuple[Conductor, ...]
    stubs: tuple[Terminal, ...]


def cut_loom(loom: Loom, cuts: Sequence[Cut], taps: Sequence[Point] = ()) -> Harness:
    """Return a loom with wires cut; every other wire stays as it is.

    A tap joins a cable beside the wire in a cavity: its far end is another point of that net.

    Raises:
        ValueError: a cut names a cavity in which no wire sits, or that several share.
    """
    at = {_cut_wire(loom, cut): cut for cut in cuts}
    kept: list[Conductor] = []
    stubs: list[Terminal] = []
    for wire in conductors(loom):
        for half in _halves(wire, at[wire]) if wire in at else [wire]:
            (kept if isinstance(half, Conductor) else stubs).append(half)  # type: ignore[arg-type]
    kept += (_cable_beside(loom, Terminal(*tap)) for tap in taps)
    return Harness(tuple(kept), tuple(stubs))


def _cut_wire(loom: Loom, cut: Cut) -> Conductor:
    found = at_cavity(loom, *cut.at)
    if len(found) != 1:
        raise ValueError(f"{len(found)} wires sit in {cut.at.shown}: which is cut?")
    return found[0]


def _halves(wire: Conductor, cut: Cut) -> Iterator[Conductor | Terminal]:
    near = Terminal(*cut.at)
    for end, becomes in ((near, cut.near), (wire.other(near), cut.far)):
        if becomes == "cable":
            yield wire._replace(start=end, to=Terminal(CABLE, "", end.shown), through=False)
        elif end.cavity:
            yield end


def _cable_beside(loom: Loom, spot: Terminal) -> Conductor:
    wire = at_cavity(loom, spot.place, spot.cavity)[0]
    return wire._replace(start=spot, to=Terminal(CABLE, "", spot.shown), through=False)
