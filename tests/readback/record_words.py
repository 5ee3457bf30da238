"""What a person would say for the words of a record, written down apart from the builder."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

FUNCTIONS = {
    "constant": "constant supply",
    "constant_sleeps": "supply that sleeps",
    "accessory": "accessory supply",
    "run": "run supply",
    "retained": "retained supply",
    "illumination": "illumination",
    "illumination_return": "illumination return",
    "ground": "ground",
    "speaker": "speaker",
    "line": "line to factory amplifier",
    "amplifier_on": "amplifier turn-on output",
    "aerial_on": "aerial turn-on output",
    "mute": "mute",
    "data_high": "data, high",
    "data_low": "data, low",
    "data_single": "data, single",
    "shield": "shield",
    "speed": "speed",
    "reverse": "reverse",
    "park_brake": "parking brake",
    "camera_supply": "camera supply",
    "camera_signal": "camera signal",
    "microphone": "microphone",
    "wheel_keys": "steering-wheel keys",
    "not_used": "not used",
    "unknown": "not known",
}
STATES = {
    "asleep": "asleep",
    "door_open": "door open",
    "accessory": "accessory",
    "run": "run",
    "crank": "starter turning",
    "engine": "engine on",
    "lights_on": "lights on",
    "lights_dimmed": "dimmer down",
    "lights_off": "lights off",
    "retained": "key off, not yet asleep",
    "radio_off": "radio off",
    "radio_on_zero": "volume zero",
    "radio_on_tone": "test tone",
    "tuner": "radio on, tuner",
    "other_source": "source other than the tuner",
    "auto_restart": "automatic restart",
    "unplugged": "plug off",
    "battery_off": "battery off",
}
UNITS = {
    "dc_v": "V DC",
    "ac_v": "V AC",
    "ohm": "Ω",
    "hz": "Hz",
    "ma": "mA",
    "duty_percent": "% duty",
}
LOADS = {"lamp_0.4a": "0.4 A lamp", "1a": "1 A load", "50ma": "50 mA load", "5ma": "5 mA load"}
SIGNS = {"positive": "+", "negative": "−"}
SIDES = {"left": "driver on the left", "right": "driver on the right", "both": "either driver side"}


def read_record(path: Path) -> dict[str, Any]:
    """A record as plain YAML gives it, every value as the text that was typed."""
    record: dict[str, Any] = yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader)
    visits = path.parents[2] / "visits" / path.stem
    found = [yaml.load(one.read_text("utf-8"), yaml.BaseLoader) for one in visits.glob("*.yaml")]
    for visit in sorted(found, key=lambda one: (one["sessions"][0]["date"], one["id"])):
        _add(record, visit)
    return record


def _add(record: dict[str, Any], visit: dict[str, Any]) -> None:
    """What a visit measured, under the pins of its vehicle."""
    record["sessions"] = [*record["sessions"], *visit["sessions"]]
    for place in visit["places"]:
        if "fuse_position" in place:
            holders = [
                one
                for one in record["fuse_positions"]
                if (one["panel"], one["position"]) == (place["panel"], place["fuse_position"])
            ]
        else:
            (plug,) = [one for one in record["plugs"] if one["id"] == place["plug"]]
            holders = [pin for pin in plug["pins"] if pin["cavity"] == place["cavity"]]
        (holder,) = holders
        holder["readings"] = [*holder.get("readings", []), *place["readings"]]


def figure(typed: str, unit: str) -> str:
    """A typed number with its unit, without the zeros that say nothing: "12.40" as "12.4 V"."""
    return f"{float(typed):.10g} {unit}"


def plain(word: str) -> str:
    """A word of the record with spaces."""
    return word.replace("-", " ").replace("_", " ")


def wire(pin: dict[str, Any]) -> str:
    """The colours of a pin's wire, base first."""
    if "wire" not in pin:
        return "not recorded"
    colours = pin["wire"]
    return f"{colours['base']}/{colours['stripe']}" if "stripe" in colours else colours["base"]
