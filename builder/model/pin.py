"""A pin of a plug: its wire, its fuse, and the cars it holds for."""

from __future__ import annotations

from builder.declaring import figure, listed, part, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import CAVITY, CHANNEL, CODE, LINE, NOTE
from builder.model.old_note import OldNote
from builder.model.plug_forms import FUNCTION, LEG
from builder.model.reading import Claim, Reading
from builder.model.wire import Wire
from builder.model.words import Channel, Function, Leg


@record(shared="fuse")
class Fuse:
    """The fuse that feeds a wire."""

    place: str = text(
        "Where the fuse sits, as its panel is labelled.", "F31", form=LINE,
        column=("place", "fuse", "fuse position"),
    )  # fmt: skip
    rating_a: float | None = figure(
        "What is printed on the fuse, in amperes, or unknown.", "A", None, "unknown", above=0,
        most=500, unknown=True, default=None,
        column=("", "fuse rating"),
    )  # fmt: skip


@record(shared="condition")
class Condition:
    """The part of the scope for which a line holds."""

    trims: tuple[str, ...] = listed(
        "The trims for which the line holds.", ["sport"], least=1, most=40, unique=True, form=CODE,
        default=(),
    )  # fmt: skip
    options_any: tuple[str, ...] = listed(
        "The line holds for cars that have at least one of these options.", ["tow-pack"], least=1,
        most=40, unique=True, form=CODE, default=(),
        column=("options", "only if options"),
    )  # fmt: skip
    options_none: tuple[str, ...] = listed(
        "The line holds for cars that have none of these options.", ["audio-pack"], least=1,
        most=40, unique=True, form=CODE, default=(),
        column=("without options", "only if not options"),
    )  # fmt: skip


@record
class Pin:
    """One described cavity of a plug."""

    cavity: str = text("The cavity that the wire sits in.", 1, "A4", form=CAVITY)
    function: Function = word(
        "What the wire does.", "constant", "speaker", form=FUNCTION,
        column=("function", "use", "does", "signal"),
    )  # fmt: skip
    channel: Channel | None = word(
        "The speaker it belongs to; for speaker and line wires.", "front-left", form=CHANNEL,
        default=None,
        column=("channel", "speaker", "corner"),
    )  # fmt: skip
    leg: Leg | None = word(
        "Which leg of the pair it is; for speaker and line wires.", "positive", form=LEG,
        default=None,
        column=("polarity", "leg", "pole", "sign"),
    )  # fmt: skip
    wire: Wire | None = part(
        {"base": "yellow", "stripe": "red", "size_mm2": 1.5}, description="What the wire looks "
        "like.", default=None,
    )  # fmt: skip
    fuse: Fuse | None = part(
        {"place": "F31", "rating_a": None}, description="The fuse that feeds it.", default=None,
    )  # fmt: skip
    max_source_ma: float | None = figure(
        "The most an amplifier_on or aerial_on output can give, in milliamperes, or unknown.", "mA",
        None, above=0, most=20000, unknown=True, default=None,
        column=("max source", "max source", "source ma"),
    )  # fmt: skip
    level_v: float | None = figure(
        "The voltage of an amplifier_on or aerial_on output, in volts, or unknown.", "V", None,
        above=0, most=16, unknown=True, default=None,
        column=("level", "output level v"),
    )  # fmt: skip
    only_if: Condition | None = part(
        {"trims": ["sport"]}, description="The part of the scope for which this line holds; leave "
        "it out when it holds for all of it.", default=None,
        column=("only",),
    )  # fmt: skip
    claims: tuple[Claim, ...] = listed(
        "What somebody says of the pin without having measured it.", [{"by": "alder-pit-audio",
        "date": "2024-05-10", "method": "paper", "says": "constant"}], most=100, default=(),
    )  # fmt: skip
    old_notes: tuple[OldNote, ...] = listed(
        "What an old notebook says of the pin; it is kept, and proves nothing.",
        [{"by": "alder-pit-audio", "quantity": "dc_v", "value": None,
        "source": "blue notebook, page 12"}], most=100, default=(),
    )  # fmt: skip
    readings: tuple[Reading, ...] = listed(
        "What was measured on the pin; one entry a figure, or one line: visit, state, figure, "
        "battery.", [{"session": "s1",
        "state": "asleep", "minutes": None, "quantity": "dc_v", "value": None, "battery_v": None},
        {"session": "s1", "state": "run", "load": "1a", "quantity": "dc_v", "value": None,
        "battery_v": None}], most=500, default=(),
    )  # fmt: skip
    note: str | None = text(
        "Anything a person should know about this wire.", "spliced by a former owner", form=NOTE,
        default=None,
        column=("note", "notes", "remark", "remarks", "comment", "comments"),
    )  # fmt: skip
    path: DataPath = ()

    LINE = 200
    RULES = (
        when(
            "A speaker or line wire belongs to a channel and is one leg of its pair.",
            "function",
            "speaker",
            "line",
        ).needs("channel", "leg"),
        when(
            "Only speaker and line wires belong to a channel and a leg.",
            "function",
            "speaker",
            "line",
        ).otherwise.bars("channel", "leg"),
        when(
            "Only the outputs amplifier_on and aerial_on have max_source_ma and level_v.",
            "function",
            "amplifier_on",
            "aerial_on",
        ).otherwise.bars("max_source_ma", "level_v"),
    )
