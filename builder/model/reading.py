"""What was measured on a pin, and what was said of one."""

from __future__ import annotations

from builder.declaring import figure, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import CHANNEL, DATE, ID, NOTE, SENTENCE
from builder.model.plug_forms import (
    AGAINST,
    CLAIM_METHOD,
    FACE,
    FUNCTION,
    LEG,
    LOAD,
    QUANTITY,
    STATE,
)
from builder.model.words import Channel, ClaimMethod, Face, Function, Leg, Load, Quantity, State

VALUE_LIMITS = (
    when(
        "Only an ohm reading can be open; every other quantity has a number.",
        "quantity",
        "dc_v",
        "ac_v",
        "hz",
        "ma",
        "duty_percent",
    ).limits("value", kind="number"),
    when("A direct voltage in a 12 V car lies between -20 and 60 V.", "quantity", "dc_v").limits(
        "value", least=-20, most=60
    ),
    when(
        "An alternating voltage in a 12 V car lies between 0 and 60 V.", "quantity", "ac_v"
    ).limits("value", least=0, most=60),
    when("A resistance lies between 0 and 1000 million ohms.", "quantity", "ohm").limits(
        "value", least=0, most=1000000000.0
    ),
    when("A frequency lies between 0 and 1 million hertz.", "quantity", "hz").limits(
        "value", least=0, most=1000000
    ),
    when("A current lies between -500000 and 500000 mA.", "quantity", "ma").limits(
        "value", least=-500000, most=500000
    ),
    when("A duty cycle lies between 0 and 100 %.", "quantity", "duty_percent").limits(
        "value", least=0, most=100
    ),
)
"""What the figure of a quantity can be, in a reading and in an old note."""


@record(shared="reading")
class Reading:
    """One figure off a meter, and the state the car was in.

    `value` is None for an open circuit. `against` is "battery_negative", "body", "4" (a cavity of
    the same plug) or "B.4"; a vehicle that is read says it of every reading.
    """

    session: str = text("The id of the visit it belongs to.", "s1", form=ID)
    state: State = word(
        "The state the car was in.", "asleep", "run", form=STATE,
        column=("state", "state"),
    )  # fmt: skip
    minutes: float | None = figure(
        "How long the car had been in that state, in minutes.", "min", None, least=0, most=20000,
        default=None,
    )  # fmt: skip
    lasts_s: float | None = figure(
        "How long a dip lasted, in seconds, when the value is the lowest point of one.", "s", None,
        above=0, most=60, default=None,
        column=("lasts", "lasts s"),
    )  # fmt: skip
    from_v: float | None = figure(
        "What the wire showed just before the dip, in volts.", "V", None, least=0, most=60,
        default=None,
    )  # fmt: skip
    load: Load = word(
        "What loaded the wire; leave it out for nothing but the meter.", "1a", form=LOAD,
        default="none",
        column=("load", "load"),
    )  # fmt: skip
    against: str = text(
        "The point that the other probe was on, when it is not the visit's: battery_negative, "
        "body, a cavity of the same plug, or a cavity of another plug.", "body", 4, "B.4",
        form=AGAINST, default="",
    )  # fmt: skip
    quantity: Quantity = word(
        "What was read.", "dc_v", form=QUANTITY,
        column=("quantity", "quantity"),
    )  # fmt: skip
    value: float | None = figure(
        "What the meter showed, in the unit of the quantity; open when an ohm reading finds no "
        "connection.", "", None, "open", means={"open": "No connection: the ohm range shows "
        "over-range."},
        column=("value", "value", "reading"),
    )  # fmt: skip
    battery_v: float | None = figure(
        "The battery's own voltage at the same moment, in volts.", "V", None, least=0, most=60,
        default=None,
    )  # fmt: skip
    volume_step: int | None = figure(
        "The volume shown by the radio.", "step", None, least=0, most=200, default=None,
    )  # fmt: skip
    tone_hz: float | None = figure(
        "The frequency of the test tone, in hertz.", "Hz", None, above=0, most=100000,
        default=None,
    )  # fmt: skip
    note: str | None = text(
        "Anything a person should know about this figure.", "meter lead slipped once, taken again",
        form=NOTE, default=None,
    )  # fmt: skip
    path: DataPath = ()

    LINE = 200
    RULES = (
        when(
            "Resistance is read on dead circuits only: with the plug off (unplugged) "
            "or the battery off (battery_off).",
            "quantity",
            "ohm",
        ).limits("state", "unplugged", "battery_off"),
        *VALUE_LIMITS,
        when(
            "A voltage says little without the battery's own voltage at that moment.",
            "quantity",
            "dc_v",
            "ac_v",
        ).needs("battery_v"),
        when(
            "Networks fall asleep after some time, so an asleep reading needs its minutes.",
            "state",
            "asleep",
        ).needs("minutes"),
        when(
            "A level means nothing without the tone and the volume it was read at.",
            "state",
            "radio_on_tone",
        ).needs("tone_hz", "volume_step"),
    )

    counted_as: str | None = None  # the cavity as typed, where it was turned to this one


@record(shared="claim")
class Claim:
    """What somebody says of a pin without having measured it."""

    by: str = text(
        "Who says so: your shop or handle.", "alder-pit-audio", form=ID,
        column=("by", "claimed by", "told by"),
    )  # fmt: skip
    date: str = text("The day it was written down, as YYYY-MM-DD.", "2024-05-10", form=DATE)
    method: ClaimMethod = word(
        "Where it comes from.", "paper", form=CLAIM_METHOD,
        column=("from", "claim method"),
    )  # fmt: skip
    says: Function = word(
        "The function it gives the pin.", "constant", form=FUNCTION,
        column=("says", "claimed function"),
    )  # fmt: skip
    channel: Channel | None = word(
        "The speaker it gives the pin, for a speaker or line function.", "front-left", form=CHANNEL,
        default=None,
    )  # fmt: skip
    leg: Leg | None = word(
        "The leg it gives the pin, for a speaker or line function.", "positive", form=LEG,
        default=None,
        column=("polarity",),
    )  # fmt: skip
    source: str | None = text(
        "What was read or who said it.", "sticker inside the glove box", form=SENTENCE,
        default=None,
        column=("source", "source"),
    )  # fmt: skip
    read_from: Face | None = word(
        "The face that its cavities were counted on, when that is not the plug's.", "mating_side",
        form=FACE, default=None,
        column=("read from", "claim face"),
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        when(
            "Only speaker and line wires belong to a channel and a leg.", "says", "speaker", "line"
        ).otherwise.bars("channel", "leg"),
    )

    counted_as: str | None = None  # the cavity as typed, where it was turned to this one
