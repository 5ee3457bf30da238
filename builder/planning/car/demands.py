"""What must be connected: each wire or pair of a job, its class and its ends."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.words import SPLIT_BANDS, Channel
from builder.planning.words import DemandKind
from builder.units import Amperes

KINDS: tuple[DemandKind, ...] = ("signal", "amplified", "supply", "control")
"""Classes in the order in which they are laid out."""

_PLACES: tuple[Channel, ...] = (
    "front-left", "front-right", "rear-left", "rear-right", "centre", "sub",
)  # fmt: skip
_ORDER: dict[Channel, tuple[int, int]] = {
    name: (i, j)
    for i, place in enumerate(_PLACES)
    for j, name in enumerate((place, *SPLIT_BANDS.get(place, ())))
}


@dataclass(frozen=True, slots=True)
class Demand:
    """One connection. Signal and amplified ones are pairs, control ones are single wires.

    Raises:
        ValueError: an unknown class, a split pair, or a paired control wire.
    """

    purpose: str
    from_end: str
    to_end: str
    kind: DemandKind
    pair: bool
    music_a_rms: Amperes = 0.0
    channel: Channel | None = None

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise ValueError(f"{self.purpose}: no class {self.kind!r}")
        if self.kind in ("signal", "amplified") and not self.pair:
            raise ValueError(f"{self.purpose}: both legs of a {self.kind} pair travel together")
        if self.kind == "control" and self.pair:
            raise ValueError(f"{self.purpose}: a control wire is a single")

    @property
    def ends(self) -> frozenset[str]:
        """The two places it joins; which way it runs does not matter to a jacket."""
        return frozenset((self.from_end, self.to_end))

    @property
    def conductors(self) -> int:
        """How many conductors it takes."""
        return 2 if self.pair else 1


def in_order(demands: Iterable[Demand]) -> tuple[Demand, ...]:
    """Return demands by class, pairs before singles, then by channel from front left on.

    The order in which they were given decides only between equals.
    """
    return tuple(
        sorted(demands, key=lambda d: (KINDS.index(d.kind), not d.pair, channel_order(d.channel)))
    )


def channel_order(channel: Channel | None) -> tuple[int, int]:
    """Return where a channel stands in a list: by place from front left on, then by band."""
    return _ORDER[channel] if channel else (len(_PLACES), 0)


@dataclass(frozen=True, slots=True)
class Count:
    """How much a list of demands asks for. Conductors are for the joints, not for the cable."""

    pairs: int
    singles: int
    conductors: int


def count_demands(demands: Iterable[Demand]) -> Count:
    """Return pairs, singles and conductors of a list of demands."""
    listed = tuple(demands)
    pairs = sum(demand.pair for demand in listed)
    return Count(pairs, len(listed) - pairs, sum(demand.conductors for demand in listed))
