"""Plans and packs with everything taken out that somebody could start to work from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from builder.model.job import AsBuilt
from builder.planning.job.back_from import customer_lines_from, way_back_from
from builder.planning.job.pack_advice import without_turn_on
from builder.planning.job.recalled import Recall
from builder.planning.job.refused_pack import NOTHING_JOINED, refused_pack
from builder.planning.objections import Objection, plan_kind, settling_readings
from builder.planning.plan import Plan, Reason, Rung, TurnOn
from builder.planning.work_pack import JobParts, WorkPack


def unmade_plan(vehicle: str, converter: str) -> Plan:
    """Return no plan of a vehicle and a converter that the planner could not look into."""
    return Plan(
        kind="no_plan", vehicle=vehicle, converter=converter, purpose="not looked into",
        grade="unproved", because=(), feeds=(), insulate=(), turn_on=NOTHING_JOINED, ladder=(),
        levels=(), tests=(), losses=(), refusals=(),
    )  # fmt: skip


def nothing_joined(plan: Plan) -> Plan:
    """Return a plan that is no tap plan without its terminals and its turn-on.

    The ladder stays, to teach; what would be chosen on it is only possible now. The paths of the
    turn-on stay too: they say which pins the plan waits for, and are never printed.
    """
    return replace(
        plan, feeds=(), insulate=(), turn_on=_none(plan.turn_on), ladder=_unchosen(plan.ladder)
    )


def _unchosen(ladder: tuple[Rung, ...]) -> tuple[Rung, ...]:
    return tuple(
        replace(rung, verdict="possible") if rung.verdict == "chosen" else rung for rung in ladder
    )


def _none(turn_on: TurnOn) -> TurnOn:
    return replace(NOTHING_JOINED, path=turn_on.path, relied_on=turn_on.relied_on)


def closed_plan(plan: Plan, refusals: tuple[Reason, ...], *, figures: bool = False) -> Plan:
    """Return no plan, refused for these reasons besides its own.

    What is to be measured stays where it was to settle a doubt; readings that stand before a
    joint go with the joint, and so do reasons that name a pin. `figures` keeps levels and ladder.
    """
    return replace(
        plan,
        kind="no_plan",
        grade="unproved",
        because=(),
        feeds=(),
        insulate=(),
        turn_on=_none(plan.turn_on),
        ladder=_unchosen(plan.ladder) if figures else (),
        levels=plan.levels if figures else (),
        tests=() if plan.kind == "tap_plan" else plan.tests,
        losses=(),
        refusals=(*plan.refusals, *refusals),
    )


def doubted_plan(plan: Plan, doubts: tuple[Objection, ...]) -> Plan:
    """Return a probe plan for pins that the plan does not use and that nobody has proved.

    Where no reading would settle a doubt it is no plan.
    """
    reasons = tuple(doubt.reason for doubt in doubts)
    closed = closed_plan(plan, reasons)
    return replace(closed, kind=plan_kind(doubts), tests=settling_readings(doubts))


def doubted_pack(pack: WorkPack, parts: JobParts, doubts: tuple[Objection, ...]) -> WorkPack:
    """Return the pack of a job whose car has such pins: what to measure, and nothing to build."""
    closed = closed_pack(pack, (), figures=False)
    open_plan = replace(closed, plan=replace(closed.plan, kind="tap_plan"))
    return refused_pack(open_plan, parts, doubts, parts.shelf.defaults)


def closed_pack(pack: WorkPack, refusals: tuple[Reason, ...], *, figures: bool) -> WorkPack:
    """Return the pack of a refused job: nothing of it is built, bought or promised.

    `figures` keeps levels and power, which show what to change; they are worth nothing where a
    record they were worked out from is in doubt.
    """
    closed = replace(
        pack,
        kind="no_plan",
        plan=closed_plan(pack.plan, (), figures=figures),
        alternatives=without_turn_on(pack.alternatives),
        tests=pack.tests if pack.kind == "probe_plan" else (),
        hold_up=None,
        circuit=None,
        refusals=(*pack.refusals, *refusals),
        **_emptied(_BUILT),
    )
    return closed if figures else replace(closed, power=None, **_emptied(_FIGURES))


def as_built_pack(pack: WorkPack, parts: JobParts, as_built: AsBuilt) -> WorkPack:
    """Return a pack whose way back and customer sheet are told from what is joined."""
    return replace(
        pack,
        revert=way_back_from(pack, parts, as_built),
        customer=customer_lines_from(pack, parts, as_built),
    )


def recalled_pack(pack: WorkPack, recalls: Sequence[Recall]) -> WorkPack:
    """Return what is shown of a job that the book speaks against: nothing to join or buy.

    What is joined stays to be read, and so does the way back.
    """
    reasons = tuple(
        Reason(f"look again at {each.at or 'the whole job'}", each.because, RECALLED)
        for each in recalls
    )
    return replace(
        pack, kind="no_plan", plan=replace(nothing_joined(pack.plan), kind="no_plan"),
        refusals=(*pack.refusals, *reasons), **_emptied(_TO_DO),
    )  # fmt: skip


RECALLED = "the book as it is today"
_TO_DO = ("steps", "cut_list", "labels", "parts", "gains", "tune", "insulate", "alternatives")
"""The lists of a pack that somebody would work by; the others tell what is there."""
_BUILT = (
    "because", "gains", "wiring", "joints", "conductors", "cut_list", "labels", "insulate",
    "steps", "revert", "customer", "parts", "turn_on_draws",
)  # fmt: skip
"""The lists of a pack that somebody would build or buy by, or promise."""
_FIGURES = ("treatments", "levels", "speaker_leads", "losses", "alternatives", "flags")
"""Those that show what to change."""


def _emptied(lists: Iterable[str]) -> dict[str, Any]:
    return dict.fromkeys(lists, ())
