"""Which converters of the book would serve a job, and whether a smaller one would do."""

from __future__ import annotations

from dataclasses import replace

from builder.model.parts import Converter
from builder.planning.car.selection import Selection
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import Treatments
from builder.planning.feeds.input_type import input_objections
from builder.planning.job.chosen import select_for_job
from builder.planning.job.wish import JobWish
from builder.planning.levels.level_survey import survey_levels
from builder.planning.levels.line_gain import line_target_v
from builder.planning.plan import Reason
from builder.planning.tables import DEVICE_RECORD
from builder.planning.work_pack import JobParts

_MOST_NAMED = 3


def converter_alternatives(
    parts: JobParts, wish: JobWish, sources: Sources, treatments: Treatments
) -> tuple[Reason, ...]:
    """Return which other converters would do instead, smallest first, and how ours compares."""
    lawful = replace(treatments, objections=())
    serving = [
        (converter, selection)
        for converter in parts.shelf.converters.values()
        if (selection := _serves(converter, parts, wish, sources, lawful)) is not None
    ]
    serving.sort(key=lambda both: (both[0].inputs, both[0].kind != "active", both[0].name))
    others = [both for both in serving if both[0].id != parts.converter.id]
    own = [both for both in serving if both[0].id == parts.converter.id]
    reasons = [_own_reason(parts.converter, serving)] if own else []
    return (*reasons, *(_reason(*both) for both in others[:_MOST_NAMED]))


def _serves(
    converter: Converter,
    parts: JobParts,
    wish: JobWish,
    sources: Sources,
    treatments: Treatments,
) -> Selection | None:
    """The selection this converter would get, or None where something forbids it.

    How it would be switched on is another question; the ladder of the plan answers it.
    """
    if converter.data == "template" or converter.id.startswith("template"):
        return None
    selection = select_for_job(replace(wish, converter=converter), sources, treatments)
    if selection.objections or not selection.taps or input_objections(selection, converter):
        return None
    levels = survey_levels(parts.vehicle, converter, replace(selection, pads=False), wish.defaults)
    if levels.objections or not _reaches(converter, parts, wish, levels.checks):
        return None
    return selection


def _reaches(
    converter: Converter, parts: JobParts, wish: JobWish, checks: tuple[object, ...]
) -> bool:
    """Whether its line level is enough for every amplifier of the job."""
    loudest = max((getattr(check, "source_v_rms", 0.0) for check in checks), default=0.0)
    for amplifier in parts.amplifiers.values():
        for group in amplifier.channels:
            most = converter.gain.maximum * loudest
            target = line_target_v(
                converter.output_max_v_rms, group.sensitivity_max_v_rms, wish.defaults
            )
            reached = most if converter.gain.fixed else min(most, target)
            if reached < wish.defaults.sensitivity_room * group.sensitivity_min_v_rms:
                return False
            if converter.gain.fixed and reached > group.sensitivity_max_v_rms:
                return False
    return True


def _own_reason(own: Converter, serving: list[tuple[Converter, Selection]]) -> Reason:
    smaller = [converter.name for converter, _ in serving if converter.inputs < own.inputs]
    if smaller:
        because = f"{own.inputs} inputs; {smaller[0]} has fewer and would do"
        return Reason(f"{own.name} is larger than needed", because, DEVICE_RECORD)
    because = f"no converter of the book with fewer than {own.inputs} inputs serves this job"
    return Reason(f"{own.name} is the smallest that serves", because, DEVICE_RECORD)


def _reason(converter: Converter, selection: Selection) -> Reason:
    used = len(selection.taps)
    because = (
        f"{used} of its {converter.inputs} inputs, up to {converter.input.max_v_rms:g} V, gain "
        f"{converter.gain.minimum:g} to {converter.gain.maximum:g}"
    )
    return Reason(f"{converter.name} would do instead", because, DEVICE_RECORD)
