"""What a car loses with a wire that a loom does not pass on."""

from __future__ import annotations

from builder.model.names import SINGULAR_NAMES, channel_name
from builder.model.pin import Pin
from builder.model.words import Function

_LOST: dict[Function, str] = {
    "speaker": "its speaker is silent",
    "line": "the factory amplifier gets no sound",
    "amplifier_on": "nothing switches the factory amplifier on",
    "aerial_on": "the aerial gets no supply, reception is poor",
    "illumination": "the radio stays dark at night",
    "illumination_return": "the radio's lights do not dim",
    "mute": "the radio is no longer silenced",
    **dict.fromkeys(
        ("data_high", "data_low", "data_single"),
        "the radio is off the car's network, and may not start at all",
    ),
    "shield": "its pair picks up noise",
    "speed": "what follows the road speed stands still",
    "reverse": "nothing notices reverse gear",
    "park_brake": "what waits for the parking brake stays locked",
    **dict.fromkeys(("camera_supply", "camera_signal"), "there is no camera picture"),
    "microphone": "nobody hears you in a call",
    "wheel_keys": "the keys on the wheel do nothing",
    "unknown": "nobody knows what it does",
}  # fmt: skip


def lost_with(pin: Pin) -> str:
    """Return which wire it is and what no longer works: "microphone wire; nobody hears you …"."""
    side = f"{channel_name(pin.channel)} " if pin.channel else ""
    lost = _LOST.get(pin.function, "the radio is not fed")
    return f"{side}{SINGULAR_NAMES[pin.function]}; {lost}"
