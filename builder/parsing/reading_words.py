"""How installers say states, loads, reference points and units; the word of the record for each."""

from __future__ import annotations

import re
from typing import Literal

from builder.model.words import Load, Quantity, Reference, State

EXAMPLE = "asleep 0.03 V battery 12.6 minutes 65"

DEAD_STATES: tuple[State, ...] = ("unplugged", "battery_off")
"""States in which a resistance may be read."""

STATE_SPELLINGS: dict[str, State] = {
    "sleep": "asleep",
    "sleeping": "asleep",
    "locked": "asleep",
    "door": "door_open",
    "key_out_door_open": "door_open",
    "acc": "accessory",
    "key_at_accessory": "accessory",
    "key_accessory": "accessory",
    "ignition": "run",
    "ignition_on": "run",
    "ign": "run",
    "key_on": "run",
    "key_at_run": "run",
    "key_run": "run",
    "cranking": "crank",
    "start": "crank",
    "starter_turning": "crank",
    "engine_running": "engine",
    "running": "engine",
    "engine_on": "engine",
    "lights": "lights_on",
    "headlights": "lights_on",
    "dimmed": "lights_dimmed",
    "lights_dim": "lights_dimmed",
    "dimmer_down": "lights_dimmed",
    "key_off_not_yet_asleep": "retained",
    "key_off": "retained",
    "key_off_door_shut": "retained",
    "key_off_door_not_opened": "retained",
    "radio_on": "radio_on_zero",
    "radio_on_volume_zero": "radio_on_zero",
    "volume_zero": "radio_on_zero",
    "radio_zero": "radio_on_zero",
    "tone": "radio_on_tone",
    "radio_tone": "radio_on_tone",
    "radio_tuner": "tuner",
    "source": "other_source",
    "restart": "auto_restart",
    "pulled": "unplugged",
    "plug_pulled": "unplugged",
    "plug_off": "unplugged",
    "battery_disconnected": "battery_off",
}

LOAD_SPELLINGS: dict[str, Load] = {
    "no": "none",
    "nothing": "none",
    "lamp": "lamp_0.4a",
    "0.4a": "lamp_0.4a",
    "5w": "lamp_0.4a",
    "1": "1a",
    "1000ma": "1a",
    "50": "50ma",
    "5": "5ma",
}

AGAINST_SPELLINGS: dict[str, Reference | Literal["pair"]] = {
    "battery_negative": "battery_negative",
    "battery": "battery_negative",
    "negative": "battery_negative",
    "ground": "battery_negative",
    "body": "body",
    "chassis": "body",
    "pair": "pair",
    "other_leg": "pair",
    "the_pair": "pair",
    "other_wire": "pair",
}
"""`pair` is the other wire of the pair, whichever cavity it is in."""

OPEN = ("open", "ol")
"""What a meter shows when nothing is joined, as people type it."""

CAVITY = re.compile(r"(?:[a-z][a-z0-9]{0,3}\.)?(?:[1-9][0-9]{0,2}|[a-z][0-9]{0,2})")

UNITS: dict[str, tuple[Quantity, float]] = {
    "v": ("dc_v", 1.0),
    "volt": ("dc_v", 1.0),
    "volts": ("dc_v", 1.0),
    "vdc": ("dc_v", 1.0),
    "mv": ("dc_v", 0.001),
    "vac": ("ac_v", 1.0),
    "mvac": ("ac_v", 0.001),
    "ohm": ("ohm", 1.0),
    "ohms": ("ohm", 1.0),
    "ω": ("ohm", 1.0),
    "k": ("ohm", 1e3),
    "kohm": ("ohm", 1e3),
    "kω": ("ohm", 1e3),
    "mohm": ("ohm", 1e6),
    "megohm": ("ohm", 1e6),
    "mω": ("ohm", 1e6),
    "hz": ("hz", 1.0),
    "khz": ("hz", 1e3),
    "ma": ("ma", 1.0),
    "a": ("ma", 1e3),
    "%": ("duty_percent", 1.0),
}
"""Unit in lower case to quantity and factor. `mohm` is megohm: no meter shows milliohms here."""

LIMITS: dict[Quantity, tuple[float, float, str]] = {
    "dc_v": (-20, 60, "V"),
    "ac_v": (0, 60, "V"),
    "ohm": (0, 1e9, "Ω"),
    "hz": (0, 1e6, "Hz"),
    "ma": (-500_000, 500_000, "mA"),
    "duty_percent": (0, 100, "%"),
}
"""Least and most that a reading of each quantity can be; those of the record format."""
