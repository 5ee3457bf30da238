"""Which converters of the book would serve a job, and whether a smaller one would do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from builder.model.parts import Converter
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import Treatments
from builder.planning.feeds.input_type import input_objections
from builder.planning.job.chosen import select_for_job
from builder.planning.job.wish import JobWish
from builder.planning.levels.level_survey import survey_levels
from builder.planning.levels.line_gain import line_target_v
from builder.planning.plan import LevelCheck, Reason
from builder.planning.tables import DEVICE_RECORD, MOST_INSTEAD
from builder.planning.work_pack import JobParts
from builder.units import Decibels

WouldDo = Callable[[Converter], bool]
"""Whether a job comes to a tap plan with another converter."""


def unasked(converter: Converter) -> bool:
    """For whom no advice is wanted: no other converter is tried, and none is named."""
    return False


@dataclass(frozen=True, slots=True)
class _Serving:
    """A converter that nothing forbids, the inputs it would use, and its least input margin."""

    converter: Converter
    inputs_used: int
    margin_db: Decibels | None


def converter_alternatives(
    parts: JobParts,
    wish: JobWish,
    sources: Sources,
    treatments: Treatments,
    would_do: WouldDo,
) -> tuple[Reason, ...]:
    """Return which other converters would do instead, smallest first, and how ours compares.

    `would_do` is asked of each that the signal would let serve: only one whose whole plan comes
    out is named.
    """
    if would_do is unasked:
        return ()
    lawful = replace(treatments, objections=())
    serving = [
        found
        for converter in parts.shelf.converters.values()
        if (found := _serves(converter, parts, wish, sources, lawful)) is not None
    ]
    serving = [each for each in serving if would_do(each.converter)]
    serving.sort(key=_smallest_first)
    others = [each for each in serving if each.converter.id != parts.converter.id]
    reasons = [_own_reason(parts.converter, serving)] if len(others) < len(serving) else []
    thin_db = wish.defaults.margin_thin_db
    return (*reasons, *(_reason(each, thin_db) for each in others[:MOST_INSTEAD]))


def _smallest_first(each: _Serving) -> tuple[int, bool, str]:
    return each.converter.inputs, each.converter.kind != "active", each.converter.name


def _serves(
    converter: Converter,
    parts: JobParts,
    wish: JobWish,
    sources: Sources,
    treatments: Treatments,
) -> _Serving | None:
    """How this converter would serve, or None where something forbids it.

    How it would be switched on is another question; the ladder of the plan answers it.
    """
    if converter.id.startswith("template"):
        return None
    selection = select_for_job(replace(wish, converter=converter), sources, treatments)
    if selection.objections or not selection.taps or input_objections(selection, converter):
        return None
    levels = survey_levels(parts.vehicle, converter, replace(selection, pad="none"), wish.defaults)
    if levels.objections or not _reaches(converter, parts, wish, levels.checks):
        return None
    margin = min((check.converter_margin_db for check in levels.checks), default=None)
    return _Serving(converter, len(selection.taps), margin)


def _reaches(
    converter: Converter, parts: JobParts, wish: JobWish, checks: tuple[LevelCheck, ...]
) -> bool:
    """Whether its line level is enough for every amplifier of the job."""
    loudest = max((check.source_v_rms for check in checks), default=0.0)
    for amplifier in parts.amplifiers.values():
        for group in amplifier.channels:
            most = converter.gain.maximum * loudest
            target = line_target_v(
                converter.output.max_v_rms, group.sensitivity.max_v_rms, wish.defaults
            )
            reached = most if converter.gain.fixed else min(most, target)
            if reached < wish.defaults.sensitivity_room * group.sensitivity.min_v_rms:
                return False
            if converter.gain.fixed and reached > group.sensitivity.max_v_rms:
                return False
    return True


def _own_reason(own: Converter, serving: list[_Serving]) -> Reason:
    smaller = [each.converter.name for each in serving if each.converter.inputs < own.inputs]
    if smaller:
        because = f"{own.inputs} inputs; {smaller[0]} has fewer and would do"
        return Reason(f"{own.name} is larger than needed", because, DEVICE_RECORD)
    because = f"no converter of the book with fewer than {own.inputs} inputs serves this job"
    return Reason(f"{own.name} is the smallest that serves", because, DEVICE_RECORD)


def _reason(each: _Serving, thin_db: Decibels) -> Reason:
    converter, gain = each.converter, each.converter.gain
    spread = f"{gain.maximum:g}, fixed" if gain.fixed else f"{gain.minimum:g} to {gain.maximum:g}"
    because = (
        f"{each.inputs_used} of its {converter.inputs} inputs, up to {converter.input.max_v_rms:g} "
        f"V{_room(each.margin_db, thin_db)}, gain {spread}"
    )
    return Reason(f"{converter.name} would do instead", because, DEVICE_RECORD)


def _room(margin_db: Decibels | None, thin_db: Decibels) -> str:
    if margin_db is None or margin_db >= thin_db:
        return ""
    return f" (only {margin_db:.1f} dB of room, {thin_db:g} dB are wanted)"
