"""What is computed of a job once its pairs are chosen: turn-on, levels, power, cables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.job_demands import JobDemands, job_demands
from builder.planning.cables.laying import Laying, lay_cables
from builder.planning.car.selection import Selection
from builder.planning.feeds.converter_feed import ConverterFeed
from builder.planning.harness.judged import loom_flags
from builder.planning.harness.planned import LoomPlan, loom_plans
from builder.planning.harness.ways import way_reasons
from builder.planning.job.cables import JobCables, job_cables
from builder.planning.job.crossovers import crossover_reasons
from builder.planning.job.leads import JobLeads, job_leads
from builder.planning.job.levels import JobLevels, job_levels
from builder.planning.job.refused_pack import length_objections, stopping_objections
from builder.planning.job.supply_sheet import JobPower, job_power
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.levels.line_load import loaded_shares
from builder.planning.objections import Objection
from builder.planning.pack_details import PackFlag
from builder.planning.plan import Plan, Reason
from builder.planning.turn_on.budget import TurnOnBudget, budget_turn_on
from builder.planning.work_pack import JobParts

Loads = dict[tuple[str, int], ChannelLoad]


@dataclass(frozen=True, slots=True)
class JobFigures:
    """The parts of a pack that need no decision any more, with what is wrong in each."""

    budget: TurnOnBudget
    levels: JobLevels
    power: JobPower
    demands: JobDemands
    laying: Laying
    leads: JobLeads
    cables: JobCables
    looms: Mapping[str, LoomPlan]
    loom_flags: tuple[PackFlag, ...]
    ways: tuple[Reason, ...]
    crossovers: tuple[Reason, ...] = ()

    @property
    def flags(self) -> tuple[PackFlag, ...]:
        """Shortcomings, in the order of a pack's sheets."""
        return (
            *self.budget.flags, *self.levels.flags, *self.power.flags, *self.cables.flags,
            *self.leads.flags, *self.loom_flags,
        )  # fmt: skip

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """Why turn-on, crossovers, leads, cables and the way they are joined are as they are."""
        return (
            *self.budget.reasons, *self.crossovers, *self.leads.reasons, *self.cables.reasons,
            *self.ways,
        )  # fmt: skip

    def objections(self, parts: JobParts) -> tuple[Objection, ...]:
        """What no plan may stand beside."""
        return (
            *self.budget.objections, *self.demands.objections, *stopping_objections(self.flags),
            *length_objections(self.power.sheet, parts),
        )  # fmt: skip


def job_figures(
    parts: JobParts,
    plan: Plan,
    selection: Selection,
    loads: Loads,
    feed: ConverterFeed,
    defaults: HouseDefaults,
) -> JobFigures:
    """Return the figures of a job from its tap plan and what each amplifier channel drives."""
    budget = budget_turn_on(parts, plan.turn_on, defaults)
    shares = loaded_shares(parts.converter, selection.used_leads, parts.amplifiers, defaults)
    levels = job_levels(selection, plan.levels, loads, parts.converter, defaults, shares)
    power = job_power(parts, loads, budget.latch_ah_per_day, plan.turn_on, feed.at, defaults)
    watts = {s.name: load.power_w for load in loads.values() for s in load.speakers}
    demands = job_demands(
        parts, selection, plan.turn_on, watts, defaults,
        turn_on_settled=plan.kind != "probe_plan",
    )  # fmt: skip
    laying = lay_cables(demands.routed, parts.cables, defaults)
    leads = job_leads(loads, laying, defaults)
    cables = job_cables(parts, laying, selection, plan.turn_on, defaults)
    looms = loom_plans(parts, selection, plan.turn_on, feed.legs)
    found = loom_flags(parts, looms)
    ways = tuple(way_reasons(parts, selection, plan.turn_on, feed.legs))
    return JobFigures(
        budget, levels, power, demands, laying, leads, cables, looms, found, ways,
        tuple(crossover_reasons(parts.job, selection)),
    )  # fmt: skip
