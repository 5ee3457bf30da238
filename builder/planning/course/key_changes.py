"""What is done with the key, the doors and the radio between readings."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.house_defaults import HouseDefaults
from builder.planning.course.car_states import AWAKE, KEY, PLAY, PLAYABLE, POWERED, RADIO_SET
from builder.planning.course.model import Change, Needs, Said, State, among
from builder.planning.words import HowItStands

_SILENT: State = {PLAY: "off"}
_KEYS: dict[HowItStands, str] = {
    "asleep": "test leads led out, key out, doors shut and locked, nobody in it for {:g} min",
    "door_open": "key off, a door opened",
    "accessory": "key to accessory",
    "run": "key to run",
    "crank": "engine cranked",
    "engine": "engine on",
    "lights_on": "key to run, lights on",
    "lights_dimmed": "key to run, lights on and dimmed",
    "lights_off": "key to run, lights off",
    "auto_restart": "engine on, stopped by itself and started again",
}
_STAYS_ON: tuple[HowItStands, ...] = ("accessory", "run", "engine", "auto_restart")
_PLAYED: dict[HowItStands, str] = {
    "zero": "radio on, volume 0",
    "quiet": "radio on, test tone, volume up from 0, no further than its line of the sheet asks",
    "tuner": "radio on, tuner",
    "other": "radio on, another source",
    "loud": "loud clean music",
}


_READY: dict[HowItStands, str] = {
    "engine": "engine on: ready lamp on, brake on, in park; the car starts and stops its engine "
    "itself",
}


def key_changes(
    house: HouseDefaults, asleep_min: float, *, hybrid: bool = False
) -> Iterator[Change]:
    """Yield every turn of the key; `asleep_min` is how long a car is left before it is read, a
    `hybrid` is one whose engine no key starts."""
    anything = frozenset({"off", "retained", *_KEYS})
    yield Change(
        KEY, anything - {"asleep"}, "off", "key", Said("key off"), {}, _SILENT, house.hand_key_min
    )
    woken = Said("car unlocked, key off")
    yield Change(KEY, among("asleep"), "off", "key", woken, {}, _SILENT, house.hand_key_min)
    yield Change(
        KEY, AWAKE, "retained", "key", Said("radio on, then key off, doors shut: not yet asleep"),
        POWERED, {}, house.hand_key_min,
    )  # fmt: skip
    for state, text in (_KEYS | _READY if hybrid else _KEYS).items():
        also = {} if state in _STAYS_ON else _SILENT
        yield Change(
            KEY, anything, state, "key", Said(text.format(asleep_min)), POWERED, also,
            asleep_min if state == "asleep" else _minutes(state, house),
        )  # fmt: skip


def _minutes(state: HowItStands, house: HouseDefaults) -> float:
    starts = state in ("engine", "crank", "auto_restart")
    return house.hand_restart_min if starts else house.hand_key_min


def play_changes(house: HouseDefaults, tone_at: str, radio_set: str) -> Iterator[Change]:
    """Yield what the radio is set to; it plays only with the key on, and what it lost with its
    battery set again.

    `tone_at` is the volume at which a tone is played, `radio_set` how its settings come back.
    """
    played = {**_PLAYED, "tone": f"radio on, test tone, volume up from 0 to {tone_at}"}
    still = {**POWERED, KEY: AWAKE, PLAY: among("zero")}
    said = Said(radio_set)
    yield Change(RADIO_SET, among("absent"), "set", "key", said, still, {}, _SET_MIN)
    anything = frozenset({"off", *played})
    yield Change(PLAY, anything, "off", "key", Said("radio off"), {}, {}, house.hand_key_min)
    for value, text in played.items():
        yield Change(
            PLAY, anything, value, "key", Said(text), _plays(value), {}, house.hand_key_min,
        )  # fmt: skip


def _plays(value: HowItStands) -> Needs:
    """A radio comes on silent, whatever it lost; it plays with its settings back."""
    wanted = {**POWERED, KEY: AWAKE}
    return wanted if value == "zero" else {**wanted, RADIO_SET: PLAYABLE}


_SET_MIN = 2.0
"""A code typed in, four controls turned. Common practice, no source. [min]"""
TO_READ = "radio's code where it asks for one, balance and fader to the centre, tone flat"
"""How it is set before a level is read or a gain set by it. Common practice, no source."""
AS_NOTED = "radio's code, balance, fader and tone set again as they were written down"
"""What the radio lost with its battery, in the car that is put back or was only read."""
