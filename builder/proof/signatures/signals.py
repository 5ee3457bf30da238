"""Signatures of data wires, sensors, camera, microphone, shields and empty cavities.

Every band is common practice without a published source, except where a line names one;
the figures that a shop may change are house defaults.
"""

from __future__ import annotations

from builder.model.words import State
from builder.proof.signatures.row_making import (
    AWAKE,
    KEYED,
    RADIO_ON,
    at,
    house,
    line,
    off,
    ohms,
)
from builder.proof.signatures.shapes import Signature
from builder.proof.words import Defining

_DATA: dict[Defining, str] = {
    "awake": "accessory or run, average volts",
    "across": "ohms across the data pair",
}
_DATA_OHMS = ohms(
    house("data_pair_min_ohm"),
    house("data_pair_max_ohm"),
    against="other_leg",
    proves=("across",),
    note="60 Ω with both ends joined, 120 Ω with one",
)
_AT_WORK: tuple[State, ...] = (*KEYED, *RADIO_ON)

DATA_HIGH = Signature(
    "data_high",
    "data_high",
    "high wire of a data pair",
    _DATA,
    (
        line(("asleep",), at(-0.3), house("data_high_max_v"), meets_from=""),
        line(_AT_WORK, house("data_high_min_v"), house("data_high_max_v"), proves=("awake",)),
        _DATA_OHMS,
    ),
    partner="data_low",
    note="Never load it.",
)
DATA_LOW = Signature(
    "data_low",
    "data_low",
    "low wire of a data pair",
    _DATA,
    (
        line(("asleep",), at(-0.3), house("data_low_max_v"), meets_from=""),
        line(_AT_WORK, house("data_low_min_v"), house("data_low_max_v"), proves=("awake",)),
        _DATA_OHMS,
    ),
    partner="data_high",
    note="Never load it.",
)
DATA_SINGLE = Signature(
    "data_single",
    "data_single",
    "single data wire",
    {"awake": "accessory or run, average volts", "flicker": "the same, AC volts"},
    (
        line(
            _AT_WORK,
            house("data_single_min_v"),
            house("data_single_max_v"),
            proves=("awake",),
            note="flickers",
        ),
        line(_AT_WORK, at(0.3), at(8), quantity="ac_v", proves=("flicker",)),
    ),
    note="Never load it.",
)

SPEED = Signature(
    "speed",
    "speed",
    "speed signal",
    {"pulses": "frequency with the car rolling"},
    (
        off(("asleep",)),
        line(("run", "engine"), at(0.2), at(2000), quantity="hz", proves=("pulses",)),
    ),
    note="At a standstill it rests at 0, 5 or 12 V; it toggles when the car is rolled.",
)
CAMERA_SUPPLY = Signature(
    "camera_supply",
    "camera_supply",
    "camera supply output",
    {"asleep": "asleep: key out, locked, waited out", "radio_on": "radio on, volume zero"},
    (
        off(("asleep",), proves=("asleep",)),
        line(RADIO_ON, house("camera_min_v"), house("camera_max_v"), proves=("radio_on",)),
        line(
            ("accessory", "run", "engine"),
            house("camera_min_v"),
            house("camera_max_v"),
            strict=False,
            note="may wait for reverse gear",
        ),
    ),
    note="Never a turn-on: it feeds a camera.",
)
CAMERA_SIGNAL = Signature(
    "camera_signal",
    "camera_signal",
    "camera picture signal",
    {},
    (
        off(("asleep",)),
        line(RADIO_ON, at(-0.3), house("illumination_min_v")),
        ohms(at(60), at(90), strict=False, note="75 Ω of a camera at rest"),
    ),
)
MICROPHONE = Signature(
    "microphone",
    "microphone",
    "microphone wire",
    {"asleep": "asleep: key out, locked, waited out", "awake": "radio on or accessory"},
    (
        off(("asleep",), proves=("asleep",)),
        line(
            ("accessory", "run", *RADIO_ON),
            house("microphone_min_v"),
            house("microphone_max_v"),
            proves=("awake",),
        ),
    ),
    note="Never load it.",
)
WHEEL_KEYS = Signature(
    "wheel_keys",
    "wheel_keys",
    "wheel-key wire",
    {"awake": "accessory, no key pressed", "ohms": "ohms of the keys, plug off"},
    (
        off(("asleep",)),
        line(
            ("accessory", "run", *RADIO_ON),
            house("wheel_keys_min_v"),
            house("wheel_keys_max_v"),
            proves=("awake",),
            note="steps down with each key",
        ),
        ohms(at(100), at(10_000), proves=("ohms",), note="steps with each key"),
    ),
)
SHIELD = Signature(
    "shield",
    "shield",
    "cable shield",
    {"ohms": "ohms to the body on a dead circuit"},
    (
        line(
            ("asleep", *AWAKE),
            house("ground_idle_v", -1),
            house("ground_idle_v"),
            meets_from="",
            contradicts_from="",
        ),
        ohms(None, house("ground_ohm"), proves=("ohms",), strict=False),
    ),
    note="Never a ground: it carries no current.",
)
NOT_USED = Signature(
    "not_used",
    "not_used",
    "wire with nothing connected",
    {"run": "run", "ohms": "ohms to the body, plug off: open"},
    (
        line(("run",), at(-0.1), at(0.1), proves=("run",)),
        line(
            ("asleep", *(state for state in AWAKE if state != "run"), "retained"),
            at(-0.1),
            at(0.1),
        ),
        ohms(house("body_open_ohm"), None, proves=("ohms",)),
    ),
)

SIGNAL_SIGNATURES = (
    DATA_HIGH,
    DATA_LOW,
    DATA_SINGLE,
    SPEED,
    CAMERA_SUPPLY,
    CAMERA_SIGNAL,
    MICROPHONE,
    WHEEL_KEYS,
    SHIELD,
    NOT_USED,
)
