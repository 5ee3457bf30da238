"""The closed word lists of the records, as types.

The JSON Schemas hold the same lists with a description for each word; a test keeps the two
in step. Plain strings rather than enums: the schema has already refused any other word, and the
type checker refuses a comparison with a word that stands in no list, which it does not do for
enums. A word list of the planner stands in the module whose answer it is part of.
"""

from __future__ import annotations

from typing import Final, Literal, get_args

RecordKind = Literal[
    "vehicle", "housing", "converter", "amplifier", "cable", "loom", "interface", "job",
    "contributor", "visit",
]  # fmt: skip
CONTRIBUTOR: Final = "contributor"
"""Who measured, said or settled something; may be named without a record of that name."""
Visibility = Literal["shared", "private"]
"""Who may see what stands in a folder of records."""

SchemaKind = RecordKind | Literal["book", "lock", "readings", "sheet"]
"""What has a schema: `book` is the settings file of a book. Of no book are `readings`, those of one
unknown wire, and `sheet`, a filled bay sheet on its way into the records."""
Origin = Literal["invented", "measured"]  # what a record says of itself at `data`
Tri = Literal["yes", "no", "unknown"]
Face = Literal["wire_side", "mating_side", "moulded", "unknown"]
View = Literal["wire_side", "mating_side"]
"""The two faces of a plug that can be looked at."""
Edge = Literal["top", "bottom", "left", "right"]
Cost = Literal["look", "panel", "radio"]
Side = Literal["left", "right", "both"]
DriverSeat = Literal["left", "right"]

RadioOutputs = Literal["bridged", "common_ground", "line", "none", "unknown"]
ChargingBy = Literal["alternator", "dcdc", "unknown"]
AmplifierFeed = Literal["none", "analogue_variable", "analogue_fixed", "digital", "unknown"]
Unit = Literal["radio", "amplifier", "fuse_panel", "interface", "other"]

Function = Literal[
    "constant",
    "constant_sleeps",
    "accessory",
    "run",
    "retained",
    "illumination",
    "illumination_return",
    "ground",
    "speaker",
    "line",
    "amplifier_on",
    "aerial_on",
    "mute",
    "data_high",
    "data_low",
    "data_single",
    "shield",
    "speed",
    "reverse",
    "park_brake",
    "camera_supply",
    "camera_signal",
    "microphone",
    "wheel_keys",
    "not_used",
    "unknown",
]
Channel = Literal[
    "front-left",
    "front-right",
    "rear-left",
    "rear-right",
    "centre",
    "sub",
    "front-left-woofer",
    "front-left-tweeter",
    "front-right-woofer",
    "front-right-tweeter",
    "rear-left-woofer",
    "rear-left-tweeter",
    "rear-right-woofer",
    "rear-right-tweeter",
]
Leg = Literal["positive", "negative"]
Band = Literal["full", "low", "high", "mid", "unknown"]
DrivenBy = Literal["radio", "amplifier"]
Polarity = Literal["normal", "inverted", "unknown"]
Volume = Literal["variable", "fixed", "unknown"]
InLine = Literal["fader", "series_capacitor", "second_speaker", "headrest_speaker", "filter"]

State = Literal[
    "asleep",
    "door_open",
    "accessory",
    "run",
    "crank",
    "engine",
    "lights_on",
    "lights_dimmed",
    "lights_off",
    "retained",
    "radio_off",
    "radio_on_zero",
    "radio_on_tone",
    "tuner",
    "other_source",
    "auto_restart",
    "unplugged",
    "battery_off",
]
Quantity = Literal["dc_v", "ac_v", "ohm", "hz", "ma", "duty_percent"]
Load = Literal["none", "lamp_0.4a", "1a", "50ma", "5ma"]
Beside = Literal["battery_v", "minutes", "tone_hz", "volume_step"]
"""Keys of a reading that say under what its figure was read."""
Instrument = Literal["meter", "scope"]
Reference = Literal["battery_negative", "body"]
RecordedOn = Literal["speaker", "resistor_4_ohm", "open"]
"""What hung on a pair while it was recorded."""
MadeBy = Literal["recorder", "simulator"]
ClaimMethod = Literal["paper", "colour", "told", "job"]

Treatment = Literal["intercept", "addon", "line_tap", "none"]
Carries = Literal["signal", "amplified", "control", "supply", "ground", "speaker"]
FuseShape = Literal["mini", "blade", "maxi", "bolt_down"]
Material = Literal["copper", "copper_clad_aluminium", "unknown"]
GroundPoint = Literal["body_side", "battery_post", "unknown"]
Listening = Literal["heavy", "light"]
ConverterSupply = Literal["auto", "amplifier", "block", "radio", "fuse_position"]
"""Where the converter's own supply is taken."""

GradeBand = Literal["proven", "good", "check first", "don't rely", "unproved", "disputed"]
"""How far a pin can be relied on, best first. "unproved": nobody has measured or said anything;
"disputed" outranks every other, since two meters disagree."""

FUNCTIONS: tuple[Function, ...] = get_args(Function)
CHANNELS: tuple[Channel, ...] = get_args(Channel)
STATES: tuple[State, ...] = get_args(State)
GRADE_BANDS: tuple[GradeBand, ...] = get_args(GradeBand)

SUPPLIES: frozenset[Function] = frozenset(
    {"constant", "constant_sleeps", "accessory", "run", "retained"}
)
"""Functions that bring battery voltage to a unit."""
PAIRED: frozenset[Function] = frozenset({"speaker", "line"})
"""Functions that come as a pair of legs and belong to a channel."""

BATTERY_NEGATIVE: Final[Reference] = "battery_negative"
GROUND_REFERENCES: frozenset[Reference] = frozenset({"battery_negative", "body"})
"""What a reading can be taken against that is no cavity; a cavity's name is any text."""
UNKNOWN: Final = "unknown"
"""What is typed in a place for free text or a figure that nobody knows."""
THIS: Final = "this"
"""Stands for the record itself where the id of a record is asked for."""
ALL: Final = "all"
"""Stands for every trim where the names of trims are asked for."""

SPLIT_BANDS: dict[Channel, tuple[Channel, Channel]] = {
    "front-left": ("front-left-woofer", "front-left-tweeter"),
    "front-right": ("front-right-woofer", "front-right-tweeter"),
    "rear-left": ("rear-left-woofer", "rear-left-tweeter"),
    "rear-right": ("rear-right-woofer", "rear-right-tweeter"),
}
"""The two pairs of a corner whose woofer and tweeter have a pair each."""
