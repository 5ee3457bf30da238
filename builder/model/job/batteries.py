"""The batteries of a job: the one that is in the car, and a second one."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import LINE

BatteryType = Literal["lead_acid", "agm", "lithium", "unknown"]
JoinedBy = Literal["relay", "dc_charger", "diode"]

TYPES: dict[BatteryType, str] = {
    "lead_acid": "Lead and acid, to be topped up or closed.",
    "agm": "Lead, the acid held in glass mats.",
    "lithium": "Lithium iron phosphate, with its own cut-off.",
    "unknown": "Nobody has looked, or nobody could tell; it counts as lead and acid.",
}


@record
class CarBattery:
    """The battery that is in this car."""

    type: BatteryType = word("What it is.", "lead_acid", means=TYPES, label="")
    ah: float | None = figure(
        "Its capacity as its label says, in ampere-hours; left out, that of the vehicle record.",
        "Ah", None, above=0, most=1000, default=None,
        label="", absent="",
    )  # fmt: skip
    age_years: float | None = figure(
        "How old it is, in years, or unknown.", "years", None, least=0, most=40, unknown=True,
        default=None,
        label="old",
    )  # fmt: skip


@record
class SecondBattery:
    """A battery that feeds what is added, beside the car's own."""

    type: BatteryType = word("What it is.", "agm", means=TYPES, label="")
    ah: float = figure(
        "Its capacity as its label says, in ampere-hours.", "Ah", None, above=0, most=1000,
        label="",
    )  # fmt: skip
    age_years: float | None = figure(
        "How old it is, in years, or unknown.", "years", None, least=0, most=40, unknown=True,
        default=None,
        label="old",
    )  # fmt: skip
    place: str = text("Where it sits.", "right luggage side", form=LINE, label="at")
    joined_by: JoinedBy = word(
        "What joins it to the car's battery.", "relay",
        means={"relay": "A relay or contactor that closes by itself at charging volts, with the "
        "engine on; it has a ground lead and no control wire.",
        "dc_charger": "A charger of its own that limits its current; it has a ground lead, and "
        "starts by itself at charging volts.",
        "diode": "A diode that lets current pass from the car's battery only."},
        label="joined by",
    )  # fmt: skip
    charger_a: float | None = figure(
        "The most that its charger gives, in amperes.", "A", None, above=0, most=200, default=None,
        label="of",
    )  # fmt: skip
    link_m: float = figure(
        "The positive lead between the two batteries, in metres.", "m", None, above=0, most=30,
        label="link",
    )  # fmt: skip
    feed_m: float = figure(
        "The positive lead from it to the amplifier or the distribution block, in metres.", "m",
        None, least=0, most=30,
        label="to the amplifier or block",
    )  # fmt: skip
    ground_m: float = figure(
        "Its negative lead to the body, in metres.", "m", None, above=0, most=5, label="ground",
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        when("A charger's current counts in what the car can spare.", "joined_by", "dc_charger")
        .needs("charger_a")
        .otherwise.bars("charger_a"),
    )
