"""Measured ways through the car."""

from __future__ import annotations

from typing import Final

from builder.declaring import Form, figure, listed, part, record, text, word
from builder.findings import DataPath
from builder.model.forms import DATE, ID, LINE
from builder.model.words import Carries

AT_RADIO: Final = "radio"
AT_CONVERTER: Final = "converter"
"""What the places of the two are called in a route; other places are free text."""

CARRIES: Final = Form(
    "", "", {}, {"signal": "Sound from the radio or factory amplifier, before the new amplifier.",
    "amplified": "Sound from the new amplifier, back to the factory wiring.",
    "control": "A turn-on lead.", "supply": "Battery positive.", "ground": "Ground.",
    "speaker": "Sound from the new amplifier, straight to a speaker."},
)  # fmt: skip
"""What can run along a way, or through a bulkhead."""


@record
class ProvedThere:
    """Who showed which wires of a pair they are where a signal route begins, and when."""

    by: str = text("Who read them through: your shop or handle.", "alder-pit-audio", form=ID)
    date: str = text("When, as YYYY-MM-DD.", "2024-06-01", form=DATE)


@record
class Route:
    """A way through the car, measured along the path the wire will take."""

    from_place: str = text(
        "Where it begins: radio, converter, the name of an amplifier or speaker, or a place of "
        "the vehicle record.", "radio", key="from", form=LINE,
        label="from",
    )  # fmt: skip
    to_place: str = text(
        "Where it ends, in the same words.", "amp 1", key="to", form=LINE,
        label="to",
    )  # fmt: skip
    carries: Carries = word(
        "What runs along it.", "signal", form=CARRIES,
        label="carries",
    )  # fmt: skip
    length_m: float = figure(
        "How long it is, with a tape or a string along the real path, in metres.", "m", None,
        above=0, most=30,
    )  # fmt: skip
    zones: tuple[str, ...] = listed(
        "The places that it goes through; the names of the vehicle record where it names them, [] "
        "when there are none.", ["left sill"], most=20, unique=True, form=LINE,
        label="through", absent="no zone",
    )  # fmt: skip
    measured_by: str | None = text(
        "Who measured: your shop or handle.", "alder-pit-audio", form=ID, default=None,
        label="measured by",
    )  # fmt: skip
    proved_there: ProvedThere | None = part(
        {"by": "alder-pit-audio", "date": "2024-06-01"}, default=None,
        label="wires proved there", absent="",
    )  # fmt: skip
    path: DataPath = ()
