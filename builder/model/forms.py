"""Forms that keys of many kinds of record share, and the words of the shared lists."""

from __future__ import annotations

from typing import Literal

from builder.declaring import Form

YesNo = Literal["yes", "no"]
Colour = Literal[
    "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white", "pink",
    "turquoise", "beige", "tan", "light blue", "dark blue", "light green", "dark green", "gold",
    "silver", "clear", "natural", "bare", "unknown",
]  # fmt: skip

CAVITY = Form(
    "cavity", "A cavity: the number moulded beside it, or a letter with or without a number.",
    {"type": ["integer", "string"], "minimum": 1, "maximum": 199, "pattern": "^[A-Z][0-9]{0,2}$",
    "maxLength": 3, "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "a number from 1 to 199, or a capital letter with up to two digits"},
)  # fmt: skip
CHANNEL = Form(
    "channel", "Which speaker a pair belongs to.", {},
    {"front-left": "Front left speaker, or both bands of it.",
    "front-right": "Front right speaker, or both bands of it.",
    "rear-left": "Rear left speaker, or both bands of it.",
    "rear-right": "Rear right speaker, or both bands of it.", "centre": "Centre speaker.",
    "sub": "Subwoofer.", "front-left-woofer": "Front left, low band only.",
    "front-left-tweeter": "Front left, high band only.",
    "front-right-woofer": "Front right, low band only.",
    "front-right-tweeter": "Front right, high band only.",
    "rear-left-woofer": "Rear left, low band only.",
    "rear-left-tweeter": "Rear left, high band only.",
    "rear-right-woofer": "Rear right, low band only.",
    "rear-right-tweeter": "Rear right, high band only."},
)  # fmt: skip
CODE = Form(
    "code",
    "A short word for a trim, option, market, body or radio, written the same in every record.",
    {"type": "string", "pattern": "^[a-z0-9]+(?:-[a-z0-9]+)*$", "maxLength": 40,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "lower-case letters, digits and single hyphens between words"},
)  # fmt: skip
COLOUR = Form(
    "colour", "A colour of insulation or plastic, as a person would call it in daylight.", {},
    {"black": "Black.", "brown": "Brown.", "red": "Red.", "orange": "Orange.", "yellow": "Yellow.",
    "green": "Green.", "blue": "Blue.", "violet": "Violet or purple.", "grey": "Grey.",
    "white": "White.", "pink": "Pink.", "turquoise": "Turquoise.", "beige": "Beige.",
    "tan": "Tan, a light brown.", "light blue": "Clearly lighter than blue.",
    "dark blue": "Clearly darker than blue.", "light green": "Clearly lighter than green.",
    "dark green": "Clearly darker than green.", "gold": "Gold.", "silver": "Silver.",
    "clear": "Transparent.", "natural": "Undyed plastic, milky.",
    "bare": "No insulation at all, as on a shield's drain wire.",
    "unknown": "Nobody wrote it down."},
)  # fmt: skip
DATA = Form(
    "data", "Whether a real thing stands behind the record.", {},
    {"invented": "Made up, to show or to test something; no real thing stands behind it.",
    "measured": "Real work: measured on a real car, or read off the real part or its data "
    "sheet."},
)  # fmt: skip
DATE = Form(
    "date", "A day.", {"type": "string", "pattern": ""
    "^(?:19[89][0-9]|20[0-9][0-9]|2100)-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])$",
    "maxLength": 10, "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "YYYY-MM-DD, for example 2024-05-13", "format": "date"},
)  # fmt: skip
EDGE = Form(
    "edge", "The edge of the plug where the latch is.", {}, {"top": "The latch is at the top.",
    "bottom": "The latch is at the bottom.", "left": "The latch is at the left.",
    "right": "The latch is at the right."},
)  # fmt: skip
ID = Form(
    "id", "A name that other records and pages refer to.", {"type": "string",
    "pattern": "^[a-z0-9]+(?:-[a-z0-9]+)*$", "maxLength": 80,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "lower-case letters, digits and single hyphens between words"},
)  # fmt: skip
LINE = Form(
    "line", "One line of plain text.", {"type": "string", "minLength": 1, "maxLength": 120,
    "pattern": "[^ \\n\\r\\t]", "not": {"type": "string", "pattern": "[\\n\\r\\t]"}},
)  # fmt: skip
MONTH = Form(
    "month", "A month of build.", {"type": "string",
    "pattern": "^(?:19[89][0-9]|20[0-9][0-9]|2100)-(?:0[1-9]|1[0-2])$", "maxLength": 7,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "YYYY-MM, for example 2016-03"},
)  # fmt: skip
NOTE = Form(
    "note", "Plain text of a few lines.", {"type": "string", "minLength": 1, "maxLength": 2000,
    "pattern": "[^ \\n\\r\\t]"},
)  # fmt: skip
RULE_ID = Form(
    "rule_id", "The id of a rule, as printed in front of the finding.", {"type": "string",
    "pattern": "^[A-Z]{3}[0-9]{3}$", "maxLength": 6,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "three capitals and three digits, for example PIN111"},
)  # fmt: skip
SCHEMA_VERSION = Form(
    "schema_version",
    "The version of the record format, so that an older book never misreads a newer record.",
    {"type": "integer", "enum": [1]}, {"1": "The record format that this book understands."},
)  # fmt: skip
SENTENCE = Form(
    "sentence", "", {"type": "string", "$comment": "A sentence of plain text, on one line.",
    "minLength": 1, "maxLength": 300, "pattern": "[^ \\n\\r\\t]",
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"}},
)  # fmt: skip
SIZE_AWG = Form(
    "size_awg", "Conductor size as an AWG number; 1/0 to 4/0 are the sizes above 1.",
    {"type": ["integer", "string"], "unit": "AWG", "minimum": 1, "maximum": 30,
    "pattern": "^[1-4]/0$", "maxLength": 3,
    "formMeaning": "a whole number from 1 to 30, or 1/0, 2/0, 3/0, 4/0"},
)  # fmt: skip
SIZE_MM2 = Form(
    "size_mm2", "Conductor cross-section in square millimetres.", {"type": "number", "unit": "mm²",
    "minimum": 0.05, "maximum": 120},
)  # fmt: skip
TRI = Form(
    "tri", "Yes, no, or not known.", {}, {"yes": "Somebody looked, and it is so.",
    "no": "Somebody looked, and it is not so.",
    "unknown": "Nobody has looked, or nobody could tell."},
)  # fmt: skip
YEAR = Form(
    "year", "A model year.", {"type": "integer", "unit": "year", "minimum": 1980, "maximum": 2100},
)  # fmt: skip
TREATMENT = Form(
    "treatment", "What is done with a speaker pair.", {}, {"intercept": "The pair is broken; an "
    "amplifier plays the speaker.", "addon": "Joined, not cut; the factory goes on playing the "
    "speaker.", "line_tap": "Joined beside the line feed of the factory amplifier, which goes on "
    "playing the speaker.", "none": "The pair is left alone."},
)  # fmt: skip
YES_NO = Form("yes_no", "Yes or no.", {}, {"yes": "It is so.", "no": "It is not so."})


def is_yes(word: YesNo) -> bool:
    """A word of `YES_NO` as what it says."""
    return word == "yes"
