"""What a turn-on wire can give, and what its own readings say against it."""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.words import GROUND_REFERENCES, State
from builder.planning.tables import SOURCE_CHANGE_MAX_V
from builder.proof.pin_readings import is_logic_level


def wire_capacity_ma(pin: Pin) -> tuple[float | None, str]:
    """What a wire can give [mA], None when not recorded, and what to say of that."""
    if pin.max_source_ma is not None:
        return pin.max_source_ma, ""
    if pin.fuse is not None and pin.fuse.rating_a is not None:
        return pin.fuse.rating_a * 1000, f"fused at {pin.fuse.place} with {pin.fuse.rating_a:g} A"
    return None, "what it can give is not recorded"


def awake_volts(pin: Pin, states: tuple[State, ...]) -> list[float]:
    """Return the DC volts to ground read in these states. [V]"""
    return [
        reading.value
        for reading in pin.readings
        if reading.state in states
        and reading.quantity == "dc_v"
        and reading.value is not None
        and reading.against in GROUND_REFERENCES
    ]


def reads_wrong(pin: Pin, defaults: HouseDefaults) -> str | None:
    """What a wire's own readings say against it as a turn-on source, or None."""
    if pin.function != "amplifier_on":
        return None
    tuner, other = awake_volts(pin, ("tuner",)), awake_volts(pin, ("other_source",))
    if tuner and other and max(tuner + other) - min(tuner + other) > SOURCE_CHANGE_MAX_V:
        return (
            f"it follows the source: {max(tuner):.1f} V on the tuner, {min(other):.1f} V on "
            "another, as an aerial lead does"
        )
    on = awake_volts(pin, ("radio_on_zero", "radio_on_tone", "tuner", "other_source"))
    least = defaults.turn_on_min_v
    if on and min(on) < least and not is_logic_level(pin, defaults):
        return (
            f"it reads {shown(min(on), 1, beside=least)} V with the radio on, {shown(least)} V is "
            "asked"
        )
    return None
