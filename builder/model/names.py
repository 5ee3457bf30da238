"""The words of the records as a person says them: one place for every page and answer."""

from __future__ import annotations

from builder.model.words import (
    Channel,
    ClaimMethod,
    Cost,
    Face,
    Function,
    Leg,
    Load,
    Quantity,
    State,
)

FUNCTION_NAMES: dict[Function, str] = {
    "constant": "constant supply",
    "constant_sleeps": "supply that sleeps with the network",
    "accessory": "accessory supply",
    "run": "run supply",
    "retained": "retained supply",
    "illumination": "illumination",
    "illumination_return": "illumination return (dimmer)",
    "ground": "ground",
    "speaker": "speaker",
    "line": "line to factory amplifier",
    "amplifier_on": "amplifier turn-on output",
    "aerial_on": "aerial turn-on output",
    "mute": "mute",
    "data_high": "data, high wire",
    "data_low": "data, low wire",
    "data_single": "data, single wire",
    "shield": "shield",
    "speed": "speed pulse",
    "reverse": "reverse",
    "park_brake": "parking brake",
    "camera_supply": "camera supply",
    "camera_signal": "camera signal",
    "microphone": "microphone",
    "wheel_keys": "steering-wheel keys",
    "not_used": "not used",
    "unknown": "function not known",
}

SHORT_FUNCTION_NAMES: dict[Function, str] = {
    "amplifier_on": "amplifier turn-on",
    "aerial_on": "aerial turn-on",
}
"""Functions whose record word alone would not be understood in a sentence."""

SINGULAR_NAMES: dict[Function, str] = {
    **FUNCTION_NAMES,
    "illumination": "illumination feed",
    "illumination_return": "illumination return",
    "speaker": "speaker leg",
    "line": "line leg",
    "mute": "mute wire",
    "data_high": "high data wire",
    "data_low": "low data wire",
    "data_single": "single data wire",
    "shield": "cable shield",
    "speed": "speed wire",
    "reverse": "reverse wire",
    "park_brake": "parking-brake wire",
    "camera_signal": "camera picture wire",
    "microphone": "microphone wire",
    "wheel_keys": "wheel-key wire",
    "not_used": "unused wire",
    "unknown": "wire of unknown function",
}
"""One wire of each function, for the middle of a sentence: "a wheel-key wire reads 3 V"."""

STATE_NAMES: dict[State, str] = {
    "asleep": "asleep",
    "door_open": "key out, door open",
    "accessory": "accessory",
    "run": "run",
    "crank": "starter turning",
    "engine": "engine on",
    "lights_on": "lights on",
    "lights_dimmed": "lights on, dimmer down",
    "lights_off": "lights off",
    "retained": "key off, not yet asleep",
    "radio_off": "radio off",
    "radio_on_zero": "radio on, volume zero",
    "radio_on_tone": "radio on, test tone",
    "tuner": "radio on, tuner",
    "other_source": "radio on, source other than the tuner",
    "auto_restart": "automatic restart",
    "unplugged": "plug off",
    "battery_off": "battery off",
}

QUANTITY_NAMES: dict[Quantity, tuple[str, str]] = {
    "dc_v": ("DC volts", "V"),
    "ac_v": ("AC volts", "V"),
    "ohm": ("ohms", "Ω"),
    "hz": ("frequency", "Hz"),
    "ma": ("current", "mA"),
    "duty_percent": ("duty", "%"),
}
"""Each quantity as what a meter is set to, and its unit."""

READING_UNITS: dict[Quantity, str] = {
    "dc_v": "V DC",
    "ac_v": "V AC",
    "ohm": "Ω",
    "hz": "Hz",
    "ma": "mA",
    "duty_percent": "% duty",
}
"""The unit behind a figure that stands alone, so that DC is not taken for AC."""

LOAD_NAMES: dict[Load, str] = {
    "none": "no load",
    "lamp_0.4a": "a 0.4 A lamp",
    "1a": "a 1 A load",
    "50ma": "a 50 mA load",
    "5ma": "a 5 mA load",
}

FACE_NAMES: dict[Face, str] = {
    "wire_side": "looking at the wires entering",
    "mating_side": "looking into the open face",
    "moulded": "numbers moulded into the housing",
    "unknown": "face not recorded",
}
VISIT_FACE_NAMES: dict[Face, str] = {
    **FACE_NAMES,
    "moulded": "by the numbers on the housing or of a bay sheet",
}
"""The same of a visit: a bay sheet prints the plug's own names, whichever face is looked at."""

CLAIM_NAMES: dict[ClaimMethod, str] = {
    "paper": "a printed diagram",
    "colour": "wire colour or position",
    "told": "hearsay",
    "job": "a finished job",
}
"""What a claim that nobody measured was taken from."""


LEG_SIGNS: dict[Leg, str] = {"positive": "+", "negative": "−"}

COST_WORDS: dict[Cost, str] = {
    "look": "just look",
    "panel": "pull a panel",
    "radio": "pull the radio",
}
"""What a tell-apart question costs, behind the question."""


def function_name(function: Function) -> str:
    """The function in words."""
    return FUNCTION_NAMES[function]


def short_function_name(function: Function) -> str:
    """The function's own word for the middle of a sentence: "constant", "amplifier turn-on"."""
    return SHORT_FUNCTION_NAMES.get(function, function.replace("_", " "))


FACTORY_SUB = "factory subwoofer"


def channel_name(channel: Channel | None) -> str:
    """The channel in words: "front-left-woofer" is "front left woofer".

    That of a subwoofer says that it is the car's: a job may add another.
    """
    return FACTORY_SUB if channel == "sub" else (channel or "").replace("-", " ")


def crossover_name(channel: Channel) -> str:
    """What the crossover before the two pairs of a channel is called: "crossover front left"."""
    return f"crossover {channel_name(channel)}"
