"""What a new speaker is made of: its voice coils, how they are wired, and the box it sits in."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, given, record, text, when, word
from builder.model.forms import LINE

CoilWiring = Literal["series", "parallel", "separate"]
BoxKind = Literal["sealed", "vented", "free_air"]


@record
class Coils:
    """Its voice coils, where it has more than one."""

    number: int = figure(
        "How many voice coils it has.", "coils", 2, least=2, most=4,
        label="voice coils",
    )  # fmt: skip
    ohm: float = figure(
        "What each of them has, nominal, in ohms.", "Ω", 4, least=0.25, most=100,
        label="each",
    )  # fmt: skip
    wired: CoilWiring = word(
        "How they are wired to each other.", "series",
        means={"series": "One after the other: their ohms add up.",
        "parallel": "Side by side: the ohms of one divided by their number.",
        "separate": "Each on an amplifier channel of its own; each is a speaker of the job."},
        label="wired",
    )  # fmt: skip
    coil: int | None = figure(
        "Which of separate coils this speaker of the job is, counted from 1.", "", 1, least=1,
        most=4, default=None,
        label="this one is coil",
    )  # fmt: skip
    driver: str | None = text(
        "What the whole driver is called, whose separate coil this is.", "subwoofer", form=LINE,
        default=None,
        label="of",
    )  # fmt: skip

    RULES = (
        when(
            "A coil on a channel of its own says which it is, and of which driver.",
            "wired",
            "separate",
        )
        .needs("coil", "driver")
        .otherwise.bars("coil", "driver"),
    )

    @property
    def seen_ohm(self) -> float:
        """What a channel sees of them as they are wired. [Ω]"""
        if self.wired == "series":
            return self.number * self.ohm
        return self.ohm / self.number if self.wired == "parallel" else self.ohm


@record
class Box:
    """What it sits in, which decides what has to be kept away from it."""

    kind: BoxKind = word(
        "How it is closed behind.", "vented",
        means={"sealed": "Closed all round.",
        "vented": "With a port or a passive radiator, tuned to one frequency.",
        "free_air": "No box: a door, a shelf, the boot behind it."},
        label="box",
    )  # fmt: skip
    tuned_hz: float | None = figure(
        "What a vented box is tuned to, in hertz, or unknown.", "Hz", 34, least=10, most=120,
        unknown=True, default=None,
        label="tuned to",
    )  # fmt: skip

    RULES = (given("Only a vented box is tuned.", "tuned_hz").limits("kind", "vented"),)
