"""Which conductor of which jacket does what: pairs whole, classes apart, every spare named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from builder.model.parts import Cable
from builder.model.wire import Wire
from builder.planning.car.demands import Demand, in_order
from builder.planning.words import DemandKind

_HOSTS: dict[DemandKind, tuple[DemandKind, ...]] = {
    "signal": ("signal",),
    "amplified": ("amplified",),
    "supply": ("supply",),
    "control": ("signal", "supply", "control"),
}
"""In which jackets a demand may lie, best first. A control wire never rides with amplified ones."""


@dataclass(frozen=True, slots=True)
class ConductorUse:
    """One conductor of one jacket. `demand` is None for a spare."""

    jacket: int  # from 1
    place: str  # "pair 1 positive", "single 1"
    wire: Wire
    demand: Demand | None

    @property
    def colours(self) -> str:
        """The wire's colours as printed: "brown/black"."""
        return f"{self.wire.base}/{self.wire.stripe}" if self.wire.stripe else self.wire.base


@dataclass(frozen=True, slots=True)
class Jacket:
    """One length of cable with every conductor accounted for."""

    number: int
    cable: str  # id
    kind: DemandKind
    from_end: str
    to_end: str
    uses: tuple[ConductorUse, ...]

    @property
    def spare(self) -> tuple[ConductorUse, ...]:
        """The conductors that carry nothing, in the order of the cable's record."""
        return tuple(use for use in self.uses if use.demand is None)


@dataclass(frozen=True, slots=True)
class Allocation:
    """All jackets of a route. `unplaced` is what no conductor of the stock fits."""

    jackets: tuple[Jacket, ...]
    unplaced: tuple[Demand, ...]

    @property
    def uses(self) -> tuple[ConductorUse, ...]:
        """Every conductor of every jacket."""
        return tuple(use for jacket in self.jackets for use in jacket.uses)


@dataclass(slots=True)
class _Open:
    """A jacket while it is being filled."""

    kind: DemandKind
    first: Demand
    cable: Cable
    placed: dict[str, Demand] = field(default_factory=dict)
    pairs_used: int = 0
    singles_used: int = 0

    def accepts(self, demand: Demand) -> bool:
        if self.cable.use == "power" and demand.kind != "supply":
            return False
        used, there = self.singles_used, len(self.cable.singles)
        if demand.pair:
            used, there = self.pairs_used, len(self.cable.pairs)
        return used < there and demand.ends == self.first.ends

    def take(self, demand: Demand) -> None:
        if demand.pair:
            self.pairs_used += 1
            self.placed[f"pair {self.pairs_used} positive"] = demand
            self.placed[f"pair {self.pairs_used} negative"] = demand
        else:
            self.singles_used += 1
            self.placed[f"single {self.singles_used}"] = demand


def allocate(demands: Iterable[Demand], cables: Sequence[Cable]) -> Allocation:
    """Return which conductor does what, with as many jackets of the stock as it takes.

    Pairs are counted, not conductors: two conductors of different pairs never make a pair. A
    jacket holds one class between the same two ends; control wires ride with signal or supply. A
    single heavy conductor carries supply only.

    Args:
        demands: What must be connected, in any order.
        cables: The stock in the order in which it is taken; its records say what is a pair.
    """
    jackets: list[_Open] = []
    left = []
    for demand in in_order(demands):
        host = _host(jackets, demand) or _open(jackets, demand, cables)
        if host is None:
            left.append(demand)
        else:
            host.take(demand)
    closed = tuple(_close(number, jacket) for number, jacket in enumerate(jackets, 1))
    return Allocation(closed, tuple(left))


def _host(jackets: list[_Open], demand: Demand) -> _Open | None:
    fitting = (
        jacket
        for kind in _HOSTS[demand.kind]
        for jacket in jackets
        if jacket.kind == kind and jacket.accepts(demand)
    )
    return next(fitting, None)


def _open(jackets: list[_Open], demand: Demand, cables: Sequence[Cable]) -> _Open | None:
    opened = (_Open(demand.kind, demand, cable) for cable in cables)
    fitting = next((one for one in opened if one.accepts(demand)), None)
    jackets += [fitting] if fitting else []
    return fitting


def _close(number: int, jacket: _Open) -> Jacket:
    uses = tuple(
        ConductorUse(number, place, wire, jacket.placed.get(place))
        for place, wire in conductors_of_cable(jacket.cable)
    )
    first = jacket.first
    return Jacket(number, jacket.cable.id, jacket.kind, first.from_end, first.to_end, uses)


def conductors_of_cable(cable: Cable) -> tuple[tuple[str, Wire], ...]:
    """Return (place, wire) of every conductor: pairs in the order of the record, then singles."""
    paired = (
        (f"pair {number} {leg}", wire)
        for number, pair in enumerate(cable.pairs, 1)
        for leg, wire in (("positive", pair.positive), ("negative", pair.negative))
    )
    singles = ((f"single {number}", wire) for number, wire in enumerate(cable.singles, 1))
    return (*paired, *singles)
