"""The closed word lists of the records, as types.

The JSON Schemas hold the same lists with a description for each word; a test keeps the two
in step. Plain strings rather than enums: the schema has already refused any other word.
"""

from __future__ import annotations

from typing import Literal, get_args

Tri = Literal["yes", "no", "unknown"]
Face = Literal["wire_side", "mating_side", "moulded", "unknown"]
Edge = Literal["top", "bottom", "left", "right"]
Cost = Literal["look", "panel", "radio"]
Side = Literal["left", "right", "both"]

RadioOutputs = Literal["bridged", "common_ground", "line", "none", "unknown"]
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
ClaimMethod = Literal["paper", "colour", "told", "job"]

FUNCTIONS: tuple[str, ...] = get_args(Function)
CHANNELS: tuple[str, ...] = get_args(Channel)
STATES: tuple[str, ...] = get_args(State)

SUPPLIES = frozenset({"constant", "constant_sleeps", "accessory", "run", "retained"})
"""Functions that bring battery voltage to a unit."""
PAIRED = frozenset({"speaker", "line"})
"""Functions that come as a pair of legs and belong to a channel."""
