"""The words people use for functions and channels.

Source: common practice, no source; the terminal numbers are those of DIN 72552-2
(30 and 31 read; 15R and 58d second-hand). A word of several tokens is matched longest first.
"""

from __future__ import annotations

FUNCTION_WORDS: dict[str, tuple[str, ...]] = {
    "constant": ("constant", "constant_sleeps"),
    "permanent": ("constant", "constant_sleeps"),
    "battery": ("constant", "constant_sleeps"),
    "b+": ("constant", "constant_sleeps"),
    "memory": ("constant", "constant_sleeps"),
    "always on": ("constant", "constant_sleeps"),
    "30": ("constant", "constant_sleeps"),
    "switched": ("retained", "accessory", "run"),
    "switched power": ("retained", "accessory", "run"),
    "switched 12v": ("retained", "accessory", "run"),
    "acc": ("accessory", "retained"),
    "accessory": ("accessory", "retained"),
    "15r": ("accessory", "retained"),
    "retained": ("retained",),
    "ignition": ("run", "accessory", "retained"),
    "ign": ("run", "accessory", "retained"),
    "run": ("run",),
    "15": ("run", "accessory", "retained"),
    "key": ("accessory", "retained", "run"),
    "ground": ("ground",),
    "gnd": ("ground",),
    "earth": ("ground",),
    "31": ("ground",),
    "minus": ("ground",),
    "illumination": ("illumination", "illumination_return"),
    "illum": ("illumination", "illumination_return"),
    "lights": ("illumination", "illumination_return"),
    "dimmer": ("illumination", "illumination_return"),
    "58": ("illumination", "illumination_return"),
    "amp on": ("amplifier_on",),
    "amplifier on": ("amplifier_on",),
    "amplifier turn on": ("amplifier_on",),
    "turn on": ("amplifier_on", "retained", "accessory"),
    "remote": ("amplifier_on", "retained", "accessory"),
    "trigger": ("amplifier_on", "retained", "accessory"),
    "aerial": ("aerial_on",),
    "antenna": ("aerial_on",),
    "mute": ("mute",),
    "speaker": ("speaker",),
    "speakers": ("speaker",),
    "spk": ("speaker",),
    "line": ("line",),
    "line out": ("line",),
    "data": ("data_high", "data_low", "data_single"),
    "bus": ("data_high", "data_low", "data_single"),
    "reverse": ("reverse",),
    "speed": ("speed",),
    "speed pulse": ("speed",),
    "park brake": ("park_brake",),
    "parking brake": ("park_brake",),
    "hand brake": ("park_brake",),
    "camera": ("camera_supply", "camera_signal"),
    "mic": ("microphone",),
    "microphone": ("microphone",),
    "wheel keys": ("wheel_keys",),
    "steering wheel": ("wheel_keys",),
    "shield": ("shield",),
}

CHANNEL_WORDS: dict[str, tuple[str, ...]] = {
    "front left": ("front-left",),
    "left front": ("front-left",),
    "fl": ("front-left",),
    "lf": ("front-left",),
    "front right": ("front-right",),
    "right front": ("front-right",),
    "fr": ("front-right",),
    "rf": ("front-right",),
    "rear left": ("rear-left",),
    "left rear": ("rear-left",),
    "rl": ("rear-left",),
    "lr": ("rear-left",),
    "rear right": ("rear-right",),
    "right rear": ("rear-right",),
    "rr": ("rear-right",),
    "front": ("front-left", "front-right"),
    "fronts": ("front-left", "front-right"),
    "rear": ("rear-left", "rear-right"),
    "rears": ("rear-left", "rear-right"),
    "centre": ("centre",),
    "center": ("centre",),
    "sub": ("sub",),
    "subwoofer": ("sub",),
    "woofer": ("woofer",),
    "woofers": ("woofer",),
    "tweeter": ("tweeter",),
    "tweeters": ("tweeter",),
}

COLOUR_WORDS: dict[str, str] = {
    "black": "black",
    "white": "white",
    "red": "red",
    "green": "green",
    "blue": "blue",
    "yellow": "yellow",
    "grey": "grey",
    "gray": "grey",
    "brown": "brown",
    "violet": "violet",
    "purple": "violet",
    "orange": "orange",
    "pink": "pink",
    "tan": "tan",
}

NOISE = frozenset(
    {"which", "what", "where", "is", "the", "a", "on", "of", "in", "for", "pin", "wire", "cavity"}
    | {"plug", "car", "me", "power", "12v", "colour", "color", "radio"}
)

MAIN_ANSWERS = (
    "constant",
    "constant_sleeps",
    "retained",
    "accessory",
    "run",
    "ground",
    "amplifier_on",
    "illumination",
    "speaker",
)
"""What is answered when the question names no function, in this order."""

LONGEST_WORD = 3  # tokens
