"""One run of a supply: its fuse, the thinnest conductor that fuse and drop allow, the next."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import Conductor
from builder.planning.power.flags import PowerFlag, drop_flags, fuse_flags, metal_flags
from builder.planning.power.fuse_sizes import smallest_fuse_a
from builder.planning.power.voltage_drop import SupplyPath, path_drop_v
from builder.planning.words import PowerFlagKind
from builder.units import Amperes, Volts

_BARS: frozenset[PowerFlagKind] = frozenset(
    {"fuse_above_ceiling", "drop_above_limit", "no_fuse_fits"}
)
"""Flags that a thicker conductor may cure, so that a choice goes on."""


@dataclass(frozen=True, slots=True)
class Run:
    """One fused run out and back. `cumulative_drop_v` counts from the battery."""

    name: str
    current_a: Amperes
    fuse_a: Amperes | None  # None: no standard fuse is large enough
    conductor: str
    length_m: float  # out and return together
    drop_v: Volts
    cumulative_drop_v: Volts
    return_drop_v: Volts  # of `drop_v`, in the conductor back


@dataclass(frozen=True, slots=True)
class RunDemand:
    """What a run must carry. `on_board_a` is the total of the fuses behind it."""

    name: str
    current_a: Amperes
    on_board_a: Amperes
    out_m: float
    return_m: float
    joints: bool  # joints count once a path, on the run that starts at the battery

    @property
    def fuse_floor_a(self) -> Amperes:
        """The fuse must be at least this: what flows, and what is fused behind it. [A]"""
        return max(self.current_a, self.on_board_a)


@dataclass(frozen=True, slots=True)
class RunChoice:
    """A judged run, what was tried before it, and the next thicker one for comfort."""

    run: Run
    conductor: Conductor
    demand: RunDemand
    flags: tuple[PowerFlag, ...]
    tried: tuple[PowerFlag, ...] = ()
    thicker: Run | None = None

    @property
    def clear(self) -> bool:
        """Whether fuse and drop are both satisfied."""
        return not any(flag.kind in _BARS for flag in self.flags)


def judge_run(
    demand: RunDemand,
    conductor: Conductor,
    defaults: HouseDefaults,
    *,
    before_v: Volts = 0.0,
) -> RunChoice:
    """Return a run with a given conductor, under the smallest standard fuse from its floor up, and
    what is wrong with it.

    Args:
        demand: Current, fuses behind it, lengths.
        conductor: Out and return.
        defaults: House limits.
        before_v: Drop up to where the run begins. [V]
    Raises:
        ValueError: a current or length is not positive and finite, or the size is unknown.
    """
    fuse = smallest_fuse_a(demand.fuse_floor_a)
    path = SupplyPath(demand.out_m, demand.return_m, conductor, joints=demand.joints)
    drop = path_drop_v(path, demand.current_a, defaults)
    where, current = demand.name, demand.current_a
    back = path_drop_v(SupplyPath(0.0, demand.return_m, conductor, joints=False), current, defaults)
    run = Run(where, current, fuse, conductor.words, path.length_m, drop, before_v + drop, back)
    flags = (
        *fuse_flags(where, fuse, current, demand.on_board_a, conductor, defaults),
        *drop_flags(where, run.cumulative_drop_v, defaults),
        *metal_flags(where, conductor, defaults),
    )
    return RunChoice(run, conductor, demand, flags)


def choose_run(
    demand: RunDemand,
    candidates: Iterable[Conductor],
    defaults: HouseDefaults,
    *,
    before_v: Volts = 0.0,
) -> RunChoice:
    """Return the thinnest candidate that satisfies fuse and drop, and the next for comfort.

    `candidates` stand thinnest first. When none will do, the thickest is returned with its flags.

    Raises:
        ValueError: no candidates, or a current or length is not positive and finite.
    """
    judged: list[RunChoice] = []
    for conductor in candidates:
        next_one = judge_run(demand, conductor, defaults, before_v=before_v)
        if judged and judged[-1].clear:
            return _chosen(judged, next_one.run)
        judged.append(next_one)
    if not judged:
        raise ValueError("no conductor to choose from")
    return _chosen(judged, None)


def _chosen(judged: Sequence[RunChoice], thicker: Run | None) -> RunChoice:
    """The last of what was judged, with what was wrong with those before it."""
    *before, chosen = judged
    tried = tuple(flag for each in before for flag in each.flags if flag.kind in _BARS)
    return replace(chosen, tried=tried, thicker=thicker)
