"""Signatures of supplies, grounds, illumination and turn-on wires.

Every band is common practice without a published source, except where a line names one;
the figures that a shop may change are house defaults.
"""

from __future__ import annotations

from builder.model.words import State
from builder.proof.row_making import (
    ABOVE_BATTERY,
    AWAKE,
    HEAVY,
    KEYED,
    LIGHT,
    LIT,
    SMALL,
    STARTING,
    at,
    battery,
    house,
    line,
    off,
    ohms,
    on,
)
from builder.proof.shapes import Row, Signature

_ASLEEP = "asleep: key out, locked, waited out"
_ACCESSORY = "key at accessory"
_RETAINED = "key off, door not opened"
_RUN = "key at run"
_LOADED = "under a 0.4 A or 1 A test load"
_RADIO: tuple[State, ...] = ("radio_on_zero", "radio_on_tone", "tuner")


def _matches_battery(states: tuple[State, ...], *, proves: tuple[str, ...] = ()) -> Row:
    low = battery("supply_match_v", -1)
    return line(states, low, ABOVE_BATTERY, loads=LIGHT, proves=proves)


def _holds_loaded(states: tuple[State, ...], proves: tuple[str, ...]) -> Row:
    low = battery("supply_drop_v", -1)
    return line(states, low, ABOVE_BATTERY, loads=HEAVY, proves=proves, note="held under load")


_CRANK_ALIVE = line(
    STARTING, house("crank_alive_min_v"), ABOVE_BATTERY, loads=(), note="follows the battery"
)
_CRANK_OFF = line(("crank",), house("off_max_v", -1), house("crank_off_max_v"), loads=())

CONSTANT = Signature(
    "constant",
    "constant",
    "constant supply",
    {"asleep": "asleep for at least an hour: key out, locked", "loaded": _LOADED},
    (
        line(
            ("asleep",),
            battery("supply_match_v", -1),
            ABOVE_BATTERY,
            loads=LIGHT,
            proves=("asleep",),
            proves_from="asleep_proved_min",
            contradicts_from="",
        ),
        line(
            ("asleep",),
            battery("supply_drop_v", -1),
            ABOVE_BATTERY,
            loads=HEAVY,
            proves=("asleep", "loaded"),
            proves_from="asleep_proved_min",
            contradicts_from="",
            note="held under load",
        ),
        _matches_battery((*AWAKE, "retained")),
        _holds_loaded((*AWAKE, "retained"), ("loaded",)),
        _CRANK_ALIVE,
    ),
    HEAVY,
)

CONSTANT_SLEEPS = Signature(
    "constant_sleeps",
    "constant_sleeps",
    "supply that sleeps with the network",
    {"asleep": "asleep: dead after some minutes", "awake": "awake: door open or any key position"},
    (
        line(
            ("asleep",),
            house("off_max_v", -1),
            house("slept_max_v"),
            loads=(),
            proves=("asleep",),
            meets_from="",
            proves_from="",
            contradicts_from="asleep_proved_min",
            note="dies with the network, 10 to 60 minutes after locking",
        ),
        _matches_battery(AWAKE, proves=("awake",)),
        _holds_loaded(AWAKE, ("awake",)),
        _CRANK_ALIVE,
    ),
    HEAVY,
    note="Never a constant: it takes the radio's memory with it.",
)

ACCESSORY = Signature(
    "accessory",
    "accessory",
    "accessory supply",
    {"asleep": _ASLEEP, "accessory": _ACCESSORY, "retained": _RETAINED + ": dead"},
    (
        off(("asleep",), proves=("asleep",)),
        off(("door_open",)),
        off(("retained",), proves=("retained",)),
        on(("accessory",), proves=("accessory",)),
        on(("run", "engine")),
        _CRANK_OFF,
    ),
    HEAVY,
)

RETAINED = Signature(
    "retained",
    "retained",
    "retained accessory supply",
    {"asleep": _ASLEEP, "accessory": _ACCESSORY, "retained": _RETAINED + ": still live"},
    (
        off(("asleep",), proves=("asleep",)),
        off(("door_open",)),
        on(("retained",), proves=("retained",)),
        on(("accessory",), proves=("accessory",)),
        on(("run", "engine")),
    ),
    HEAVY,
)

RUN = Signature(
    "run",
    "run",
    "run (ignition) supply",
    {"asleep": _ASLEEP, "accessory": _ACCESSORY + ": dead", "run": _RUN},
    (
        off(("asleep",), proves=("asleep",)),
        off(("accessory",), proves=("accessory",)),
        off(("door_open", "retained")),
        on(("run",), proves=("run",)),
        on(("engine",)),
        _CRANK_ALIVE,
    ),
    HEAVY,
)

_LAMPS = {"lights_off": "lights off", "lights_on": "lights on"}
_DARK = (
    off(("lights_off",), proves=("lights_off",)),
    off(("asleep", "accessory", "run", "retained")),
)

ILLUMINATION = Signature(
    "illumination_steady",
    "illumination",
    "illumination feed, steady",
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
    "illumination feed, pulsed",
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

GROUND = Signature(
    "ground",
    "ground",
    "ground",
    {"ground": "rise under a 1 A test load, or ohms to the body on a dead circuit"},
    (
        line(
            ("asleep", *AWAKE, "retained"),
            house("ground_idle_v", -1),
            house("ground_idle_v"),
            loads=LIGHT,
            meets_from="",
            contradicts_from="",
        ),
        line(
            ("asleep", *AWAKE, "retained"),
            house("ground_drop_v", -1),
            house("ground_drop_v"),
            loads=HEAVY,
            proves=("ground",),
            meets_from="",
            proves_from="",
            contradicts_from="",
        ),
        line(STARTING, house("ground_crank_v", -1), house("ground_crank_v"), loads=()),
        ohms(None, house("ground_ohm"), proves=("ground",), note="test leads taken off"),
    ),
    HEAVY,
)

_TURN_ON = {
    "radio_off": "radio off",
    "radio_on": "radio on",
    "source": "radio on, a second source chosen",
    "loaded": "radio on, under 50 mA (5 mA when it reads less than 9 V)",
}

AMPLIFIER_ON = Signature(
    "amplifier_on_12v",
    "amplifier_on",
    "amplifier turn-on output, 12 V",
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
    "amplifier turn-on output, logic level",
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
    "aerial supply output",
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
    "mute input, idle high",
    {},
    (line(_IDLE, battery(plus=-1), ABOVE_BATTERY, note="falls below 1 V in a call"),),
    note="Only a call shows a mute wire; no state of the list does, so readings never prove it.",
)

MUTE_ACTIVE_HIGH = Signature(
    "mute_active_high",
    "mute",
    "mute input, idle low",
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

SUPPLY_SIGNATURES = (
    CONSTANT,
    CONSTANT_SLEEPS,
    ACCESSORY,
    RETAINED,
    RUN,
    ILLUMINATION,
    ILLUMINATION_PULSED,
    ILLUMINATION_RETURN,
    GROUND,
    AMPLIFIER_ON,
    AMPLIFIER_ON_LOGIC,
    AERIAL_ON,
    MUTE_ACTIVE_LOW,
    MUTE_ACTIVE_HIGH,
    REVERSE,
    PARK_BRAKE,
)
