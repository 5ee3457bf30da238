"""A job that joins nothing: what to measure first, or why not and what would change that."""

from __future__ import annotations

from dataclasses import replace

from builder.model.house_defaults import HouseDefaults
from builder.planning.bay.sheet import probe_sheet
from builder.planning.bay.work import BayWork
from builder.planning.car.selection import Selection
from builder.planning.course.probe_visit import visit_sheet
from builder.planning.course.sheet import CourseSheet
from builder.planning.job.pack_advice import without_turn_on
from builder.planning.objections import Objection, object_to, plan_kind, settling_readings
from builder.planning.pack_details import PackFlag, PowerSheet
from builder.planning.plan import Plan, ProofReading, TurnOn
from builder.planning.tables import HOUSE_DEFAULT
from builder.planning.words import PlanKind
from builder.planning.work_pack import BayTest, JobParts, WorkPack

_KINDS = ("tap_plan", "probe_plan", "no_plan")
"""Best first."""

NOTHING_JOINED = TurnOn(
    None,
    "none",
    None,
    None,
    None,
    None,
    None,
    None,
    "nothing is joined while this is no tap plan; what is planned stands on sheet K",
)


def refused_pack(
    pack: WorkPack, parts: JobParts, objections: tuple[Objection, ...], defaults: HouseDefaults
) -> WorkPack:
    """Return the pack with everything taken out that one builds from.

    `objections` stand besides those of its tap plan. Readings that settle a doubt stay, and
    become the bay sheet of a probe plan.
    """
    plan = pack.plan
    kind = worse_kind(plan.kind, plan_kind(objections))
    own = () if plan.kind == "tap_plan" else plan.tests
    readings = tuple(dict.fromkeys((*own, *settling_readings(objections))))
    sheet = CourseSheet((), ())
    if kind == "probe_plan":
        asked = _probe_sheet(parts, pack, readings, defaults)
        sheet = visit_sheet(parts.vehicle, asked, defaults)
    return replace(
        pack,
        kind=kind,
        plan=replace(
            plan,
            kind=kind,
            feeds=(),
            insulate=(),
            supplied_at=(),
            turn_on=NOTHING_JOINED,
            tests=readings,
        ),
        tests=sheet.tests,
        steps=sheet.steps,
        alternatives=without_turn_on(pack.alternatives),
        refusals=(*plan.refusals, *(objection.reason for objection in objections)),
    )


def _probe_sheet(
    parts: JobParts, pack: WorkPack, readings: tuple[ProofReading, ...], defaults: HouseDefaults
) -> tuple[BayTest, ...]:
    none = Selection(pack.plan.purpose)
    work = BayWork(parts, pack.plan, none, (), (), None, defaults, power=pack.power)
    return probe_sheet(work, readings)


def empty_pack(parts: JobParts, plan: Plan) -> WorkPack:
    """Return a pack with nothing in it but its tap plan."""
    return WorkPack(
        job=parts.job.id, kind=plan.kind, plan=plan, treatments=(), levels=(), power=None,
        conductors=(), cut_list=(), labels=(), speaker_leads=(), insulate=(), tests=(), steps=(),
        revert=(), customer=(), parts=(), losses=plan.losses, alternatives=(),
        because=plan.because, refusals=plan.refusals,
    )  # fmt: skip


def worse_kind(first: PlanKind, second: PlanKind) -> PlanKind:
    """Return the worse of two kinds of plan."""
    return max(first, second, key=_KINDS.index)


def stopping_objections(flags: tuple[PackFlag, ...]) -> list[Objection]:
    """Return flags that no plan may stand beside, as refusals."""
    return [
        object_to(f"{flag.where}: {flag.kind.replace('_', ' ')}", flag.says, HOUSE_DEFAULT)
        for flag in flags
        if flag.stops and flag.kind != "turn_on_weak"
    ]


def length_objections(sheet: PowerSheet | None, parts: JobParts) -> list[Objection]:
    """Return the refusal of a supply whose length nobody measured: it cannot be sized."""
    if sheet is not None or not parts.amplifiers:
        return [_without_branch(name) for name in _left_out(parts)]
    because = "neither the job nor the vehicle says how long supply and ground lead are"
    return [object_to("measure the supply's way first", because, HOUSE_DEFAULT)]


def _left_out(parts: JobParts) -> list[str]:
    """The amplifiers in use that the distribution block has no branch for, but for others."""
    branched = {each.amplifier for each in parts.job.supply.branches}
    driving = {each.amplifier for each in parts.job.speakers}
    return [name for name in parts.amplifiers if branched and name in driving - branched]


def _without_branch(name: str) -> Objection:
    because = (
        f"the distribution block has branches for others and none for {name}: how thick its wire "
        "and its fuse must be cannot be told"
    )
    return object_to(f"measure the branch to {name} first", because, HOUSE_DEFAULT)
