"""Signatures of illumination, turn-on outputs and wires that switch something.

Every band is common practice without a published source, except where a line names one;
the figures that a shop may change are house defaults.
"""

from __future__ import annotations

from builder.model.words import State
from builder.proof.signatures.row_making import (
    ABOVE_BATTERY,
    KEYED,
    LIT,
    SMALL,
    at,
    battery,
    house,
    line,
    off,
)
from builder.proof.signatures.shapes import Signature
from builder.proof.words import Defining

_RADIO: tuple[State, ...] = ("radio_on_zero", "radio_on_tone", "tuner")
_LAMPS: dict[Defining, str] = {"lights_off": "lights off", "lights_on": "lights on"}
_DARK = (
    off(("lights_off",), proves=("lights_off",)),
    off(("asleep", "accessory", "run", "retained")),
)

ILLUMINATION = Signature(
    "illumination_steady",
    "illumination",
    "steady illumination feed",
    _LAMPS,
    (
        *_DARK,
        line(("lights_on",), house("illumination_min_v"), ABOVE_BATTERY, proves=("lights_on",)),
        line(("lights_dimmed",), house("pulse_average_min_v"), ABOVE_BATTERY),
    ),
    note="Never load it: a lamp disturbs the dimmer.",
)

ILLUMINATION_PULSED = Signature(
    "illumination_pulsed",
    "illumination",
    "pulsed illumination feed",
    _LAMPS,
    (
        *_DARK,
        line(
            ("lights_on", "lights_dimmed"),
            house("pulse_average_min_v"),
            ABOVE_BATTERY,
            proves=("lights_on",),
            note="a meter shows the average: duty × battery volts",
        ),
        line(("lights_on", "lights_dimmed"), at(2), at(100), quantity="duty_percent"),
        line(("lights_on", "lights_dimmed"), at(30), at(5000), quantity="hz"),
    ),
    note="Never load it: a lamp disturbs the dimmer.",
)

ILLUMINATION_RETURN = Signature(
    "illumination_return",
    "illumination_return",
    "illumination return (dimmer)",
    {"lights_on": "lights on, dimmer at full", "lights_dimmed": "lights on, dimmer turned down"},
    (
        off(("asleep", "lights_off")),
        line(
            ("lights_on",),
            house("off_max_v", -1),
            house("illumination_min_v"),
            proves=("lights_on",),
        ),
        line(
            ("lights_dimmed",),
            house("pulse_average_min_v"),
            ABOVE_BATTERY,
            proves=("lights_dimmed",),
            note="rises as the dimmer is turned down",
        ),
    ),
    note="Never load it, and never use it as a ground.",
)

_TURN_ON: dict[Defining, str] = {
    "radio_off": "radio off",
    "radio_on": "radio on",
    "source": "radio on, a second source chosen",
    "loaded": "radio on, under 50 mA (5 mA when it reads less than 9 V)",
}

AMPLIFIER_ON = Signature(
    "amplifier_on_12v",
    "amplifier_on",
    "12 V turn-on output for an amplifier",
    _TURN_ON,
    (
        off(("asleep",)),
        off(("radio_off",), proves=("radio_off",)),
        line(_RADIO, house("turn_on_min_v"), ABOVE_BATTERY, proves=("radio_on",)),
        line(("other_source",), house("turn_on_min_v"), ABOVE_BATTERY, proves=("source",)),
        line(
            (*_RADIO, "other_source"),
            house("turn_on_min_v"),
            ABOVE_BATTERY,
            loads=SMALL,
            proves=("loaded",),
        ),
    ),
    SMALL,
    note="Stays on whatever the radio plays.",
)

AMPLIFIER_ON_LOGIC = Signature(
    "amplifier_on_logic",
    "amplifier_on",
    "logic-level turn-on output for an amplifier",
    _TURN_ON,
    (
        off(("asleep",)),
        off(("radio_off",), proves=("radio_off",)),
        line(_RADIO, house("logic_on_min_v"), house("logic_on_max_v"), proves=("radio_on",)),
        line(
            ("other_source",),
            house("logic_on_min_v"),
            house("logic_on_max_v"),
            proves=("source",),
        ),
        line(
            (*_RADIO, "other_source"),
            house("logic_on_min_v"),
            house("logic_on_max_v"),
            loads=("5ma",),
            proves=("loaded",),
        ),
    ),
    ("5ma",),
    note="3.3 V or 5 V: needs a driver and draws at most 5 mA.",
)

AERIAL_ON = Signature(
    "aerial_on",
    "aerial_on",
    "aerial turn-on output",
    {"radio_off": "radio off", "tuner": "radio on, tuner chosen"},
    (
        off(("asleep",)),
        off(("radio_off",), proves=("radio_off",)),
        line(("tuner",), house("turn_on_min_v"), ABOVE_BATTERY, proves=("tuner",)),
        line(
            ("other_source",),
            house("off_max_v", -1),
            house("off_max_v"),
            strict=False,
            note="may be dead on sources other than the tuner",
        ),
        line(("tuner",), house("turn_on_min_v"), ABOVE_BATTERY, loads=SMALL),
    ),
    SMALL,
    note="May follow the source: never a turn-on for an amplifier.",
)

_IDLE: tuple[State, ...] = ("accessory", "run", *_RADIO, "other_source")

MUTE_ACTIVE_LOW = Signature(
    "mute_active_low",
    "mute",
    "mute input that idles high",
    {},
    (line(_IDLE, battery(plus=-1), ABOVE_BATTERY, note="falls below 1 V in a call"),),
    note="Only a call shows a mute wire; no state of the list does, so readings never prove it.",
)

MUTE_ACTIVE_HIGH = Signature(
    "mute_active_high",
    "mute",
    "mute input that idles low",
    {},
    (line(_IDLE, at(-0.3), at(1), note="rises to the battery in a call"),),
    note="Only a call shows a mute wire; no state of the list does, so readings never prove it.",
)

REVERSE = Signature(
    "reverse",
    "reverse",
    "reverse signal",
    {},
    (
        off(("asleep", "accessory", "retained", "door_open", *LIT)),
        line(
            ("run", "engine"),
            battery("supply_drop_v", -1),
            ABOVE_BATTERY,
            strict=False,
            note="live only with reverse gear in",
        ),
    ),
    note="Only reverse gear shows it; no state of the list does, so readings never prove it.",
)

PARK_BRAKE = Signature(
    "park_brake",
    "park_brake",
    "park-brake signal",
    {},
    (
        line(
            (*KEYED,),
            house("off_max_v", -1),
            house("off_max_v"),
            strict=False,
            note="grounded with the brake on",
        ),
    ),
    note="Changes with the brake only; no state of the list shows it, so readings never prove it.",
)

CONTROL_SIGNATURES = (
    ILLUMINATION,
    ILLUMINATION_PULSED,
    ILLUMINATION_RETURN,
    AMPLIFIER_ON,
    AMPLIFIER_ON_LOGIC,
    AERIAL_ON,
    MUTE_ACTIVE_LOW,
    MUTE_ACTIVE_HIGH,
    REVERSE,
    PARK_BRAKE,
)
