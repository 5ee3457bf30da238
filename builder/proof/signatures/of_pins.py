"""Which signatures a pin may have, by its function and by what the record says of the car."""

from __future__ import annotations

from functools import lru_cache

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import Function, Leg, RadioOutputs
from builder.proof.pin_readings import is_logic_level
from builder.proof.signatures.control import AMPLIFIER_ON, AMPLIFIER_ON_LOGIC
from builder.proof.signatures.nominal import narrowed, nominal_of
from builder.proof.signatures.pairs import legs_on_rail
from builder.proof.signatures.shapes import Kind, resolve
from builder.proof.signatures.table import SIGNATURES
from builder.proof.words import Defining


@lru_cache(maxsize=8)
def kinds(defaults: HouseDefaults) -> dict[str, Kind]:
    """Every signature by id, with these house defaults put in."""
    return {signature.id: resolve(signature, defaults) for signature in SIGNATURES}


@lru_cache(maxsize=32)
def kinds_on_rail(rail_v: float | None, defaults: HouseDefaults) -> dict[str, Kind]:
    """The same in a car whose factory amplifier has a raised rail of so many volts, or None."""
    raised = () if rail_v is None else legs_on_rail(rail_v)
    return kinds(defaults) | {signature.id: resolve(signature, defaults) for signature in raised}


DEFINING: dict[str, dict[Defining, str]] = {one.id: one.defining for one in SIGNATURES}
"""The defining states of each kind, by its id: name of the state to what has to be measured."""


@lru_cache(maxsize=8)
def _by_function(defaults: HouseDefaults) -> dict[Function, tuple[Kind, ...]]:
    found: dict[Function, tuple[Kind, ...]] = {}
    for kind in kinds(defaults).values():
        found[kind.function] = (*found.get(kind.function, ()), kind)
    return found


def kinds_of_function(function: Function, defaults: HouseDefaults) -> tuple[Kind, ...]:
    """Every signature a function may have; none for "unknown"."""
    return _by_function(defaults).get(function, ())


def kinds_of_pin(vehicle: Vehicle, pin: Pin, defaults: HouseDefaults) -> tuple[Kind, ...]:
    """The signatures that the pin may have in this vehicle; unknown facts leave all open."""
    if pin.function == "speaker":
        table = kinds_on_rail(vehicle.factory_amplifier.rail_v, defaults)
        nominal = nominal_of(vehicle.channel(pin.channel) if pin.channel else None)
        found = tuple(table[name] for name in _speaker_ids(vehicle, pin))
        return tuple(narrowed(kind, nominal, defaults) for kind in found) if nominal else found
    if pin.function == "amplifier_on" and pin.level_v is not None:
        table = kinds(defaults)
        logic = is_logic_level(pin, defaults)
        return (table[AMPLIFIER_ON_LOGIC.id if logic else AMPLIFIER_ON.id],)
    return kinds_of_function(pin.function, defaults)


def _speaker_ids(vehicle: Vehicle, pin: Pin) -> list[str]:
    carried = vehicle.channel(pin.channel) if pin.channel else None
    plain = [f"speaker_{name}" for name in _speaker_families(vehicle, pin, carried)]
    behind = [f"{name}_capacitor" for name in plain]
    if carried and "series_capacitor" in carried.in_line:
        return behind
    return plain + behind if (pin.channel or "").endswith("tweeter") else plain


def _speaker_families(
    vehicle: Vehicle, pin: Pin, carried: SpeakerChannel | None
) -> tuple[str, ...]:
    if carried and carried.driven_by == "amplifier":
        return ("amplifier",)
    by_radio = _radio_families(vehicle.radio.outputs, pin.leg)
    if carried or vehicle.factory_amplifier.feed == "none":
        return by_radio
    return (*by_radio, "amplifier")


_COMMON_LEGS: dict[Leg, tuple[str, ...]] = {
    "positive": ("common_signal",),
    "negative": ("common_return",),
}


def _radio_families(outputs: RadioOutputs, leg: Leg | None) -> tuple[str, ...]:
    if outputs == "bridged":
        return ("bridged",)
    common = _COMMON_LEGS[leg] if leg else ("common_signal", "common_return")
    return common if outputs == "common_ground" else ("bridged", *common)
