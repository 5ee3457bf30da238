"""Reading a pin's readings: volts to ground, what was on, what was off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading
from builder.model.words import GROUND_REFERENCES, Function, State

SWITCHED: tuple[Function, ...] = ("accessory", "run", "retained")
"""Supplies that are meant to follow the key or the radio."""
LIVE_STATES: dict[Function, frozenset[State]] = {
    "constant": frozenset(
        {
            "asleep", "door_open", "accessory", "run", "engine", "retained", "lights_on",
            "lights_dimmed", "lights_off", "radio_off", "radio_on_zero", "radio_on_tone",
            "tuner", "other_source",
        }
    ),
    "constant_sleeps": frozenset({"accessory", "run", "engine", "radio_on_zero"}),
    "accessory": frozenset({"accessory", "run", "engine"}),
    "run": frozenset({"run", "engine"}),
    "retained": frozenset({"accessory", "run", "engine", "retained"}),
    "amplifier_on": frozenset({"radio_on_zero", "radio_on_tone", "tuner", "other_source"}),
}  # fmt: skip
"""States in which a function must carry its voltage."""
_NOMINAL_BATTERY_V = 12.0
"""Taken where a reading gives no battery volts: only to tell on from off. Chosen here."""


def is_logic_level(pin: Pin, defaults: HouseDefaults) -> bool:
    """Whether an output is said to work at 3.3 V or 5 V: too little for a 12 V input.

    What one shows when it is on (`logic_on_min_v`, `logic_on_max_v`) is asked of its readings.
    """
    return pin.level_v is not None and pin.level_v < defaults.logic_level_max_v


def ground_volts(pin: Pin, states: Iterable[State]) -> Iterator[Reading]:
    """DC volts against battery negative or body in one of `states`, with a value."""
    for reading in pin.readings:
        if reading.quantity == "dc_v" and reading.state in states and is_ground_volts(reading):
            yield reading


def is_ground_volts(reading: Reading) -> bool:
    """Whether a reading is a DC voltage against battery negative or body."""
    return (
        reading.quantity == "dc_v"
        and reading.value is not None
        and reading.against in GROUND_REFERENCES
    )


def value_of(reading: Reading) -> float:
    """The figure of a reading that is known to have one.

    Raises:
        ValueError: the reading is an open circuit.
    """
    if reading.value is None:
        raise ValueError("an open circuit has no figure")
    return reading.value


def battery_v(reading: Reading) -> float:
    """Battery volts at the moment of the reading [V]."""
    return reading.battery_v if reading.battery_v is not None else _NOMINAL_BATTERY_V


def is_on(reading: Reading) -> bool:
    """Whether a supply reading is nearer to the battery than to ground."""
    return value_of(reading) >= battery_v(reading) / 2


def exceeds(value: float, limit: float) -> bool:
    """Whether a value is over its limit by more than the noise of decimal arithmetic."""
    return value - limit > 1e-9


def while_it(reading: Reading) -> str:
    """The state of a reading as people say it, with minutes where they matter."""
    words = reading.state.replace("_", " ")
    return words if reading.minutes is None else f"{words} for {reading.minutes:g} min"
