"""Forms that keys of many kinds of record share, and the words of the shared lists."""

from __future__ import annotations

from typing import Literal

from builder.declaring import Form, figure, part, record, text, word
from builder.model.words import Origin

YesNo = Literal["yes", "no"]
Colour = Literal[
    "black",
    "brown",
    "red",
    "orange",
    "yellow",
    "green",
    "blue",
    "violet",
    "grey",
    "white",
    "pink",
    "turquoise",
    "beige",
    "tan",
    "light blue",
    "dark blue",
    "light green",
    "dark green",
    "gold",
    "silver",
    "clear",
    "natural",
    "bare",
    "unknown",
]

CAVITY = Form(
    "cavity",
    "A cavity: the number moulded beside it, or a letter with or without a number.",
    {
        "type": ["integer", "string"],
        "minimum": 1,
        "maximum": 199,
        "pattern": "^[A-Z][0-9]{0,2}$",
        "maxLength": 3,
        "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
        "formMeaning": "a number from 1 to 199, or a capital letter with up to two digits",
    },
)
COLOUR = Form(
    "colour",
    "A colour of insulation or plastic, as a person would call it in daylight.",
    {},
    {
        "black": "Black.",
        "brown": "Brown.",
        "red": "Red.",
        "orange": "Orange.",
        "yellow": "Yellow.",
        "green": "Green.",
        "blue": "Blue.",
        "violet": "Violet or purple.",
        "grey": "Grey.",
        "white": "White.",
        "pink": "Pink.",
        "turquoise": "Turquoise.",
        "beige": "Beige.",
        "tan": "Tan, a light brown.",
        "light blue": "Clearly lighter than blue.",
        "dark blue": "Clearly darker than blue.",
        "light green": "Clearly lighter than green.",
        "dark green": "Clearly darker than green.",
        "gold": "Gold.",
        "silver": "Silver.",
        "clear": "Transparent.",
        "natural": "Undyed plastic, milky.",
        "bare": "No insulation at all, as on a shield's drain wire.",
        "unknown": "Nobody wrote it down.",
    },
)
DATA = Form(
    "data",
    "Whether a real thing stands behind the record.",
    {},
    {
        "invented": "Made up, to show or to test something; no real thing stands behind it.",
        "measured": "Real work: measured on a real car, or read off the real part or its "
        "data sheet.",
    },
)
EDGE = Form(
    "edge",
    "The edge of the plug where the latch is.",
    {},
    {
        "top": "The latch is at the top.",
        "bottom": "The latch is at the bottom.",
        "left": "The latch is at the left.",
        "right": "The latch is at the right.",
    },
)
ID = Form(
    "id",
    "A name that other records and pages refer to.",
    {
        "type": "string",
        "pattern": "^[a-z0-9]+(?:-[a-z0-9]+)*$",
        "maxLength": 80,
        "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
        "formMeaning": "lower-case letters, digits and single hyphens between words",
    },
)
LINE = Form(
    "line",
    "One line of plain text.",
    {
        "type": "string",
        "minLength": 1,
        "maxLength": 120,
        "pattern": "[^ \\n\\r\\t]",
        "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    },
)
NOTE = Form(
    "note",
    "Plain text of a few lines.",
    {"type": "string", "minLength": 1, "maxLength": 2000, "pattern": "[^ \\n\\r\\t]"},
)
SCHEMA_VERSION = Form(
    "schema_version",
    "The version of the record format, so that an older book never misreads a newer record.",
    {"type": "integer"},
    {"1": "The record format that this book understands."},
)
SENTENCE = Form(
    "sentence",
    "",
    {
        "type": "string",
        "$comment": "A sentence of plain text, on one line.",
        "minLength": 1,
        "maxLength": 300,
        "pattern": "[^ \\n\\r\\t]",
        "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    },
)
SIZE_AWG = Form(
    "size_awg",
    "Conductor size as an AWG number; 1/0 to 4/0 are the sizes above 1.",
    {
        "type": ["integer", "string"],
        "unit": "AWG",
        "minimum": 1,
        "maximum": 30,
        "pattern": "^[1-4]/0$",
        "maxLength": 3,
        "formMeaning": "a whole number from 1 to 30, or 1/0, 2/0, 3/0, 4/0",
    },
)
SIZE_MM2 = Form(
    "size_mm2",
    "Conductor cross-section in square millimetres.",
    {"type": "number", "unit": "mm²", "minimum": 0.05, "maximum": 120},
)
TRI = Form(
    "tri",
    "Yes, no, or not known.",
    {},
    {
        "yes": "Somebody looked, and it is so.",
        "no": "Somebody looked, and it is not so.",
        "unknown": "Nobody has looked, or nobody could tell.",
    },
)
YES_NO = Form("yes_no", "Yes or no.", {}, {"yes": "It is so.", "no": "It is not so."})


@record(shared="replaces")
class Replaces:
    """The shared record that this private one stands in for; of the two, only this one is then in
    the book.
    """

    id: str = text(
        "The id of the shared record; it may be this record's own.",
        "sample-base",
        form=ID,
        label="record",
    )
    reason: str = text(
        "Why the shared record does not do.",
        "our cars of this scope have another radio",
        form=SENTENCE,
        label="because",
    )


OWN_ID = "The record's own name, equal to the file name without .yaml."


@record
class Recorded:
    """What every record says of itself."""

    schema: int = figure(
        "The version of the record format.", "", 1, form=SCHEMA_VERSION, default=1, optional=False
    )
    id: str = text(OWN_ID, form=ID)
    data: Origin = word(
        "Whether a real thing stands behind the record.",
        "invented",
        form=DATA,
        ask="measured (a real thing) or invented",
        answer="measured",
    )
    replaces: Replaces | None = part(
        {"id": "sample-base", "reason": "our cars of this scope have another radio"},
        description="The shared record that this private one stands in for; of the two, "
        "only this one is then in the book.",
        default=None,
        label="Stands in for",
        absent="",
    )
