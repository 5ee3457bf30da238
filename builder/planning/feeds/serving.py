"""Which converters get a page with a vehicle: those it can use, and refusals worth reading."""

from __future__ import annotations

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.pairs import Pair, find_pairs
from builder.planning.car.sources import at_the_right_unit
from builder.planning.levels.signal_levels import source_level
from builder.planning.tables import DOORS_FROM_INPUTS, SUB_FROM_INPUTS


def serves(vehicle: Vehicle, converter: Converter, defaults: HouseDefaults) -> tuple[bool, str]:
    """Return whether a plan page of this vehicle and converter is worth having, and why.

    It is when the inputs can be used, or when the refusal teaches something that no other
    page of the vehicle says.
    """
    pairs = {
        pair.channel: pair
        for pair in find_pairs(vehicle, defaults)
        if at_the_right_unit(vehicle, pair)
    }
    if converter.outputs < 2:
        return False, "two of it would be needed, and a plan is made for one converter"
    if vehicle.factory_amplifier.feed == "unknown" or not pairs:
        return _teaches_the_question(converter)
    return _by_input_type(vehicle, converter, pairs, defaults)


def _teaches_the_question(converter: Converter) -> tuple[bool, str]:
    plain = converter.kind == "active" and converter.input.type != "ground_referenced"
    if plain and converter.inputs <= DOORS_FROM_INPUTS:
        return True, "the refusal says what to find out first"
    return False, "the same refusal stands on another page"


def _by_input_type(
    vehicle: Vehicle, converter: Converter, pairs: dict[Channel, Pair], defaults: HouseDefaults
) -> tuple[bool, str]:
    common = all(pair.topology == "common_ground" for pair in pairs.values())
    if converter.input.type == "ground_referenced" and not common:
        if converter.kind == "active" and converter.inputs < DOORS_FROM_INPUTS:
            return True, "the refusal says why its inputs must never be joined to these outputs"
        return False, "its negative inputs are ground, as another page explains"
    if (
        converter.kind == "passive"
        and not common
        and _too_loud(vehicle, converter, pairs, defaults)
    ):
        return False, "the outputs are louder than it takes"
    return _by_inputs(converter, pairs)


def _too_loud(
    vehicle: Vehicle, converter: Converter, pairs: dict[Channel, Pair], defaults: HouseDefaults
) -> bool:
    levels = [source_level(vehicle, pair, defaults) for pair in pairs.values()]
    return any(level is None or level.v_rms > converter.input.max_v_rms for level in levels)


def _by_inputs(converter: Converter, pairs: dict[Channel, Pair]) -> tuple[bool, str]:
    split = any(channel.endswith("-tweeter") for channel in pairs)
    if converter.inputs < DOORS_FROM_INPUTS:
        return True, "its inputs can listen to a pair on each side"
    if split:
        return True, "its inputs can take the split pairs, or the refusal says why not"
    if len(pairs) < DOORS_FROM_INPUTS:
        return False, f"{len(pairs)} pairs are described; a smaller converter does"
    if converter.inputs < SUB_FROM_INPUTS:
        return True, "an input for each door"
    if converter.sum == "any" or "sub" in pairs:
        return True, "an input for each door, and the subwoofer besides"
    return False, "four inputs are enough for this car"
