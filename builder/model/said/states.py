"""How people say the states of a car, loads and what the other probe is on; no source for any."""

from __future__ import annotations

from typing import Literal

from builder.model.words import Load, Reference, State

STATE_WORDS: dict[State, tuple[str, ...]] = {
    "asleep": ("asleep", "sleep", "sleeping", "key out locked", "locked", "car asleep"),
    "door_open": ("door open", "door", "key out door open"),
    "accessory": ("acc", "accessory", "key acc", "key at accessory", "key accessory", "acc on"),
    "run": (
        *("run", "ign", "ignition", "key run", "ignition on", "ign on", "key on", "key at run"),
        *("kl 15 on", "key at ignition"),
    ),
    "crank": ("crank", "cranking", "start", "starter turning", "starting", "starter"),
    "engine": ("engine", "engine running", "engine on", "running", "idle", "idling"),
    "lights_on": ("lights on", "lamps on", "lights", "headlights", "headlights on"),
    "lights_dimmed": ("lights dimmed", "dimmed", "lights dim", "dimmer down"),
    "lights_off": ("lights off", "lamps off", "headlights off"),
    "retained": (
        *("retained", "key off retained", "key off not yet asleep", "key off"),
        *("key off door shut", "key off door not opened", "ign off", "ignition off"),
    ),
    "radio_off": ("radio off",),
    "radio_on_zero": (
        *("radio on zero", "radio zero", "volume zero", "radio on volume 0", "radio on"),
        *("radio on volume zero", "vol 0", "volume 0"),
    ),
    "radio_on_tone": ("radio on tone", "radio tone", "tone", "test tone", "radio on test tone"),
    "tuner": ("tuner", "radio tuner", "radio on tuner"),
    "other_source": ("other source", "source"),
    "auto_restart": ("auto restart", "restart", "automatic restart"),
    "unplugged": ("unplugged", "pulled", "plug pulled", "plug off", "plug out"),
    "battery_off": ("battery off", "battery disconnected", "batt off"),
}
"""The first of each is what a table's heading is written with."""
ALIKE_STATES: dict[str, tuple[State, ...]] = {
    "off": ("asleep", "retained"),
    "all off": ("asleep", "retained"),
    "key out": ("asleep", "door_open"),
    "on": ("accessory", "run"),
}
"""What is said for more than one state: asked back."""

LOAD_WORDS: dict[Load, tuple[str, ...]] = {
    "none": ("no", "nothing"),
    "lamp_0.4a": ("lamp 0.4a", "lamp", "0.4a", "5w", "5 w bulb", "5w bulb", "5w lamp"),
    "1a": ("1a", "1 a", "1", "1000ma"),
    "50ma": ("50ma", "50 ma", "50"),
    "5ma": ("5ma", "5 ma", "5"),
}
"""The second of "1a" and the first of the others is what a table's heading is written with."""

AGAINST_WORDS: dict[Reference | Literal["pair"], tuple[str, ...]] = {
    "battery_negative": (
        *("battery negative", "battery", "negative", "ground", "battery minus", "batt -"),
        *("battery -",),
    ),
    "body": ("body", "chassis", "body metal", "bodywork"),
    "pair": ("pair", "other leg", "the pair", "other wire", "partner", "the other wire"),
}
"""`pair` is the other wire of the pair, whichever cavity it is in."""
HEADING_AGAINST: dict[str, Reference] = dict.fromkeys(("ground", "earth", "gnd"), "body")
"""In a heading, where a resistance is told from a supply's reading, ground is the body."""
