"""How a car can stand, and what each state of a reading asks of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from builder.planning.course.model import Needs, among, needs
from builder.planning.words import HowItStands, TestState

BATTERY: Final[str] = "battery"
MAIN_FUSE: Final[str] = "main fuse"
KEY: Final[str] = "key"
PLAY: Final[str] = "play"
RADIO: Final[str] = "radio"
GAINS: Final[str] = "gains"
FILTERS: Final[str] = "filters"
CABLES: Final[str] = "cables"
RADIO_SET: Final[str] = "radio's settings"
"""Its code, balance, fader and tone: they fall when its battery comes off."""
PLAYABLE: Final = among("set", "noted")
"""With its settings back: as readings want them, or as they were before the work."""
DEAD: Final = needs(battery="off waited")
POWERED: Final = needs(battery="on")
AWAKE: Final = among("accessory", "run", "engine")
"""Keys at which a radio plays."""
RUNNING: Final = among("crank", "engine", "auto_restart")
"""Keys at which the engine turns."""
AT_REST: Final = among("accessory", "run")
"""Those at which a reading of the radio is taken: at the battery's own volts."""

_PLAYS: Final[Mapping[TestState, HowItStands]] = {
    "radio_off": "off",
    "radio_on_zero": "zero",
    "radio_on_tone": "tone",
    "tuner": "tuner",
    "other_source": "other",
}


_KEYS: Final[Mapping[TestState, HowItStands]] = {
    "asleep": "asleep",
    "door_open": "door_open",
    "accessory": "accessory",
    "run": "run",
    "crank": "crank",
    "engine": "engine",
    "lights_on": "lights_on",
    "lights_dimmed": "lights_dimmed",
    "lights_off": "lights_off",
    "retained": "retained",
    "auto_restart": "auto_restart",
}


def plug_of(id: str) -> str:
    """Return what a plug of the car is called in a state.

    >>> plug_of("A")
    'plug A'
    """
    return f"plug {id}"


def speakers_of(amplifier: str) -> str:
    """Return what the speakers of an amplifier are called in a state.

    >>> speakers_of("amp")
    'speakers of amp'
    """
    return f"speakers of {amplifier}"


def asked_by(state: TestState) -> Needs:
    """Return what a state of a reading asks of the car.

    >>> asked_by("accessory")["key"]
    frozenset({'accessory'})
    """
    if state == "step":
        return {}
    if state in ("unplugged", "battery_off"):
        return DEAD
    if state in _PLAYS:
        played = {RADIO_SET: PLAYABLE} if state != "radio_off" else {}
        return {**POWERED, KEY: AT_REST, PLAY: among(_PLAYS[state]), **played}
    return {**POWERED, KEY: among(_KEYS[state])}
