"""Which conductor of which jacket does what: pairs whole, classes apart, every spare named."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from builder.model.parts import Cable
from builder.model.plugs import Wire
from builder.planning.demands import Demand, in_order
from builder.planning.plan import Insulated

_HOSTS = {
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
    kind: str  # signal | amplified | supply | control
    from_end: str
    to_end: str
    uses: tuple[ConductorUse, ...]

    @property
    def spare(self) -> tuple[ConductorUse, ...]:
        """The conductors that carry nothing, in the order of the cable's record."""
        return tuple(use for use in self.uses if use.demand is None)


@dataclass(frozen=True, slots=True)
class Allocation:
    """All jackets of a route. `unplaced` is empty unless fewer are at hand than needed."""

    jackets: tuple[Jacket, ...]
    unplaced: tuple[Demand, ...]
    needed: int | None  # jackets that would hold everything; None: this cable never can
    at_hand: int | None  # None: as many as needed

    @property
    def uses(self) -> tuple[ConductorUse, ...]:
        """Every conductor of every jacket."""
        return tuple(use for jacket in self.jackets for use in jacket.uses)

    @property
    def short(self) -> bool:
        """Whether something found no conductor."""
        return bool(self.unplaced)


@dataclass(slots=True)
class _Open:
    """A jacket while it is being filled."""

    kind: str
    first: Demand
    pairs: int
    singles: int
    placed: dict[str, Demand] = field(default_factory=dict)
    pairs_used: int = 0
    singles_used: int = 0

    def accepts(self, demand: Demand) -> bool:
        room = self.pairs_used < self.pairs if demand.pair else self.singles_used < self.singles
        return room and demand.ends == self.first.ends

    def take(self, demand: Demand) -> None:
        if demand.pair:
            self.pairs_used += 1
            self.placed[f"pair {self.pairs_used} positive"] = demand
            self.placed[f"pair {self.pairs_used} negative"] = demand
        else:
            self.singles_used += 1
            self.placed[f"single {self.singles_used}"] = demand


def allocate(demands: Iterable[Demand], cable: Cable, at_hand: int | None = None) -> Allocation:
    """Return which conductor does what, with as many jackets of one cable as it takes.

    Pairs are counted, not conductors: two conductors of different pairs never make a pair. A
    jacket holds one class between the same two ends; control wires ride with signal or supply.

    Args:
        demands: What must be connected, in any order.
        cable: The stock; its record says which conductors are pairs.
        at_hand: Jackets that there are. None: as many as needed.
    Raises:
        ValueError: `at_hand` is negative.
    """
    if at_hand is not None and at_hand < 0:
        raise ValueError(f"{at_hand} jackets cannot be at hand")
    ordered = in_order(demands)
    full, never = _pack(ordered, cable, None)
    needed = None if never else len(full)
    if at_hand is None or len(full) <= at_hand:
        return _allocation(full, never, cable, needed, at_hand)
    some, left = _pack(ordered, cable, at_hand)
    return _allocation(some, left, cable, needed, at_hand)


def _pack(
    ordered: tuple[Demand, ...], cable: Cable, most: int | None
) -> tuple[list[_Open], tuple[Demand, ...]]:
    jackets: list[_Open] = []
    left = []
    for demand in ordered:
        host = _host(jackets, demand)
        if host is None and (most is None or len(jackets) < most):
            host = _open(jackets, demand, cable)
        if host is None:
            left.append(demand)
        else:
            host.take(demand)
    return jackets, tuple(left)


def _host(jackets: list[_Open], demand: Demand) -> _Open | None:
    fitting = (
        jacket
        for kind in _HOSTS[demand.kind]
        for jacket in jackets
        if jacket.kind == kind and jacket.accepts(demand)
    )
    return next(fitting, None)


def _open(jackets: list[_Open], demand: Demand, cable: Cable) -> _Open | None:
    opened = _Open(demand.kind, demand, len(cable.pairs), len(cable.singles))
    if not opened.accepts(demand):
        return None
    jackets.append(opened)
    return opened


def _allocation(
    jackets: list[_Open],
    unplaced: tuple[Demand, ...],
    cable: Cable,
    needed: int | None,
    at_hand: int | None,
) -> Allocation:
    closed = tuple(_close(number, jacket, cable) for number, jacket in enumerate(jackets, 1))
    return Allocation(closed, unplaced, needed, at_hand)


def _close(number: int, jacket: _Open, cable: Cable) -> Jacket:
    uses = tuple(
        ConductorUse(number, place, wire, jacket.placed.get(place))
        for place, wire in conductors_of_cable(cable)
    )
    first = jacket.first
    return Jacket(number, cable.id, jacket.kind, first.from_end, first.to_end, uses)


def conductors_of_cable(cable: Cable) -> tuple[tuple[str, Wire], ...]:
    """Return (place, wire) of every conductor: pairs in the order of the record, then singles."""
    paired = (
        (f"pair {number} {leg}", wire)
        for number, pair in enumerate(cable.pairs, 1)
        for leg, wire in (("positive", pair.positive), ("negative", pair.negative))
    )
    singles = ((f"single {number}", wire) for number, wire in enumerate(cable.singles, 1))
    return (*paired, *singles)


def spare_ends(allocation: Allocation) -> tuple[Insulated, ...]:
    """Return both ends of every spare conductor, each to be closed off by itself."""
    because = "carries nothing; insulate it alone, never twisted together with another"
    return tuple(
        Insulated(
            f"{use.colours} ({use.place}) of jacket {jacket.number}, {end} end",
            None,
            None,
            because,
        )
        for jacket in allocation.jackets
        for use in jacket.spare
        for end in (jacket.from_end, jacket.to_end)
    )
