"""What stands against a turn-on source, and the readings that would settle it."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.sound import ProtectedSound
from builder.model.vehicle import Vehicle
from builder.planning.car.doubt_readings import key_off_reading
from builder.planning.car.kept_sounds import gives
from builder.planning.car.measurements import pair_readings, place_readings
from builder.planning.car.selection import Selection
from builder.planning.car.turn_on_place import Place
from builder.planning.objections import Objection, object_to
from builder.planning.plan import ProofReading
from builder.planning.tables import COMMON_PRACTICE
from builder.planning.turn_on.better_rung import FOLLOWS_THE_RADIO, LOWER_RUNG_RULE, named

NEEDS_THE_KEY = frozenset({2, 3, 4, 7})
"""Rungs that die with the key or the door. A retained supply dies when the door opens."""


@dataclass(frozen=True, slots=True)
class Choice:
    """What the turn-on was chosen for; readings are asked of it."""

    vehicle: Vehicle
    selection: Selection
    defaults: HouseDefaults
    proved: Place | None = None  # what could switch it on without another reading


def turn_on_objections(
    chosen: Place | None, places: list[Place], key_off: list[ProtectedSound], car: Choice
) -> list[Objection]:
    """Return what stands against the chosen place, or against having none."""
    if chosen is None:
        tried = "; ".join(
            f"{place.kind.replace('_', ' ')} {place.where}: {place.because}".replace(" :", ":")
            for place in places
            if place.verdict == "refused"
        )
        because = tried or "no switched wire, no switched fuse position, and nothing to wake from"
        because += ". A switched fuse position, read asleep and in accessory, would change that"
        return [object_to("nothing may switch it on", because, COMMON_PRACTICE)]
    objections = []
    if chosen.verdict == "weak":
        objections.append(_prove_first(chosen, car))
    if key_off and chosen.rung not in FOLLOWS_THE_RADIO:
        objections.append(_key_off_lost(chosen, key_off, car))
    return objections


def _prove_first(place: Place, car: Choice) -> Objection:
    bus = " and ".join(f"{plug}.{pin.cavity}" for plug, pin in place.bus)
    decision = f"prove {bus or place.where} before it switches anything on"
    if place.kind == "offset_wake":
        pair = car.selection.taps[0].pair
        readings = pair_readings(car.vehicle, pair, car.defaults, open_only=True)
    else:
        readings = place_readings(car.vehicle, place, car.defaults, open_only=True)
    because = f"{place.because}{_instead(place, car.proved)}"
    return object_to(decision, because, COMMON_PRACTICE, settled_by=readings)


def _instead(place: Place, proved: Place | None) -> str:
    """What is there without the reading, and how a job takes it all the same."""
    if proved is None or proved is place:
        return ""
    return (
        f". Proved so far is {named(proved)}; a job that stays there accepts {LOWER_RUNG_RULE} "
        "with a reason"
    )


def _key_off_lost(place: Place, sounds: list[ProtectedSound], car: Choice) -> Objection:
    sure = any(sound.plays_key_off == "yes" for sound in sounds)
    names = ", ".join(sound.sound for sound in sounds)
    heard = "must be heard" if sure else "may have to be heard"
    then = "is dead then" if place.rung in NEEDS_THE_KEY else "comes on too late for it"
    because = (
        f"{names}: {heard} with the key off, and {place.kind.replace('_', ' ')} {then}. Leave that "
        "speaker on the car, or use a converter that wakes from the bias of a pair"
    )
    if not sure:
        because += ". Listen with the key off first"
    return object_to(
        "a sound would be lost",
        because,
        COMMON_PRACTICE,
        settled_by=() if sure else _listen(sounds, car.selection),
    )


def _listen(sounds: list[ProtectedSound], selection: Selection) -> list[ProofReading]:
    return [
        key_off_reading(tap.pair, sound.sound)
        for sound in sounds
        for tap in selection.broken
        if gives(sound, tap.pair.channel)
    ]
