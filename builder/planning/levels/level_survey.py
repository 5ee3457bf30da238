"""The levels of all tapped pairs: checks, doubts, refusals, and what nobody knows yet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.doubt_readings import level_reading
from builder.planning.car.output_sums import behind_pad_v_rms, judge_output_sums
from builder.planning.car.pairs import Pair
from builder.planning.car.selection import Selection, Tap
from builder.planning.levels.padded_levels import pad_levels
from builder.planning.levels.signal_levels import (
    check_level,
    level_contradiction,
    level_objection,
    source_level,
    thin_reason,
)
from builder.planning.levels.unloaded import without_speaker
from builder.planning.objections import Objection, object_to
from builder.planning.plan import LevelCheck, Reason
from builder.planning.tables import COMMON_PRACTICE, DEVICE_RECORD, SUB_FROM_INPUTS

_FRONTS: frozenset[Channel] = frozenset(
    {"front-left", "front-right", "front-left-woofer", "front-right-woofer"}
)


@dataclass(frozen=True, slots=True)
class LevelSurvey:
    """One check a source; a pair whose level nothing bounds has an objection instead."""

    checks: tuple[LevelCheck, ...]
    reasons: tuple[Reason, ...]
    objections: tuple[Objection, ...]


def survey_levels(
    vehicle: Vehicle, converter: Converter, selection: Selection, defaults: HouseDefaults
) -> LevelSurvey:
    """Return the level of every tap against the converter's input."""
    checked, unknown = _checked(vehicle, converter, selection, defaults)
    checks = tuple(check for _, check in checked)
    over = [level_objection(check, converter, defaults) for check in checks]
    doubts = [level_contradiction(vehicle, check, tap.pair) for tap, check in checked]
    reasons = [reason for reason in (*doubts, thin_reason(checks, defaults)) if reason]
    objections = [*filter(None, over), *(_unknown(pair, converter) for pair in unknown)]
    said, against = (
        _subwoofer_sum(converter, checked)
        if selection.outputs is None
        else judge_output_sums(selection.outputs, checks, converter)
    )
    return LevelSurvey(checks, (*reasons, *said), (*objections, *against))


def _checked(
    vehicle: Vehicle, converter: Converter, selection: Selection, defaults: HouseDefaults
) -> tuple[list[tuple[Tap, LevelCheck]], list[Pair]]:
    """The taps whose level something bounds, padded where that is wanted, and the other pairs."""
    summed = {id(tap) for group in selection.sums() for tap in group}
    checked: list[tuple[Tap, LevelCheck]] = []
    unknown: list[Pair] = []
    for tap in selection.taps:
        pair, in_sum = tap.pair, id(tap) in summed
        source = source_level(vehicle, pair, defaults)
        if source is None:
            unknown.append(pair)
            continue
        source = without_speaker(source, pair, tap.treatment, defaults)
        check = check_level(pair.channel, source, pair, converter, defaults, summed=in_sum)
        checked.append((tap, check))
    return pad_levels(checked, selection, converter, defaults), unknown


def taps_of_sub_sum(converter: Converter, taps: Sequence[Tap]) -> tuple[Tap, ...]:
    """Return the taps of both fronts that a converter with inputs to spare adds up to a subwoofer
    output of their own; none where it has none to spare, or the car's subwoofer feeds one.
    """
    fronts = [t for t in taps if t.treatment == "intercept" and t.pair.channel in _FRONTS]
    has_own = any(tap.treatment == "addon" for tap in taps)
    if converter.inputs < SUB_FROM_INPUTS or converter.sum != "any" or has_own:
        return ()
    return tuple(fronts) if len(fronts) > 1 else ()


def _subwoofer_sum(
    converter: Converter, checked: list[tuple[Tap, LevelCheck]]
) -> tuple[list[Reason], list[Objection]]:
    """A subwoofer output made of both fronts: equal content of two sides doubles the volts."""
    summed = taps_of_sub_sum(converter, [tap for tap, _ in checked])
    fronts = [behind_pad_v_rms(check) for tap, check in checked if tap in summed]
    if not fronts:
        return [], []
    limit = converter.input.after_sum_max_v_rms
    together = sum(fronts)
    because = f"left and right together reach {together:.1f} V, as bass is the same on both"
    if limit is None:
        because += "; what the converter takes after the sum is not recorded"
    elif together > limit:
        because += f", more than the {limit:g} V it takes after the sum"
        return [], [object_to("the subwoofer sum would clip", because, DEVICE_RECORD)]
    else:
        because += f", within the {limit:g} V it takes after the sum"
    return [Reason("take the subwoofer from the sum of the fronts", because, DEVICE_RECORD)], []


def _unknown(pair: Pair, converter: Converter) -> Objection:
    because = (
        f"neither a level, nor a label, nor the bias of its legs says how loud {pair.named} gets"
    )
    return object_to(
        f"measure the level of {pair.named} first",
        because,
        COMMON_PRACTICE,
        settled_by=(level_reading(pair, converter.input.max_v_rms),),
    )
