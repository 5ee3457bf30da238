"""The whole job as values: the tap plan, and everything that has to be known before the dash opens.

Pages, the command and JSON show exactly this. Every number carries its unit in its name.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.parts import Amplifier, Cable, Converter
from builder.model.vehicle import Vehicle
from builder.model.words import Channel, FuseShape
from builder.planning.circuit.model import Circuit
from builder.planning.pack_details import GainSetting, HoldUpPart, PackFlag, TurnOnDraw
from builder.planning.plan import Insulated, Plan, ProofReading, Reason
from builder.planning.sheet_rows import (
    ConductorRow,
    CutRow,
    JointRow,
    Label,
    PartLine,
    SpeakerLead,
    Step,
    WiringRow,
)
from builder.planning.words import (
    Correction,
    LevelBasis,
    LimitedBy,
    Phase,
    PlanKind,
    TestQuantity,
    TestState,
    TestUnit,
)
from builder.proof.band import Band, Limits


@dataclass(frozen=True, slots=True)
class LevelChain:
    """One speaker's sound from radio to amplifier, with margins. None where not worked out."""

    speaker: str
    channels: tuple[Channel, ...]
    source_v_rms: float
    source_basis: LevelBasis
    pad_ohm_per_leg: float | None
    converter_margin_db: float
    sources_summed: int  # 2 when two full-range sources are joined, else 1
    converter_target_v_rms: float | None
    converter_gain: float | None
    gain_min: float
    gain_max: float
    amplifier_min_v_rms: float
    amplifier_max_v_rms: float
    set_v_rms: float  # at the speaker: what the gain is set to
    set_w: float
    limited_by: LimitedBy
    tone_hz: str  # "40 to 50", "1000"
    tone_v_rms: float  # what the meter should read with the tone stated in `tone_note`
    tone_note: str
    because: str
    load_ohm: float | None = None  # what the amplifier channel sees
    tone_low_hz: float | None = None
    tone_high_hz: float | None = None
    # A subwoofer whose pair has a bass table; None and "unknown" where nobody measured it.
    tone_source_v_rms: float | None = None  # what the pair itself gives at the tone
    bass_db: float | None = None  # that against 200 Hz at the volume step used
    correction: Correction = "unknown"  # the converter's, as it will be used
    correction_off_line_v_rms: float | None = None  # what the line reads with it off
    correction_off_tone_v_rms: float | None = None  # what the gain's meter reads with it off


@dataclass(frozen=True, slots=True)
class SupplyRun:
    """One supply conductor: trunk, ground return or branch."""

    name: str
    current_a: float
    fuse_a: float | None
    conductor: str  # "4 AWG copper"
    length_m: float  # out and return together
    drop_v: float
    cumulative_drop_v: float
    next_thicker: str | None
    next_thicker_drop_v: float | None


@dataclass(frozen=True, slots=True)
class PowerSheet:
    """The supply of everything added."""

    full_current_a: float
    music_current_a: float
    main_fuse_a: float | None
    fuse_family: FuseShape
    fuse_to_battery_m: float | None
    reserve_a: float | None  # what the car can spare at the worst speed recorded
    listening_h: float | None
    parked_days: float | None
    latch_ah_per_day: float | None
    runs: tuple[SupplyRun, ...]
    because: tuple[Reason, ...]
    reserve_spare_a: float | None = None  # reserve less music current; negative is a shortage
    supply_dip_v: float | None = None  # lowest the supply was read at while the engine restarts


@dataclass(frozen=True, slots=True)
class BayTest:
    """One line of the bay sheet.

    `id` says what is measured (`a-7-acc`, `sub-amp-ground-rise`) and stays the same whatever else
    is on the sheet; results are filed under it. `number` runs from 1 down the sheet, for the eye.
    A limit that moves with the battery stands in `low_from_battery_v` or `high_from_battery_v`
    instead of `low` or `high`.
    """

    id: str
    phase: Phase
    what: str
    state: TestState
    quantity: TestQuantity
    low: float | None
    high: float | None
    unit: TestUnit
    why: str
    reading: ProofReading | None
    number: int = 0
    low_from_battery_v: float | None = None
    high_from_battery_v: float | None = None

    @property
    def band(self) -> Band:
        """What passes."""
        return Limits(self.low, self.high, self.low_from_battery_v, self.high_from_battery_v).band


@dataclass(frozen=True, slots=True)
class JobParts:
    """A job with every record it names; what `make_pack` works from. Cables in shelf order."""

    job: Job
    vehicle: Vehicle
    converter: Converter
    amplifiers: dict[str, Amplifier]  # by the name the job gives them
    cables: tuple[Cable, ...]
    shelf: Shelf  # for alternatives: what else of the book would do


@dataclass(frozen=True, slots=True)
class WorkPack:
    """The plan of a whole job. `kind` is tap_plan, probe_plan or no_plan, as for `Plan`."""

    job: str
    kind: PlanKind
    plan: Plan
    treatments: tuple[Reason, ...]  # one a factory channel: add-on, intercept, none, and why
    levels: tuple[LevelChain, ...]
    power: PowerSheet | None
    conductors: tuple[ConductorRow, ...]
    cut_list: tuple[CutRow, ...]
    labels: tuple[Label, ...]
    speaker_leads: tuple[SpeakerLead, ...]
    insulate: tuple[Insulated, ...]
    tests: tuple[BayTest, ...]
    steps: tuple[Step, ...]
    revert: tuple[str, ...]
    customer: tuple[str, ...]
    parts: tuple[PartLine, ...]
    losses: tuple[str, ...]
    alternatives: tuple[Reason, ...]
    because: tuple[Reason, ...]
    refusals: tuple[Reason, ...]
    turn_on_draws: tuple[TurnOnDraw, ...] = ()
    hold_up: HoldUpPart | None = None
    gains: tuple[GainSetting, ...] = ()
    flags: tuple[PackFlag, ...] = ()
    assumed: tuple[Reason, ...] = ()  # what nobody gave; empty for a job that somebody wrote
    wiring: tuple[WiringRow, ...] = ()
    joints: tuple[JointRow, ...] = ()
    circuit: Circuit | None = None  # every joint and conductor of it; None unless a tap plan
