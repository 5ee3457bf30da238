"""One reading of a comeback: a line as on the bay sheet, where the hands are, what it finds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.names import LOAD_NAMES
from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import measure, tick
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import EndId
from builder.planning.comeback.looks import Look
from builder.planning.words import TestState
from builder.planning.work_pack import BayTest


@dataclass(frozen=True, slots=True)
class Reading:
    """What is asked next. `opened` says that a device's end is taken off for it and put back."""

    test: BayTest
    places: tuple[str, ...]
    look: Look
    opened: bool = False


def places_of(index: CircuitIndex, ends: Iterable[EndId]) -> tuple[str, ...]:
    """Return where some ends are: of a cavity its plug, so that it is known what lies over it."""
    found: list[str] = []
    for end in ends:
        if end in index.terminals:
            unit = index.unit_of(end)
            if unit.kind != "body":
                found.append(unit.id if unit.kind == "plug" else unit.place)
        elif end in index.owners:
            owner = index.owners[end]
            found.append(getattr(owner, "from_place", "") or owner.place)
    return tuple(dict.fromkeys(found))


def volts(
    name: str, what: str, state: TestState, least_v: float | None, most_v: float | None,
    places: tuple[str, ...], look: Look,
) -> Reading:  # fmt: skip
    """Return a reading of DC volts."""
    why = "what switches on and what feeds"
    test = measure(speakable(name), "turn_on", what, state, "dc_v", least_v, most_v, why)
    return Reading(test, places, look)


def lost(name: str, what: str, most_v: float, places: tuple[str, ...], look: Look) -> Reading:
    """Return a reading of DC volts lost on a way while music draws amperes through it."""
    said, why = f"{what}, loudest clean music", "a bad joint warms and loses volts"
    test = measure(speakable(name), "loud", said, "engine", "dc_v", None, most_v, why)
    return Reading(test, places, look)


def lost_by_lamp(
    name: str, what: str, device: str, places: tuple[str, ...], look: Look
) -> Reading:  # fmt: skip
    """Return the same of a way to a device that draws too little to show a bad joint."""
    lamp = LOAD_NAMES["lamp_0.4a"]
    said = f"{what}, {lamp} across the supply and ground terminals of {device}"
    why = "what a device draws by itself loses nothing at a bad joint"
    most_v = bands.LAMP_DROP_MAX_V
    test = measure(speakable(name), "turn_on", said, "radio_on_zero", "dc_v", None, most_v, why)
    return Reading(test, places, look)


def sound(name: str, what: str, least_v: float, places: tuple[str, ...], look: Look) -> Reading:
    """Return a reading of AC volts while a tone plays."""
    why = "how far the sound comes"
    test = measure(speakable(name), "level", what, "radio_on_tone", "ac_v", least_v, None, why)
    return Reading(test, places, look)


def ohms(
    name: str, what: str, least: float | None, most: float | None, places: tuple[str, ...],
    look: Look,
) -> Reading:  # fmt: skip
    """Return a reading of ohms with everything dead and the device's end open."""
    why = "what is whole, and what lies on the body"
    test = measure(speakable(name), "far_end", what, "battery_off", "ohm", least, most, why)
    return Reading(test, places, look, opened=True)


def asked(name: str, what: str, state: TestState, places: tuple[str, ...], look: Look) -> Reading:
    """Return what is looked at and answered with yes or no."""
    why = "what an eye tells sooner than a meter"
    return Reading(tick(speakable(name), "turn_on", what, state, why), places, look)
