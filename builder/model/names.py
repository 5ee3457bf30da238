"""The words of the records as a person says them. One table, for pages and the command."""

from __future__ import annotations

FUNCTION_NAMES: dict[str, str] = {
    "constant": "constant supply",
    "constant_sleeps": "supply that sleeps with the network",
    "accessory": "accessory (switched)",
    "run": "run / ignition (switched)",
    "retained": "retained accessory (switched)",
    "illumination": "illumination",
    "illumination_return": "illumination return",
    "ground": "ground",
    "speaker": "speaker",
    "line": "line to factory amplifier",
    "amplifier_on": "amplifier-on output",
    "aerial_on": "aerial-on output",
    "mute": "mute",
    "data_high": "data high",
    "data_low": "data low",
    "data_single": "one-wire data",
    "shield": "shield",
    "speed": "speed pulse",
    "reverse": "reverse",
    "park_brake": "park brake",
    "camera_supply": "camera supply",
    "camera_signal": "camera signal",
    "microphone": "microphone",
    "wheel_keys": "wheel keys",
    "not_used": "not used",
    "unknown": "unknown",
}

STATE_NAMES: dict[str, str] = {
    "asleep": "asleep",
    "door_open": "door open, key out",
    "accessory": "key in accessory",
    "run": "key in run",
    "crank": "cranking",
    "engine": "engine running",
    "lights_on": "lights on",
    "lights_dimmed": "lights on, dimmed",
    "lights_off": "lights off",
    "retained": "key off, door not opened",
    "radio_off": "radio off",
    "radio_on_zero": "radio on, volume 0",
    "radio_on_tone": "radio on, playing a tone",
    "tuner": "radio on tuner",
    "other_source": "radio on another source",
    "auto_restart": "start-stop restart",
    "unplugged": "plug out of the radio",
    "battery_off": "battery negative off",
}

LOAD_NAMES: dict[str, str] = {
    "none": "no load",
    "lamp_0.4a": "5 W lamp (0.4 A)",
    "1a": "1 A load",
    "50ma": "50 mA load",
    "5ma": "5 mA load",
}

FACE_NAMES: dict[str, str] = {
    "wire_side": "looking at the wires entering",
    "mating_side": "looking into the open face",
    "moulded": "numbers moulded on the shell",
    "unknown": "not known",
}


def function_name(function: str) -> str:
    """The function in words; an unknown word is returned as it is."""
    return FUNCTION_NAMES.get(function, function.replace("_", " "))


def channel_name(channel: str | None) -> str:
    """The channel in words: "front-left-woofer" is "front left woofer"."""
    return (channel or "").replace("-", " ")
