"""The answer of the planner, as values. Pages, the command and JSON show exactly this.

Every number carries its unit in its name; every decision carries its reason and source.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.findings import DataPath
from builder.model.words import Channel, Function, GradeBand, Leg, Load, Quantity, State
from builder.planning.words import (
    LevelBasis,
    LevelVerdict,
    PlanKind,
    RungKind,
    RungVerdict,
    TappedAs,
    TurnOnKind,
)
from builder.proof.band import Band, Limits


@dataclass(frozen=True, slots=True)
class Reason:
    """Why the planner decided something. `source` is a published source or "common practice"."""

    decision: str
    because: str
    source: str


@dataclass(frozen=True, slots=True)
class Feed:
    """One converter terminal and the pin that feeds it."""

    converter_input: int
    leg: Leg
    plug: str
    cavity: str
    channel: Channel
    treatment: TappedAs
    wire: str  # "white/black", or "not recorded"
    grade: GradeBand  # of the pin
    path: DataPath
    pad_ohm_per_leg: float | None = None  # a resistor between the pin and the terminal


@dataclass(frozen=True, slots=True)
class Insulated:
    """An end that must be closed off, and why. `what` names the conductor for a person."""

    what: str
    plug: str | None
    cavity: str | None
    because: str


@dataclass(frozen=True, slots=True)
class Rung:
    """One step of the turn-on ladder, tried in order."""

    rung: int  # 1 is best; the numbering of the ladder
    kind: RungKind
    verdict: RungVerdict
    where: str  # "A.2", "F14", "pair front-left" or ""
    because: str


@dataclass(frozen=True, slots=True)
class TurnOn:
    """What switches the converter on. Exactly one of the places is set, or none for `none`."""

    rung: int | None
    kind: TurnOnKind
    plug: str | None
    cavity: str | None
    fuse_position: str | None
    pair: Channel | None
    draw_ma: float | None
    capacity_ma: float | None
    because: str
    path: DataPath | None = None  # of the pin or fuse position; None for a pair or nothing


@dataclass(frozen=True, slots=True)
class LevelCheck:
    """One source against the converter's input. Margins in dB; negative means it clips."""

    channel: Channel
    source_v_rms: float
    basis: LevelBasis
    square_wave_v: float | None  # hard-clipped worst case of an unboosted bridge
    converter_max_v_rms: float
    converter_margin_db: float
    verdict: LevelVerdict
    because: str
    pad_ohm_per_leg: float | None = None  # the margin is that behind it; None: straight in


@dataclass(frozen=True, slots=True)
class ProofReading:
    """A measurement that must pass before a joint is made (or that would settle a doubt)."""

    plug: str | None
    cavity: str | None
    fuse_position: str | None
    function: Function
    state: State
    against: str
    load: Load
    quantity: Quantity
    low: float | None  # None: no lower bound, or one that moves with the battery
    high: float | None  # None: no upper bound, or one that moves; for ohms, open
    how: str  # one line, as a person would be told
    settles: str  # what the answer decides
    safety: str  # caution for this reading, or ""
    low_from_battery_v: float | None = None  # lower bound less the battery's volts
    high_from_battery_v: float | None = None

    @property
    def band(self) -> Band:
        """What passes."""
        return Limits(self.low, self.high, self.low_from_battery_v, self.high_from_battery_v).band


@dataclass(frozen=True, slots=True)
class Plan:
    """A tap plan, a probe plan (what to measure first) or no plan (why not)."""

    kind: PlanKind
    vehicle: str
    converter: str
    purpose: str  # "add a subwoofer", "amplify the doors" ...
    grade: GradeBand  # of the weakest pin used
    because: tuple[Reason, ...]
    feeds: tuple[Feed, ...]
    insulate: tuple[Insulated, ...]
    turn_on: TurnOn
    ladder: tuple[Rung, ...]
    levels: tuple[LevelCheck, ...]
    tests: tuple[ProofReading, ...]
    losses: tuple[str, ...]
    refusals: tuple[Reason, ...]  # why this is not a tap plan; empty for one
    alternatives: tuple[Reason, ...] = ()  # other converters, each tried; empty for a tap plan

    @property
    def used_paths(self) -> tuple[DataPath, ...]:
        """Data paths of every pin the plan relies on."""
        paths = tuple(feed.path for feed in self.feeds)
        return paths if self.turn_on.path is None else (*paths, self.turn_on.path)
