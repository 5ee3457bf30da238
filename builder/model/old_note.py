"""What an old notebook says of a wire: kept as what it is, and no proof of anything."""

from __future__ import annotations

from builder.declaring import figure, record, text, word
from builder.findings import DataPath
from builder.model.forms import DATE, ID, SENTENCE
from builder.model.plug_forms import AGAINST, LOAD, QUANTITY, STATE
from builder.model.reading import VALUE_LIMITS
from builder.model.words import Load, Quantity, State


@record
class OldNote:
    """One figure out of an old notebook; what it does not say is left out, never guessed.

    `value` is None for an open circuit. None of state, load, minutes and battery need be known.
    """

    by: str = text("Whose notebook it is: your shop or handle.", "alder-pit-audio", form=ID)
    date: str | None = text(
        "The day, as YYYY-MM-DD, when the notebook says it.", "2019-10-04", form=DATE, default=None,
    )  # fmt: skip
    state: State | None = word(
        "The state the car was in, when the notebook says it.", "run", form=STATE, default=None,
    )  # fmt: skip
    minutes: float | None = figure(
        "How long the car had been in that state, in minutes, when the notebook says it.", "min",
        None, least=0, most=20000, default=None,
    )  # fmt: skip
    load: Load | None = word(
        "What loaded the wire, when the notebook says it.", "1a", form=LOAD, default=None,
    )  # fmt: skip
    against: str = text(
        "The point that the other probe was on, when the notebook says it.", "body", 4, "B.4",
        form=AGAINST, default="",
    )  # fmt: skip
    quantity: Quantity = word("What was read.", "dc_v", form=QUANTITY)
    value: float | None = figure(
        "What the notebook says, in the unit of the quantity; open when an ohm reading found no "
        "connection.", "", None, "open",
        means={"open": "No connection: the ohm range shows over-range."},
    )  # fmt: skip
    battery_v: float | None = figure(
        "The battery's own voltage at the same moment, in volts, when the notebook says it.", "V",
        None, least=0, most=60, default=None,
    )  # fmt: skip
    source: str | None = text(
        "Where it was found.", "blue notebook, page 12", form=SENTENCE, default=None,
    )  # fmt: skip
    path: DataPath = ()

    RULES = VALUE_LIMITS
