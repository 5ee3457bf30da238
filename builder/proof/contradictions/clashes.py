"""What no wire of a function ever reads, whatever its line in the signature table says.

The rules that stop a plan and the grade that opposes it ask the same functions, so that one never
speaks where the other is silent. Each takes a pin with the readings to be judged: all of the
record for a rule, those of one visit for a grade.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading
from builder.model.words import GROUND_REFERENCES, SUPPLIES, Function, State
from builder.proof.pin_readings import (
    LIVE_STATES,
    SWITCHED,
    exceeds,
    ground_volts,
    is_logic_level,
    value_of,
)
from builder.proof.wording import reading_words

FOLLOWERS: frozenset[Function] = frozenset({*SWITCHED, "amplifier_on", "aerial_on"})
"""Wires that are off in a sleeping car."""
NOT_OF_THE_LIGHTS: frozenset[Function] = frozenset({*FOLLOWERS, "constant"})
_LIGHTS: tuple[State, ...] = ("lights_off", "lights_on", "lights_dimmed")
_SOURCES: tuple[State, ...] = ("tuner", "other_source")
MAY_BE_LIKE_DATA: frozenset[Function] = frozenset(
    {
        "data_high", "data_low", "data_single", "unknown", "not_used", "wheel_keys",
        "microphone", "shield", "camera_signal",
    }
)  # fmt: skip


def sagging(pin: Pin, defaults: HouseDefaults) -> Iterator[tuple[Reading, float]]:
    """Yield loaded readings that lie too far under what the wire gives, with that [V]."""
    if pin.function not in SUPPLIES and pin.function != "amplifier_on":
        return
    for reading in ground_volts(pin, LIVE_STATES[pin.function]):
        full_v = None if reading.load == "none" else _unloaded_v(pin, reading)
        if full_v is not None and exceeds(full_v - value_of(reading), defaults.supply_drop_v):
            yield reading, full_v


def _unloaded_v(pin: Pin, loaded: Reading) -> float | None:
    """What the wire gives with nothing drawn [V]: the battery's voltage for a supply."""
    if pin.function in SUPPLIES and loaded.battery_v is not None:
        return loaded.battery_v
    free = [
        value_of(reading)
        for reading in ground_volts(pin, LIVE_STATES[pin.function])
        if reading.load == "none" and reading.session == loaded.session
    ]
    return max(free, default=None)


def gone_to_sleep(pin: Pin, defaults: HouseDefaults) -> Iterator[Reading]:
    """Yield asleep readings of a constant that show nothing."""
    if pin.function == "constant":
        for reading in ground_volts(pin, ("asleep",)):
            if exceeds(defaults.slept_max_v, value_of(reading)):
                yield reading


def alive_asleep(pin: Pin, defaults: HouseDefaults) -> Iterator[Reading]:
    """Yield asleep readings of a switched wire that show voltage."""
    if pin.function not in FOLLOWERS:
        return
    for reading in ground_volts(pin, ("asleep",)):
        long_enough = reading.minutes is None or reading.minutes >= defaults.asleep_min
        if long_enough and exceeds(value_of(reading), defaults.off_max_v):
            yield reading


def following_lights(pin: Pin, defaults: HouseDefaults) -> Iterator[tuple[Reading, Reading]]:
    """Yield the lowest and highest lights readings of each visit that lie too far apart."""
    if pin.function not in NOT_OF_THE_LIGHTS or len(pin.readings) < 2:
        return
    for group in _by_visit(ground_volts(pin, _LIGHTS)):
        low, high = min(group, key=value_of), max(group, key=value_of)
        if exceeds(value_of(high) - value_of(low), defaults.light_shift_v):
            yield low, high


def following_source(pin: Pin) -> Iterator[tuple[Reading, Reading]]:
    """Yield readings of a turn-on under half of what the same visit read on another source."""
    if pin.function != "amplifier_on":
        return
    for group in _by_visit(ground_volts(pin, _SOURCES)):
        high = max(group, key=value_of)
        for low in group:
            if exceeds(value_of(high) / 2, value_of(low)):
                yield low, high


def _by_visit(readings: Iterable[Reading]) -> Iterable[list[Reading]]:
    visits: dict[str, list[Reading]] = {}
    for reading in readings:
        visits.setdefault(reading.session, []).append(reading)
    return visits.values()


def resting_as_camera(pin: Pin, defaults: HouseDefaults) -> Reading | None:
    """The first live reading of a supply that shows a camera's volts wherever it was read."""
    if pin.function != "constant" and pin.function not in SWITCHED:
        return None
    live = [one for one in ground_volts(pin, LIVE_STATES[pin.function]) if one.load == "none"]
    low_v, high_v = defaults.camera_min_v, defaults.camera_max_v
    if live and all(_between(value_of(reading), low_v, high_v) for reading in live):
        return live[0]
    return None


def resting_as_data(pin: Pin, defaults: HouseDefaults) -> Iterator[Reading]:
    """Yield live readings of a supply or a turn-on that rest where a data wire does."""
    logic = is_logic_level(pin, defaults)
    if logic or (pin.function not in SUPPLIES and pin.function != "amplifier_on"):
        return
    for reading in ground_volts(pin, LIVE_STATES[pin.function]):
        if reading.load == "none" and at_data_level(value_of(reading), defaults):
            yield reading


def at_data_level(value_v: float, defaults: HouseDefaults) -> bool:
    """Whether volts are those of a data wire at rest."""
    return _between(value_v, defaults.data_level_min_v, defaults.data_level_max_v)


def is_data_pair(pin: Pin, reading: Reading, defaults: HouseDefaults) -> bool:
    """Whether ohms to another cavity are those that only a data pair reads."""
    if pin.function in MAY_BE_LIKE_DATA or reading.quantity != "ohm" or reading.value is None:
        return False
    between = _between(reading.value, defaults.data_pair_min_ohm, defaults.data_pair_max_ohm)
    return between and reading.against not in GROUND_REFERENCES


def _between(value: float, low: float, high: float) -> bool:
    return not exceeds(low, value) and not exceeds(value, high)


def wire_clashes(pin: Pin, defaults: HouseDefaults) -> list[str]:
    """Say each thing that these readings show and no wire of the pin's function does."""
    said = [
        f"{reading_words(reading)}, of {shown(full_v, 2)} V: it sags under load"
        for reading, full_v in sagging(pin, defaults)
    ]
    said += [f"{reading_words(one)}: it sleeps" for one in gone_to_sleep(pin, defaults)]
    said += [f"{reading_words(one)}: it is on asleep" for one in alive_asleep(pin, defaults)]
    for words, found in (
        ("it follows the lights", following_lights(pin, defaults)),
        ("it follows the source", following_source(pin)),
    ):
        said += [f"{reading_words(low)}, {reading_words(high)}: {words}" for low, high in found]
    camera = resting_as_camera(pin, defaults)
    said += [f"{reading_words(camera)}: a camera's supply"] if camera else []
    like_data = [*resting_as_data(pin, defaults)]
    like_data += [reading for reading in pin.readings if is_data_pair(pin, reading, defaults)]
    return said + [f"{reading_words(one)}: it reads as data does" for one in like_data]
