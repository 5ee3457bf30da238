"""Words of the records as a person would read them, and figures with their units."""

from __future__ import annotations

import re
from functools import lru_cache

FUNCTIONS = {
    "constant": "constant supply",
    "constant_sleeps": "supply that sleeps with the network",
    "accessory": "switched: accessory",
    "run": "switched: run only",
    "retained": "switched: retained accessory",
    "illumination_return": "illumination return (dimmer)",
    "amplifier_on": "amplifier turn-on output",
    "aerial_on": "aerial turn-on output",
    "data_high": "data, high wire",
    "data_low": "data, low wire",
    "data_single": "data, single wire",
    "park_brake": "parking brake",
    "wheel_keys": "steering-wheel keys",
    "not_used": "not used",
    "unknown": "function not known",
}
STATES = {
    "asleep": "the car asleep (key out, locked)",
    "door_open": "a door open",
    "accessory": "the key in accessory",
    "run": "the key in run",
    "crank": "the engine cranking",
    "engine": "the engine running",
    "lights_on": "the lights on",
    "lights_dimmed": "the lights dimmed",
    "lights_off": "the lights off",
    "retained": "the key off, no door opened",
    "radio_off": "the radio off",
    "radio_on_zero": "the radio on at volume 0",
    "radio_on_tone": "the radio playing a tone",
    "tuner": "the radio on tuner",
    "other_source": "the radio on another source",
    "auto_restart": "a restart by start-stop",
    "unplugged": "the plug off",
    "battery_off": "the battery disconnected",
}
UNITS = {
    "dc_v": "V DC",
    "ac_v": "V AC",
    "ohm": "Ω",
    "hz": "Hz",
    "ma": "mA",
    "duty_percent": "% duty",
}
LOADS = {
    "none": "no load",
    "lamp_0.4a": "0.4 A lamp",
    "1a": "1 A load",
    "50ma": "50 mA",
    "5ma": "5 mA",
}
METHODS = {
    "paper": "a printed diagram",
    "colour": "wire colour or position",
    "told": "hearsay",
    "job": "a finished job",
}
FACES = {
    "wire_side": "looking at the wires entering",
    "mating_side": "looking into the open face",
    "moulded": "numbers moulded into the shell",
    "unknown": "face not recorded",
}
GRADE_MARKS = {
    "proven": "■■■■",
    "good": "■■■□",
    "check first": "■■□□",
    "don't rely": "■□□□",
    "unproved": "□□□□",
    "disputed": "■≠■",
}
"""A mark that is read without colour, for each grade word."""
PLAN_KINDS = {"tap_plan": "Tap plan", "probe_plan": "Probe plan", "no_plan": "No plan"}
_NOT_ANCHOR = re.compile(r"[^A-Za-z0-9]+")


def plain(word: str) -> str:
    """A word of the records with spaces: "front-left" as "front left"."""
    return word.replace("_", " ").replace("-", " ")


def function_words(function: str) -> str:
    """What a pin does, as a person would say it."""
    return FUNCTIONS.get(function) or plain(function)


def state_words(state: str) -> str:
    """A state of the car, as a person would set it."""
    return STATES.get(state) or plain(state)


def against_words(against: str) -> str:
    """What a reading was taken against."""
    if against in ("battery_negative", "body"):
        return plain(against)
    return f"pin {against}" if "." in against else f"cavity {against}"


@lru_cache(maxsize=4096)
def anchor(*parts: str) -> str:
    """A fragment name made of `parts`; only letters, digits and hyphens."""
    return "-".join(_NOT_ANCHOR.sub("-", part) for part in parts)


def pin_anchor(plug: str, cavity: str) -> str:
    """Where a pin stands on its vehicle's page."""
    return anchor("pin", plug, cavity)


def figure(value: float | None, unit: str, otherwise: str = "not recorded") -> str:
    """A number with its unit, without trailing zeros; `otherwise` for None."""
    if value is None:
        return otherwise
    return f"{value:.10g} {unit}".rstrip()


def listed(words: tuple[str, ...], otherwise: str) -> str:
    """Words joined by commas; `otherwise` for none."""
    return ", ".join(words) if words else otherwise


def grade_mark(band: str) -> str:
    """The mark that stands beside a grade word."""
    return GRADE_MARKS.get(band, "□□□□")


def url_name(name: str) -> str:
    """A file name made of a person's word: "Corvane" as "corvane", "Büro" as "buFCro".

    Letters beyond ASCII become capitals, which the rest never has, so that words that differ
    in them differ in their file names.
    """
    spelled = "".join(
        f"u{ord(sign):X}" if sign.isalnum() and not sign.isascii() else sign
        for sign in name.lower()
    )
    return _NOT_ANCHOR.sub("-", spelled).strip("-") or "unnamed"


def plan_url(vehicle_id: str, converter_id: str) -> str:
    """Where the plan of a vehicle with a converter stands."""
    return f"plans/{vehicle_id}--{converter_id}.html"
