"""The speakers that an amplifier of the job drives, and the wires to them."""

from __future__ import annotations

from typing import ClassVar

from builder.declaring import figure, given, listed, part, record, text, when, without, word
from builder.declaring.conditions import Condition
from builder.findings import DataPath
from builder.model.forms import CHANNEL, LINE, SIZE_AWG, SIZE_MM2, YES_NO, is_yes
from builder.model.job.boxes import Box, Coils
from builder.model.job.crossovers import Crossover
from builder.model.job.filters import SetFilters
from builder.model.words import Channel

_ONE_SIZE = given("A lead has one size: size_mm2 or size_awg, not both.", "size_mm2").bars(
    "size_awg"
)


@record
class JobLead:
    """A wire to a speaker. Sizes are None until chosen."""

    length_m: float = figure("How long it is, one way, in metres.", "m", None, least=0, most=30)
    size_mm2: float | None = figure(
        "Conductor cross-section in square millimetres; give this or size_awg.", "", 2.5,
        form=SIZE_MM2, default=None,
    )  # fmt: skip
    size_awg: str | None = text(
        "Conductor size as an AWG number; give this or size_mm2.", 16, "1/0", form=SIZE_AWG,
        default=None,
    )  # fmt: skip

    RULES: ClassVar[tuple[Condition, ...]] = (_ONE_SIZE,)


@record
class FactoryLead(JobLead):
    """The factory wire that stays in use."""

    RULES = (
        _ONE_SIZE,
        without(
            "Without the size of a wire its loss cannot be told: size_awg or size_mm2.", "size_mm2"
        ).needs("size_awg"),
    )


@record
class NewLead(JobLead):
    """A new wire from the amplifier to the speaker; give the size when it is chosen."""


@record
class DrivenBy:
    """What drives it."""

    amplifier: str = text("The name this job gives the amplifier.", "amp 1", form=LINE)
    channel: int = figure(
        "Which channel of the amplifier, counted from 1 through its groups.", "channel", 1, least=1,
        most=64,
    )  # fmt: skip
    bridged_with: int | None = figure(
        "The next channel, where both drive this speaker together, bridged.", "channel", 2,
        least=2, most=64, default=None,
    )  # fmt: skip


@record
class JobSpeaker:
    """A speaker that an amplifier of the job drives."""

    name: str = text("What this job calls it.", "left door", form=LINE)
    channel: Channel = word(
        "The factory channel that it belongs to; sub for a new subwoofer.", "front-left",
        form=CHANNEL,
    )  # fmt: skip
    nominal_ohm: float = figure(
        "Its nominal resistance, as the amplifier sees it, in ohms.", "Ω", 4, least=0.25, most=100,
    )  # fmt: skip
    rated_w_rms: float = figure(
        "What it takes for ever, in watts RMS.", "W", 50, above=0, most=20000,
    )  # fmt: skip
    existing: bool = word(
        "Whether it is the factory's own speaker; a new one may hang on the factory's own wire.",
        "yes", form=YES_NO, read=is_yes,
    )  # fmt: skip
    existing_lead: FactoryLead | None = part({"size_awg": 20, "length_m": None}, default=None)
    lead: NewLead | None = part({"length_m": None}, default=None)
    driven_by: DrivenBy = part({"amplifier": "amp 1", "channel": 1})
    plays: tuple[Channel, ...] = listed(
        "The factory pairs whose sound it plays.", ["front-left"], ["rear-left", "rear-right"],
        key="from", least=1, most=14, unique=True, form=CHANNEL,
    )  # fmt: skip
    overlap: bool = word(
        "Whether the gain is set for a 5 dB overlap; left out, it is not.", "no", form=YES_NO,
        read=is_yes, default=False,
    )  # fmt: skip
    coils: Coils | None = part({"number": 2, "ohm": 2, "wired": "series"}, default=None)
    crossover: Crossover | None = part(
        {"corner_hz": None, "slope_db_per_octave": 12, "woofer_ohm": 4, "tweeter_ohm": 4,
         "rated_w_rms": 80},
        default=None,
    )  # fmt: skip
    box: Box | None = part({"kind": "vented", "tuned_hz": 34}, default=None)
    place: str | None = text(
        "Where a new one stands or hangs, in the words of the amplifiers' places; left out, "
        "whoever fits it writes that down.", "left luggage side, in its box", form=LINE,
        default=None, label="stands", absent="",
    )  # fmt: skip
    ear_m: float | None = figure(
        "From it to the middle of the listener's head, in metres. Where a channel can be held "
        "back, the nearest waits for the farthest.", "m", None, above=0, most=10, default=None,
    )  # fmt: skip
    filters: SetFilters | None = part(
        {"low_pass_hz": 80, "subsonic_hz": 30, "slope_db_per_octave": 24}, default=None,
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        when(
            "What leads to a new speaker is a new wire, lead, or in the place of a factory speaker "
            "the factory's own, existing_lead.",
            "existing",
            "no",
        )
        .unless("existing_lead")
        .needs("lead"),
        when(
            "A new speaker hangs on one wire: lead is a new one, existing_lead the factory's own.",
            "existing",
            "no",
        )
        .having("lead")
        .bars("existing_lead"),
        when("How the coils of a factory speaker are wired is inside it.", "existing", "yes").bars(
            "coils"
        ),
        when(
            "A new woofer and a new tweeter are two speakers of the job, each on a channel of its "
            "own; a crossover stands before the car's own two.",
            "existing",
            "no",
        ).bars("crossover"),
    )

    @property
    def where(self) -> str:
        """Its place; its name where nobody said it."""
        return self.place or self.name

    @property
    def amplifier(self) -> str:
        """The name that the job gives the amplifier that drives it."""
        return self.driven_by.amplifier

    @property
    def amplifier_channel(self) -> int:
        """The channel of that amplifier, from 1, counted through its groups."""
        return self.driven_by.channel

    @property
    def channel_name(self) -> str:
        """The channel as its amplifier's terminals are called: "1", bridged "1+2"."""
        return channel_name(self.driven_by.channel, self.driven_by.bridged_with)


def channel_name(channel: int, bridged_with: int | None) -> str:
    """Return a channel as its amplifier's terminals are called: "1", bridged "1+2"."""
    return f"{channel}" if bridged_with is None else f"{channel}+{bridged_with}"
