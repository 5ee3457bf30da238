"""Details of a work pack: level ladders, gains, turn-on loads, hold-up, shortcomings."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.words import Channel
from builder.planning.words import FlagKind, LadderStage


@dataclass(frozen=True, slots=True)
class LevelRung:
    """One step of the level ladder: what is there, what it may be, how far it is from that."""

    name: LadderStage
    v_rms: float
    max_v_rms: float
    margin_db: float


@dataclass(frozen=True, slots=True)
class GainSetting:
    """One speaker's gain, in the order of setting; its figures stand in the chain of that name."""

    speaker: str
    channel: Channel  # the factory channel of the speaker
    amplifier: str
    amplifier_channel: int
    rungs: tuple[LevelRung, ...]


@dataclass(frozen=True, slots=True)
class TurnOnDraw:
    """What hangs on one turn-on output. Capacity and share are None when not recorded."""

    output: str  # "A.9", "F14", "remote output of CVN-6S"
    feeds: tuple[str, ...]
    draw_ma: float
    capacity_ma: float | None
    share: float | None


@dataclass(frozen=True, slots=True)
class HoldUpPart:
    """The capacitor that carries the turn-on over a restart, and the resistor that charges it."""

    needed_uf: float
    capacitor_uf: float
    charge_ohm: float
    held_s: float
    from_v: float
    threshold_v: float
    inrush_a: float
    where: str = ""  # the conductor it hangs on: "F14", "the turn-on output of CVN-2A"


@dataclass(frozen=True, slots=True)
class PackFlag:
    """A shortcoming of the job as values for a rule. `stops`: no plan is given while it stands.

    `value` and `limit` share `unit` and are None where there is nothing to compare.
    """

    kind: FlagKind
    where: str
    says: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    stops: bool = False
