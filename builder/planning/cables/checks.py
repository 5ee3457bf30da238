"""What can be wrong with conductors in use: mixed, split, doubled, overloaded, too few."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.allocation import Allocation, ConductorUse
from builder.planning.cables.piece_names import CLASS_NAMES, cable_name
from builder.planning.car.demands import count_demands
from builder.planning.power.conductors import Conductor, fuse_ceiling_a
from builder.planning.words import CableFlagKind, DemandKind
from builder.units import Amperes


@dataclass(frozen=True, slots=True)
class CableFlag:
    """One shortcoming.

    Kinds: no_conductor_fits | classes_mixed | pair_split | conductor_twice |
    conductor_overloaded
    """

    kind: CableFlagKind
    where: str
    says: str


def unplaced_flags(allocation: Allocation) -> list[CableFlag]:
    """Return the flag of demands that found no conductor, counted in pairs and singles."""
    if not allocation.unplaced:
        return []
    left = count_demands(allocation.unplaced)
    names = ", ".join(demand.purpose for demand in allocation.unplaced)
    says = f"{left.pairs} pairs and {left.singles} singles find no core: {names}"
    return [CableFlag("no_conductor_fits", names, f"{says}; the stock has none of the kind")]


def use_flags(uses: Iterable[ConductorUse]) -> list[CableFlag]:
    """Return what is wrong with a layout, ours or a job's own: mixed, split, used twice."""
    listed = tuple(uses)
    return [*_mixed(listed), *_split(listed), *_twice(listed)]


def _mixed(uses: tuple[ConductorUse, ...]) -> list[CableFlag]:
    kinds: dict[int, set[DemandKind]] = defaultdict(set)
    for use in uses:
        if use.demand is not None:
            kinds[use.jacket].add(use.demand.kind)
    return [
        CableFlag("classes_mixed", cable_name(number), f"{' and '.join(sorted(found))} together")
        for number, found in sorted(kinds.items())
        if len(found) > 1 and found not in ({"signal", "control"}, {"supply", "control"})
    ]


def _split(uses: tuple[ConductorUse, ...]) -> list[CableFlag]:
    homes: dict[str, set[str]] = defaultdict(set)
    for use in uses:
        if use.demand is not None and use.demand.pair:
            pair = use.place.rsplit(" ", 1)[0]
            homes[_name(use)].add(f"{pair} of {cable_name(use.jacket)}")
    return [
        CableFlag("pair_split", name, f"its legs lie in {' and '.join(sorted(found))}")
        for name, found in homes.items()
        if len(found) > 1
    ]


def _name(use: ConductorUse) -> str:
    demand = use.demand
    assert demand is not None
    return f"{demand.purpose}, {CLASS_NAMES[demand.kind]}, {demand.from_end} to {demand.to_end}"


def _twice(uses: tuple[ConductorUse, ...]) -> list[CableFlag]:
    seen: set[tuple[int, str]] = set()
    found = []
    for use in uses:
        where = f"{use.place} of {cable_name(use.jacket)}"
        if (use.jacket, use.place) in seen:
            found.append(CableFlag("conductor_twice", where, "listed twice"))
        seen.add((use.jacket, use.place))
    return found


def overload_flags(
    allocation: Allocation, conductors: Mapping[str, Conductor], defaults: HouseDefaults
) -> list[CableFlag]:
    """Return the conductors whose music current is above what their size may carry. [A RMS]

    `conductors` gives the size by cable id; a cable whose size is not recorded is left out.

    Raises:
        ValueError: a size is unknown.
    """
    return [
        _overload(use, conductor, ceiling)
        for jacket in allocation.jackets
        if (conductor := conductors.get(jacket.cable)) is not None
        if (ceiling := fuse_ceiling_a(conductor, defaults))
        for use in jacket.uses
        if use.demand is not None and use.demand.music_a_rms > ceiling
    ]


def _overload(use: ConductorUse, conductor: Conductor, ceiling: Amperes) -> CableFlag:
    assert use.demand is not None
    says = (
        f"{use.demand.purpose} takes {shown(use.demand.music_a_rms, 1, beside=ceiling)} A of "
        "music, "
        f"{conductor.words} carries {shown(ceiling, beside=use.demand.music_a_rms)} A"
    )
    where = f"{use.place} of {cable_name(use.jacket)}"
    return CableFlag("conductor_overloaded", where, says)
