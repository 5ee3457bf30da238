"""The tap plan: which pins feed a converter, what switches it on, and what must be proved first.

A plan is refused (no plan), put off (a probe plan: measure this first) or given (a tap plan).
Nothing is guessed: what a record does not say is never taken for "no".
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter, Interface
from builder.model.vehicle import Vehicle
from builder.model.words import Channel, GradeBand
from builder.planning.car.heard_sound import heard_reasons
from builder.planning.car.kept_sounds import kept_losses, kept_reasons, own_sound_objections
from builder.planning.car.selection import Selection
from builder.planning.car.sources import Sources, find_sources
from builder.planning.feeds.converter_feed import (
    AT_THE_AMPLIFIER,
    ConverterFeed,
    feed_readings,
    supplied_at,
)
from builder.planning.feeds.digital_feed import digital_objections
from builder.planning.feeds.doors import choose_doors
from builder.planning.feeds.input_type import input_objections, input_reasons
from builder.planning.feeds.interface_readings import interface_objections, interface_readings
from builder.planning.feeds.open_ends import list_open_ends
from builder.planning.feeds.parallel_tap import (
    line_tap_reasons,
    parallel_reasons,
    shared_return_objections,
)
from builder.planning.feeds.serving import serves
from builder.planning.feeds.sub_source import PURPOSE as SUB_PURPOSE
from builder.planning.feeds.sub_source import choose_sub_source
from builder.planning.feeds.terminals import list_feeds, pair_band, weak_pair_objections
from builder.planning.feeds.wanted_readings import barred_readings, proving_readings
from builder.planning.levels.level_survey import LevelSurvey, survey_levels
from builder.planning.objections import Objection, object_to, plan_kind, settling_readings
from builder.planning.plan import Plan, ProofReading, Reason
from builder.planning.plan_json import plan_as_json
from builder.planning.tables import DOORS_FROM_INPUTS
from builder.planning.trust import (
    GradeOf,
    Trust,
    grade_by_readings,
    worst_band,
)
from builder.planning.turn_on.choice import TurnOnChoice, choose_turn_on

__all__ = ["Treatment", "make_plan", "plan_as_json", "serves"]

Treatment = Literal["auto", "addon", "intercept"]


def make_plan(
    vehicle: Vehicle,
    converter: Converter,
    *,
    defaults: HouseDefaults,
    grade: GradeOf | None = None,
    treatment: Treatment = "auto",
    barred: Mapping[DataPath, str] | None = None,
    interfaces: Sequence[Interface] = (),
) -> Plan:
    """Return the plan of joining `converter` to `vehicle`.

    Args:
        vehicle: The car, with the readings of its pins.
        converter: The line-level converter.
        defaults: The book's house defaults.
        grade: How far a pin can be relied on; None grades by the readings of the record.
        treatment: "addon" listens beside the speakers, "intercept" breaks the pairs, "auto"
            listens with fewer than four inputs and breaks from four on.
        barred: Data paths on which a stop finding stands, with the reason. One above, at or
            under a pin bars the pin; one outside plugs and fuse positions bars the vehicle.
        interfaces: The data interfaces of the shelf.
    """
    trust = Trust(vehicle, grade or grade_by_readings(defaults), barred or {})
    work = PlanWork(vehicle, converter, defaults, trust, interfaces=interfaces)
    return unless_refused(plan_work(work, lambda sources: _select(work, sources, treatment)))


def unless_refused(plan: Plan) -> Plan:
    """Return the plan, without anything that could be joined from it when it is no tap plan."""
    return plan if plan.kind == "tap_plan" else replace(plan, feeds=(), insulate=(), supplied_at=())


@dataclass(frozen=True, slots=True)
class PlanWork:
    """What a plan is made from. `draw_ma` is what the car's turn-on source has to give.

    `draw_ma` None: the converter's own turn-on input.
    """

    vehicle: Vehicle
    converter: Converter
    defaults: HouseDefaults
    trust: Trust
    draw_ma: float | None = None
    lower_rung_accepted: bool = False  # the job keeps to a proved source below an unproved one
    interfaces: Sequence[Interface] = ()
    feed: ConverterFeed = AT_THE_AMPLIFIER
    line_taps: frozenset[Channel] = frozenset()  # read at the line feed, not at the speaker
    fitted: tuple[str, ...] = ()  # the data interfaces that the job fits: they switch on


def plan_work(work: PlanWork, choose: Callable[[Sources], Selection]) -> Plan:
    """Return the plan of what `choose` takes from the usable pairs; it is not asked without any."""
    bar = work.trust.whole_vehicle_bar
    if bar is not None:
        return refuse(work, object_to("nothing of this record may be used", bar, "its findings"))
    sources = find_sources(work.vehicle, work.trust, work.defaults, work.line_taps)
    if sources.objections:
        digital = digital_objections(work.vehicle, sources, work.line_taps, work.interfaces)
        return refuse(work, *sources.objections, *digital, reasons=sources.reasons, sources=sources)
    return _plan(work, sources, choose(sources))


def _select(work: PlanWork, sources: Sources, treatment: Treatment) -> Selection:
    breaks = treatment == "intercept" or (
        treatment == "auto" and work.converter.inputs >= DOORS_FROM_INPUTS
    )
    if breaks:
        return choose_doors(work.converter, sources, work.defaults)
    return choose_sub_source(work.vehicle, work.converter, sources, work.trust, work.defaults)


def _plan(work: PlanWork, sources: Sources, selection: Selection) -> Plan:
    vehicle, converter = work.vehicle, work.converter
    turn_on = choose_turn_on(
        vehicle, converter, selection, work.trust, work.defaults, work.draw_ma,
        lower_accepted=work.lower_rung_accepted, interfaces=work.interfaces, fitted=work.fitted,
    )  # fmt: skip
    levels = survey_levels(vehicle, converter, selection, work.defaults)
    objections = (
        *selection.objections,
        *digital_objections(vehicle, sources, work.line_taps, work.interfaces),
        *input_objections(selection, converter),
        *shared_return_objections(selection, work.defaults),
        *own_sound_objections(vehicle, selection),
        *levels.objections,
        *turn_on.objections,
        *work.feed.objections,
        *interface_objections(_used(work, turn_on), work.trust, work.defaults),
        *weak_pair_objections(vehicle, selection, work.trust, work.defaults),
    )
    return Plan(
        kind=plan_kind(objections),
        vehicle=vehicle.id,
        converter=converter.id,
        purpose=selection.purpose,
        grade=_weakest(work, selection, turn_on),
        because=_reasons(work, sources, selection, levels, turn_on),
        feeds=list_feeds(selection, converter, work.trust, levels.checks),
        insulate=list_open_ends(selection, converter, turn_on.turn_on) if selection.taps else (),
        turn_on=turn_on.turn_on,
        ladder=turn_on.ladder,
        levels=levels.checks,
        tests=_tests(work, sources, selection, turn_on, objections),
        losses=(*selection.losses, *kept_losses(vehicle, selection), *turn_on.losses),
        refusals=tuple(objection.reason for objection in objections),
        supplied_at=supplied_at(work.feed, work.trust),
    )


def _used(work: PlanWork, turn_on: TurnOnChoice) -> list[Interface]:
    """The data interface that switches it on, if one does."""
    return [each for each in work.interfaces if each.id == turn_on.turn_on.interface]


def refuse(
    work: PlanWork,
    *objections: Objection,
    reasons: tuple[Reason, ...] = (),
    sources: Sources | None = None,
) -> Plan:
    """A plan that stops before anything is chosen; the ladder is still climbed, to teach."""
    nothing = Selection(_purpose(work.converter))
    turn_on = choose_turn_on(
        work.vehicle, work.converter, nothing, work.trust, work.defaults, interfaces=work.interfaces
    )
    return Plan(
        kind=plan_kind(objections),
        vehicle=work.vehicle.id,
        converter=work.converter.id,
        purpose=nothing.purpose,
        grade="unproved",
        because=reasons,
        feeds=(),
        insulate=(),
        turn_on=turn_on.turn_on,
        ladder=turn_on.ladder,
        levels=(),
        tests=barred_readings(work.vehicle, sources, work.defaults) if sources else (),
        losses=(),
        refusals=tuple(objection.reason for objection in objections),
    )


def _purpose(converter: Converter) -> str:
    return "amplify the doors" if converter.inputs >= DOORS_FROM_INPUTS else SUB_PURPOSE


def _weakest(work: PlanWork, selection: Selection, turn_on: TurnOnChoice) -> GradeBand:
    bands = [pair_band(work.trust, tap) for tap in selection.touched]
    if turn_on.place is not None:
        pins = [turn_on.place.pin, *(pin for _, pin in turn_on.place.bus)]
        bands += [work.trust.grade(pin).band for pin in pins if pin is not None]
    bands += [work.trust.grade(pin).band for _, pin in work.feed.places]
    return worst_band(bands)


def _reasons(
    work: PlanWork,
    sources: Sources,
    selection: Selection,
    levels: LevelSurvey,
    turn_on: TurnOnChoice,
) -> tuple[Reason, ...]:
    return (
        *turn_on.first,
        *sources.reasons,
        *selection.reasons,
        *heard_reasons(tap.pair for tap in selection.taps),
        *input_reasons(selection, work.converter),
        *parallel_reasons(selection, work.converter, work.defaults),
        *line_tap_reasons(selection, work.converter, work.defaults),
        *levels.reasons,
        *turn_on.reasons,
        *kept_reasons(work.vehicle, selection, work.converter),
        *work.feed.reasons(work.converter),
    )


def _tests(
    work: PlanWork,
    sources: Sources,
    selection: Selection,
    turn_on: TurnOnChoice,
    objections: Sequence[Objection],
) -> tuple[ProofReading, ...]:
    """All that proves a tap plan, what settles a probe plan, what could clear a barred pair."""
    kind = plan_kind(objections)
    if kind == "tap_plan":
        used = proving_readings(work.vehicle, selection, turn_on.place, work.defaults)
        fed = feed_readings(work.vehicle, work.feed, work.defaults)
        by_interface = interface_readings(work.vehicle, _used(work, turn_on), work.defaults)
        return tuple(dict.fromkeys((*used, *fed, *by_interface)))
    if kind == "probe_plan":
        return settling_readings(objections)
    return barred_readings(work.vehicle, sources, work.defaults)
