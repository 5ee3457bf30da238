"""Signatures of supplies and grounds.

Every band is common practice without a published source, except where a line names one;
the figures that a shop may change are house defaults.
"""

from __future__ import annotations

from builder.model.words import State
from builder.proof.signatures.row_making import (
    ABOVE_BATTERY,
    AWAKE,
    HEAVY,
    LIGHT,
    STARTING,
    battery,
    house,
    line,
    off,
    ohms,
    on,
)
from builder.proof.signatures.shapes import Row, Signature
from builder.proof.words import Defining

_ASLEEP = "asleep: key out, locked, waited out"
_ACCESSORY = "accessory"
_RETAINED = "key off, not yet asleep"
_RUN = "run"
_LOADED = "under a 0.4 A or 1 A test load"


def _matches_battery(states: tuple[State, ...], *, proves: tuple[Defining, ...] = ()) -> Row:
    low = battery("supply_match_v", -1)
    return line(states, low, ABOVE_BATTERY, loads=LIGHT, proves=proves)


def _holds_loaded(states: tuple[State, ...], proves: tuple[Defining, ...]) -> Row:
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
    "retained supply",
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

SUPPLY_SIGNATURES = (CONSTANT, CONSTANT_SLEEPS, ACCESSORY, RETAINED, RUN, GROUND)
