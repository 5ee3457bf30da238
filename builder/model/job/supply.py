"""The supply of what is added, and what else its turn-on lead switches."""

from __future__ import annotations

from builder.declaring import figure, given, listed, part, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import LINE, SIZE_AWG, SIZE_MM2, TRI, YES_NO, is_yes
from builder.model.job.batteries import CarBattery, SecondBattery
from builder.model.words import FuseShape, GroundPoint, Listening, Material, Tri


@record
class JobBranch:
    """The branch to one amplifier."""

    amplifier: str = text("The name this job gives the amplifier.", "amp 1", form=LINE)
    out_m: float = figure(
        "From the block to the amplifier, in metres.", "m", None, least=0, most=30,
        label="out",
    )  # fmt: skip
    return_m: float = figure(
        "Ground from the amplifier to the common ground, in metres.", "m", None, least=0, most=30,
        label="return",
    )  # fmt: skip


@record
class Distribution:
    """A distribution block: one branch for each amplifier."""

    branches: tuple[JobBranch, ...] = listed(
        "The branches.", [{"amplifier": "amp 1", "out_m": None, "return_m": None}], least=1,
        most=16,
    )  # fmt: skip


@record
class Strap:
    """What was read across the car's own ground straps; the worse of body and engine counts."""

    drop_mv: float = figure(
        "Battery negative to the ground point, in millivolts, while the current flows.", "mV", None,
        least=0, most=5000,
    )  # fmt: skip
    at_a: float = figure(
        "The current that flowed meanwhile, in amperes.", "A", None, above=0, most=500,
    )  # fmt: skip

    @property
    def ohm(self) -> float:
        """What the straps and the body have. [Ω]"""
        return self.drop_mv / 1000 / self.at_a


@record
class JobSupply:
    """The supply of everything added."""

    supply_lead_m: float | None = figure(
        "The way from the battery post to the amplifier, or to the distribution block, in metres, "
        "or unknown.", "m", None, least=0, most=30, unknown=True,
        ask="Battery post to the amplifier in m", answer="unknown", option="supply-lead",
        label="Battery post to the amplifier or block",
    )  # fmt: skip
    ground_lead_m: float | None = figure(
        "The ground lead from the amplifier or the distribution block to the body, in metres, or "
        "unknown.", "m", None, least=0, most=30, unknown=True,
        ask="Ground lead in m", answer="unknown", option="ground-lead",
        label="Ground lead",
    )  # fmt: skip
    fuse_to_battery_m: float | None = figure(
        "The wire between the battery post and the main fuse, in metres, or unknown.", "m", None,
        least=0, most=30, unknown=True,
        ask="Battery post to the main fuse in m", answer="unknown", option="fuse-to-battery",
        label="Battery post to the main fuse",
    )  # fmt: skip
    main_fuse_place: str | None = text(
        "Where the main fuse is mounted, as who looks for it later finds it; left out, beside the "
        "battery that feeds it.", "on the inner wing, left of the battery", form=LINE, default=None,
        label="Main fuse is mounted", absent="",
    )  # fmt: skip
    fuse_family: FuseShape = word(
        "The make of fuse at the battery.", "maxi",
        means={"mini": "Small blade fuses.", "blade": "Blade fuses.", "maxi": "Large blade fuses.",
        "bolt_down": "Fuses held by two bolts."},
        ask="Family of the main fuse", answer="maxi", sketch="maxi",
        label="Family of the main fuse",
    )  # fmt: skip
    material: Material = word(
        "What the supply wire is made of.", "copper",
        means={"copper": "Copper all through.",
        "copper_clad_aluminium": "Aluminium with a skin of copper.",
        "unknown": "Nobody has looked, or nobody could tell."},
        ask="Supply wire", answer="unknown", sketch="copper",
        label="Supply wire",
    )  # fmt: skip
    size_mm2: float | None = figure(
        "Cross-section of the supply wire when it is already chosen, in square millimetres; give "
        "this or size_awg.", "", 21, form=SIZE_MM2, default=None,
        label="Size of the supply wire", absent="",
    )  # fmt: skip
    size_awg: str | None = text(
        "Size of the supply wire when it is already chosen, as an AWG number; give this or "
        "size_mm2.", 8, form=SIZE_AWG, default=None,
        label="Gauge of the supply wire", absent="",
    )  # fmt: skip
    distribution: Distribution | None = part(
        {"branches": [{"amplifier": "amp 1", "out_m": None, "return_m": None}]}, default=None,
        label="Branches of the block", absent="",
    )  # fmt: skip
    ground_point: GroundPoint = word(
        "Where the ground goes.", "body_side",
        means={"body_side": "To the body, away from the battery.",
        "battery_post": "To the negative post of the battery.",
        "unknown": "Nobody has looked, or nobody could tell."},
        ask="Ground point", answer="unknown", sketch="body_side",
        label="Ground goes",
    )  # fmt: skip
    strap: Strap | None = part({"drop_mv": None, "at_a": None}, default=None)
    listening: Listening = word(
        "How loud the customer listens.", "heavy",
        means={"heavy": "A third of full power on average.",
        "light": "An eighth of full power on average."},
        ask="heavy or light", answer="heavy", sketch="heavy",
        label="Listening",
    )  # fmt: skip
    locks_per_day: float | None = figure(
        "How often the car is locked in a day, or unknown.", "a day", None, least=0, most=200,
        unknown=True, default=None,
        label="Locked",
    )  # fmt: skip
    wake_hold_min: float | None = figure(
        "How long the converter stays on after the car is locked, in minutes, or unknown.", "min",
        None, least=0, most=1440, unknown=True, default=None,
        label="Converter stays on after locking",
    )  # fmt: skip
    idle_a: float | None = figure(
        "What everything added draws with no sound, in amperes, or unknown.", "A", None, least=0,
        most=100, unknown=True, default=None,
        label="What all added draws with no sound",
    )  # fmt: skip
    parked_ma: float | None = figure(
        "What the parked car drew before work began, asleep, in milliamperes, or unknown.", "mA",
        None, least=0, most=10000, unknown=True, default=None,
        label="Parked car before the work",
    )  # fmt: skip
    battery: CarBattery | None = part(
        {"type": "lead_acid", "ah": None, "age_years": None}, default=None,
        label="Battery in this car", absent="",
    )  # fmt: skip
    second_battery: SecondBattery | None = part(
        {"type": "agm", "ah": None, "place": "right luggage side", "joined_by": "relay",
        "link_m": None, "feed_m": None, "ground_m": None}, default=None,
        label="Second battery", absent="",
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        given("The supply wire has one size: size_mm2 or size_awg, not both.", "size_mm2").bars(
            "size_awg"
        ),
    )

    @property
    def branches(self) -> tuple[JobBranch, ...]:
        """The branches from a distribution block, none without one."""
        return self.distribution.branches if self.distribution else ()


@record
class TurnOnLoad:
    """One thing more that the turn-on lead switches."""

    name: str = text("What it is.", "fan relay", form=LINE)
    draw_ma: float = figure("What it draws, in milliamperes.", "mA", None, least=0, most=5000)
    coil: bool = word(
        "Whether it is a coil, as in a relay.", "yes", form=YES_NO, read=is_yes,
        label="coil",
    )  # fmt: skip
    diode: Tri = word(
        "Whether a diode sits across the coil.", "yes", form=TRI, default="unknown",
        label="diode",
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        when(
            "A coil kicks back when it is switched off, so say whether a diode sits across it.",
            "coil",
            "yes",
        )
        .needs("diode")
        .otherwise.bars("diode"),
    )
