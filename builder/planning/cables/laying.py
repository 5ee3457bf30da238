"""Jackets of a whole job: which cable of the shelf carries what, and along which route."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.model.house_defaults import HouseDefaults
from builder.model.job import Route
from builder.model.parts import Cable
from builder.planning.cables.allocation import Allocation, Jacket, allocate
from builder.planning.cables.checks import CableFlag, overload_flags, unplaced_flags, use_flags
from builder.planning.cables.job_demands import RoutedDemand
from builder.planning.power.conductors import Conductor, conductor_of, fuse_ceiling_a


@dataclass(frozen=True, slots=True)
class LaidJacket:
    """A jacket, the cable it is cut from and the route it takes."""

    jacket: Jacket
    cable: Cable
    route: Route


@dataclass(frozen=True, slots=True)
class Laying:
    """All jackets of a job, numbered through, and what is wrong with them."""

    jackets: tuple[LaidJacket, ...]
    flags: tuple[CableFlag, ...]

    @property
    def allocation(self) -> Allocation:
        """The same as one allocation, for labels and checks."""
        return Allocation(tuple(laid.jacket for laid in self.jackets), ())


def lay_cables(
    routed: Sequence[RoutedDemand], cables: Sequence[Cable], defaults: HouseDefaults
) -> Laying:
    """Return the jackets of all demands; cables are taken in the order in which they stand.

    Amplified pairs pass over a cable too thin for their music current where a thicker one is at
    hand, and have jackets of their own anyway.
    """
    amplified = [each for each in routed if each.demand.kind == "amplified"]
    others = [each for each in routed if each.demand.kind != "amplified"]
    strong = _strong_enough(amplified, cables, defaults) or list(cables)
    jackets: list[LaidJacket] = []
    flags: list[CableFlag] = []
    for group, stock in ((others, list(cables)), (amplified, strong)):
        laid, against = _lay(group, stock, defaults, len(jackets))
        jackets += laid
        flags += against
    done = Laying(tuple(jackets), ())
    return replace(done, flags=(*flags, *use_flags(done.allocation.uses)))


def _strong_enough(
    amplified: Sequence[RoutedDemand], cables: Sequence[Cable], defaults: HouseDefaults
) -> list[Cable]:
    most = max((each.demand.music_a_rms for each in amplified), default=0.0)
    sizes = _sizes(cables)
    return [
        cable
        for cable in cables
        if cable.id in sizes and cable.pairs and fuse_ceiling_a(sizes[cable.id], defaults) >= most
    ]


def _sizes(cables: Sequence[Cable]) -> dict[str, Conductor]:
    """The conductors of cables by id, where the size is recorded."""
    found = {cable.id: conductor_of(cable, cable.material) for cable in cables}
    return {name: conductor for name, conductor in found.items() if conductor is not None}


def _lay(
    group: Sequence[RoutedDemand], cables: Sequence[Cable], defaults: HouseDefaults, before: int
) -> tuple[list[LaidJacket], list[CableFlag]]:
    allocation = allocate([each.demand for each in group], cables)
    flags = [*unplaced_flags(allocation), *overload_flags(allocation, _sizes(cables), defaults)]
    stock = {cable.id: cable for cable in cables}
    laid = [
        LaidJacket(_renumber(jacket, before), stock[jacket.cable], _route_of(jacket, group))
        for jacket in allocation.jackets
    ]
    return laid, flags


def _renumber(jacket: Jacket, before: int) -> Jacket:
    number = jacket.number + before
    uses = tuple(replace(use, jacket=number) for use in jacket.uses)
    return replace(jacket, number=number, uses=uses)


def _route_of(jacket: Jacket, group: Sequence[RoutedDemand]) -> Route:
    """The longest route among what the jacket carries."""
    carried = {use.demand for use in jacket.uses if use.demand is not None}
    routes = [each.route for each in group if each.demand in carried]
    return max(routes, key=lambda route: route.length_m)
