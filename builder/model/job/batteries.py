"""The battery of a job: what is in the car in the bay."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, record, word

BatteryType = Literal["lead_acid", "agm", "lithium", "unknown"]

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
        "Ah", 70, above=0, most=1000, default=None,
        label="", absent="",
    )  # fmt: skip
    age_years: float | None = figure(
        "How old it is, in years, or unknown.", "years", 3, least=0, most=40, unknown=True,
        default=None,
        label="old",
    )  # fmt: skip
