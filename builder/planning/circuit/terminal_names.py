"""How the terminals of a circuit are called: said once, for who joins them and who measures."""

from __future__ import annotations

from builder.planning.circuit.model import EndId

SIGNS = ("+", "−")
BATTERY = "battery"
BATTERY_PLUS, BATTERY_MINUS = f"{BATTERY} {SIGNS[0]}", f"{BATTERY} {SIGNS[1]}"
DRIVER = "turn-on driver"
DRIVER_IN, DRIVER_OUT = f"{DRIVER} in", f"{DRIVER} out"


def supply_of(unit: str) -> EndId:
    """Return the positive supply terminal of a device."""
    return f"{unit} +12 V"


def ground_of(unit: str) -> EndId:
    """Return the ground terminal of a device."""
    return f"{unit} GND"


def turn_on_of(unit: str) -> EndId:
    """Return the turn-on input of an amplifier, or of what else is switched."""
    return f"{unit} turn-on"


def turn_on_input(converter: str) -> EndId:
    """Return the turn-on input of a converter."""
    return f"{converter} turn-on in"


def turn_on_output(converter: str) -> EndId:
    """Return the turn-on output of a converter."""
    return f"{converter} turn-on out"


def pair_input(converter: str, number: int, sign: str) -> EndId:
    """Return one leg of a converter's input."""
    return f"{converter} in {number} {sign}"


def line_output(converter: str, number: int) -> EndId:
    """Return the centre of a converter's line output."""
    return f"{converter} out {number}"


def shield_of(line_terminal: EndId) -> EndId:
    """Return the shield around the centre of a line output or input."""
    return f"{line_terminal} shield"


def line_input(amplifier: str, number: int, side: str = "") -> EndId:
    """Return the centre of an amplifier's line input; `side` is left or right of a summing one."""
    return f"{amplifier} in {number}{f' {side}' if side else ''}"


def channel_of(amplifier: str, channel: str) -> str:
    """Return the name of an amplifier's channel, "1" or bridged "1+2"; with a sign, a terminal."""
    return f"{amplifier} out {channel}"


def factory_speaker(channel: str) -> str:
    """Return the car's own speaker of a channel."""
    return f"factory speaker {channel}"


def legs_of(name: str) -> tuple[EndId, EndId]:
    """Return both terminals of a pair: of a channel, a speaker."""
    return f"{name} {SIGNS[0]}", f"{name} {SIGNS[1]}"
