"""The whole job as values: the tap plan, and everything that has to be known before the dash opens.

Pages, the command and JSON show exactly this. Every number carries its unit in its name.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.declaring import answer, figure, listed, part, text, word
from builder.model.book import Shelf
from builder.model.forms import ID
from builder.model.job import Job
from builder.model.parts import Amplifier, Cable, Converter
from builder.model.vehicle import Vehicle
from builder.planning.circuit.bench import Sound
from builder.planning.circuit.model import Circuit
from builder.planning.harness.rows import LoomSheet
from builder.planning.pack_details import (
    GainSetting,
    HoldUpPart,
    LevelChain,
    PackFlag,
    PowerSheet,
    TurnOnDraw,
)
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
from builder.planning.tune_sheet import TuneRow
from builder.planning.words import (
    Phase,
    PlanKind,
    TestQuantity,
    TestState,
    TestUnit,
    Turn,
)
from builder.proof.band import Band, Limits


@answer
class BayTest:
    """One line of the bay sheet.

    `id` says what is measured (`a-7-acc`, `sub-amp-ground-rise`) and stays the same whatever else
    is on the sheet; results are filed under it. `number` runs from 1 down the sheet, for the eye.
    A limit that moves with the battery stands in `low_from_battery_v` or `high_from_battery_v`
    instead of `low` or `high`.
    """

    id: str = text(
        "What is measured, in short; results are filed under it. It stays the same whatever "
        "else is on the sheet.", form=ID,
    )  # fmt: skip
    phase: Phase = word("When.")
    what: str = text("What is measured or looked at.")
    state: TestState = word("The state the car is in.")
    quantity: TestQuantity = word("What is read; check is yes or no.")
    low: float | None = figure("The least that passes, in `unit`.", "")
    high: float | None = figure("The most that passes, in `unit`.", "")
    unit: TestUnit = word("The unit of the band.")
    why: str = text("What it is for.")
    reading: ProofReading | None
    number: int = figure(
        "Its place on the sheet from the top, for the eye: another edit moves it.",
        "", least=1, default=0,
    )  # fmt: skip
    low_from_battery_v: float | None = figure(
        "The least that passes, as what is added to the battery's volts read beside it; `low` "
        "is null then.", "V", default=None,
    )  # fmt: skip
    high_from_battery_v: float | None = figure(
        "The most that passes, as what is added to the battery's volts read beside it; `high` "
        "is null then.", "V", default=None,
    )  # fmt: skip
    high_mohm: float | None = figure(
        "The most that passes, as the volts read divided by the amperes read beside them; `high` "
        "judges a figure without amperes.", "mΩ", above=0, default=None,
    )  # fmt: skip
    expected_mohm: float | None = figure(
        "What was worked out for it.", "mΩ", least=0, default=None,
    )  # fmt: skip
    at_a: float | None = figure(
        "The amperes that flow on average in its state.", "A", above=0, default=None,
    )  # fmt: skip
    since: str = text(
        "The day from which sheets have this line, as YYYY-MM-DD, or empty for always: a car that "
        "was closed before is not asked for it.", default="",
    )  # fmt: skip
    probes: tuple[str, ...] = listed(
        "The terminals of the circuit that it looks at, two by two; empty where it looks at "
        "something else.", default=(),
    )  # fmt: skip
    turn: Turn = word("When in the order of the work it is its turn.", default="as_found")

    @property
    def band_by_current(self) -> Band | None:
        """What passes, in volts over the amperes read beside them; None for any other line."""
        return None if self.high_mohm is None else Band(None, (self.high_mohm / 1000, 0.0))

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


@answer
class WorkPack:
    """The plan of a whole job. `kind` is tap_plan, probe_plan or no_plan, as for `Plan`."""

    job: str = text("The job's id.")
    kind: PlanKind = word("A plan to build from, a list of what to measure first, or none and why.")
    plan: Plan
    treatments: tuple[Reason, ...] = listed("What is done with each factory channel, and why.")
    levels: tuple[LevelChain, ...] = listed("One entry a source.")
    power: PowerSheet | None = part(
        description="The supply of everything added; null when a length is not measured.",
    )  # fmt: skip
    conductors: tuple[ConductorRow, ...] = listed("Every conductor of every piece.")
    cut_list: tuple[CutRow, ...] = listed("What to cut.")
    labels: tuple[Label, ...] = listed("What to label.")
    speaker_leads: tuple[SpeakerLead, ...] = listed("The wires to the speakers.")
    insulate: tuple[Insulated, ...] = listed(
        "Every end to close off; empty unless it is a tap plan.",
    )  # fmt: skip
    tests: tuple[BayTest, ...] = listed("The bay sheet.")
    steps: tuple[Step, ...] = listed("The work in order.")
    revert: tuple[str, ...] = listed("What brings the car back to stock.")
    customer: tuple[str, ...] = listed("What the customer is told.")
    parts: tuple[PartLine, ...] = listed("The parts list.")
    losses: tuple[str, ...] = listed("What the customer loses.")
    alternatives: tuple[Reason, ...] = listed("What else would do.")
    because: tuple[Reason, ...] = listed("Why it is planned like this.")
    refusals: tuple[Reason, ...] = listed("Why it is no tap plan; empty for one.")
    turn_on_draws: tuple[TurnOnDraw, ...] = listed(
        "What each turn-on output has to give.", default=(),
    )  # fmt: skip
    hold_up: HoldUpPart | None = part(
        description="What carries the turn-on over a restart, or null.", default=None,
    )  # fmt: skip
    gains: tuple[GainSetting, ...] = listed(
        "One entry a speaker, in the order of setting; empty unless it is a tap plan.", default=(),
    )  # fmt: skip
    tune: tuple[TuneRow, ...] = listed(
        "What each channel starts with; empty unless it is a tap plan.", default=(),
    )  # fmt: skip
    flags: tuple[PackFlag, ...] = listed("Shortcomings as values.", default=())
    assumed: tuple[Reason, ...] = listed(
        "What nobody gave and the sketch of a job took; empty for a job that is written down.",
        default=(),
    )  # fmt: skip
    wiring: tuple[WiringRow, ...] = listed("Every link, end to end.", default=())
    joints: tuple[JointRow, ...] = listed("Every joint that the job makes.", default=())
    looms: tuple[LoomSheet, ...] = listed(
        "The bench sheet of each loom; empty without one.", default=(),
    )  # fmt: skip
    circuit: Circuit | None = part(
        description="The finished job as a circuit, of which every sheet is a view; null unless it "
        "is a tap plan.", default=None,
    )  # fmt: skip
    sound: Sound | None = None  # how sound runs through the devices of that circuit
    besides_tone: str = ""  # what is heard beside a tone, and where the fader stands for it
