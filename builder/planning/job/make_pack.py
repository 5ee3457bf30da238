"""The work pack: a whole job from the pins to the hand-over, or what keeps it from being done.

Nothing of a pack stands on a pin that is barred, disputed or not proved enough: such a job gets
the readings that would settle it, or the reason why it cannot be done.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.planning.bay.foretold import sound_of
from builder.planning.bay.hand_over import customer_sheet
from builder.planning.bay.sheet import bay_sheet
from builder.planning.bay.work import BayWork
from builder.planning.car.asked_sounds import asked_sound_objections
from builder.planning.car.route_zones import high_voltage_objections
from builder.planning.car.selection import Selection
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import Treatments, decide_treatments
from builder.planning.circuit.devices import held_names
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.make_circuit import make_circuit
from builder.planning.circuit.model import Circuit
from builder.planning.circuit.work import CircuitWork
from builder.planning.feeds.converter_feed import converter_feed
from builder.planning.feeds.stand_ins import StandIns, stand_in_loads, stand_in_remarks
from builder.planning.feeds.tap_plan import PlanWork, plan_work
from builder.planning.job.car_matches import car_objections
from builder.planning.job.chosen import select_for_job
from builder.planning.job.converter_choice import WouldDo, converter_alternatives, unasked
from builder.planning.job.figures import JobFigures, job_figures
from builder.planning.job.in_order import in_no_order, in_order
from builder.planning.job.pack_advice import latch_alternative, reserve_alternatives
from builder.planning.job.pack_json import pack_as_json
from builder.planning.job.refused_pack import (
    empty_pack,
    refused_pack,
    worse_kind,
)
from builder.planning.job.supply_sheet import job_power
from builder.planning.job.tune import TuneWork, tune_rows
from builder.planning.job.wish import JobWish
from builder.planning.levels.amplifier_loads import channel_loads
from builder.planning.levels.fitted_pads import fitted_pads
from builder.planning.levels.tone_heard import besides_tone
from builder.planning.objections import Objection, plan_kind
from builder.planning.pack_details import PackFlag
from builder.planning.plan import Plan
from builder.planning.power.asleep_draws import allowance_reason
from builder.planning.trust import GradeOf, Trust, grade_by_readings
from builder.planning.turn_on.better_rung import LOWER_RUNG_RULE
from builder.planning.turn_on.loads import source_draw_ma
from builder.planning.views.sheets import circuit_sheets
from builder.planning.work_pack import JobParts, WorkPack

__all__ = ["WouldDo", "make_pack", "pack_as_json", "unasked"]


def make_pack(
    parts: JobParts,
    *,
    defaults: HouseDefaults,
    grade: GradeOf | None = None,
    barred: Mapping[DataPath, str] | None = None,
    would_do: WouldDo = unasked,
    ordered: bool = True,
) -> WorkPack:
    """Return the work pack of a job.

    Args:
        parts: The job with every record it names.
        defaults: The book's house defaults.
        grade: How far a pin can be relied on; None grades by the readings of the record.
        barred: Data paths of the vehicle on which a stop finding stands, with the reason.
        would_do: Asked of every converter before it is named as an alternative, whether the whole
            job comes to a tap plan with it; unasked, none is named.
        ordered: Whether the work is put into its order. Who asks only whether a tap plan comes out
            does without: seeking the order takes longer than all the rest.
    """
    trust = Trust(parts.vehicle, grade or grade_by_readings(defaults), barred or {})
    return _Making(parts, defaults, trust, would_do, ordered).pack()


@dataclass(frozen=True, slots=True)
class _Chosen:
    """What the tap plan was made from."""

    sources: Sources
    treatments: Treatments
    selection: Selection


class _Making:
    """One job on its way from parts to pack. Each step looks at what the steps before found."""

    def __init__(
        self,
        parts: JobParts,
        defaults: HouseDefaults,
        trust: Trust,
        would_do: WouldDo,
        ordered: bool,
    ) -> None:
        self.parts = parts
        self.would_do = would_do
        self.ordered = ordered
        self.defaults = defaults
        self.wish = JobWish(parts.job, parts.converter, parts.amplifiers, defaults)
        lower = any(each.rule == LOWER_RUNG_RULE for each in parts.job.accept)
        lines = (name for name, how in parts.job.treatment.items() if how == "line_tap")
        self.work = PlanWork(
            parts.vehicle, parts.converter, defaults, trust, source_draw_ma(parts), lower,
            tuple(parts.shelf.interfaces.values()), converter_feed(parts, trust, defaults),
            frozenset(lines), parts.job.interfaces,
        )  # fmt: skip
        self.loads, self.against_loads = channel_loads(parts.job, parts.amplifiers)
        self.chosen: _Chosen | None = None

    def pack(self) -> WorkPack:
        plan = plan_work(self.work, self._choose)
        if self.chosen is None:
            return self._without_pairs(plan)
        return self._with_pairs(plan, self.chosen)

    def _of_the_car(self) -> tuple[Objection, ...]:
        """What the car and the loads say against the job, whatever is chosen."""
        return (
            *car_objections(self.parts.job.car, self.parts.vehicle),
            *self.against_loads,
            *high_voltage_objections(self.parts.job, self.parts.vehicle),
        )

    def _against(self, chosen: _Chosen, figures: JobFigures) -> tuple[Objection, ...]:
        """All that speaks against building it with the pairs chosen."""
        sounds = asked_sound_objections(self.parts.job, self.parts.vehicle, chosen.selection)
        return (*self._of_the_car(), *sounds, *figures.objections(self.parts))

    def _choose(self, sources: Sources) -> Selection:
        treatments = decide_treatments(self.parts.job, sources)
        selection = select_for_job(self.wish, sources, treatments)
        self.chosen = _Chosen(sources, treatments, selection)
        return selection

    def _without_pairs(self, plan: Plan) -> WorkPack:
        feed = self.work.feed.at
        power = job_power(self.parts, self.loads, None, plan.turn_on, feed, self.defaults)
        empty = empty_pack(self.parts, plan)
        return self._refused(replace(empty, power=power.sheet), self._of_the_car(), power.flags)

    def _with_pairs(self, plan: Plan, chosen: _Chosen) -> WorkPack:
        figures = job_figures(
            self.parts, plan, chosen.selection, self.loads, self.work.feed, self.defaults
        )
        against = self._against(chosen, figures)
        pack = self._decided(plan, chosen, figures)
        if worse_kind(plan.kind, plan_kind(against)) != "tap_plan":
            refused = replace(pack, levels=figures.levels.chains)
            return self._refused(refused, against, figures.flags)
        return self._whole(pack, chosen.selection, figures)

    def _decided(self, plan: Plan, chosen: _Chosen, figures: JobFigures) -> WorkPack:
        """The pack with what was decided and why, and nothing yet to build from."""
        parts, power = self.parts, figures.power
        return replace(
            empty_pack(parts, plan),
            treatments=chosen.treatments.reasons,
            power=power.sheet,
            turn_on_draws=figures.budget.draws,
            alternatives=(
                *converter_alternatives(
                    parts, self.wish, chosen.sources, chosen.treatments, self.would_do
                ),
                *latch_alternative(parts, plan, self.defaults),
                *reserve_alternatives(power),
            ),
            because=(*plan.because, *figures.reasons),
            flags=figures.flags,
        )

    def _whole(self, pack: WorkPack, selection: Selection, figures: JobFigures) -> WorkPack:
        """The pack with everything to build from, to prove it by and to undo it."""
        built = replace(
            pack,
            kind="tap_plan",
            levels=figures.levels.chains,
            gains=figures.levels.gains,
            tune=tune_rows(
                TuneWork(
                    figures.levels.chains,
                    figures.levels.gains,
                    self.loads,
                    self.parts.vehicle,
                    self.parts.converter,
                )
            ),
            speaker_leads=figures.leads.leads,
            hold_up=figures.budget.hold_up,
        )
        return self._on_paper(built, selection, figures)

    def _circuit(
        self, pack: WorkPack, selection: Selection, figures: JobFigures, stand_ins: StandIns
    ) -> Circuit:
        """Everything that is joined, once, for every sheet."""
        return make_circuit(CircuitWork(
            self.parts, pack.plan, selection, figures.laying, self.loads, figures.leads.leads,
            figures.leads.sizes, figures.power.runs, pack.hold_up,
            fitted_pads(pack.plan.levels, self.parts.converter),
            stand_ins, self.work.feed, self.defaults, figures.looms, figures.power.link,
        ))  # fmt: skip

    def _on_paper(self, pack: WorkPack, selection: Selection, figures: JobFigures) -> WorkPack:
        """The pack with its sheets, each a view of its circuit, and its tests."""
        parts, plan, hold_up = self.parts, pack.plan, pack.hold_up
        loads = stand_in_loads(parts, selection, plan.levels, self.defaults)
        circuit = self._circuit(pack, selection, figures, loads)
        work = BayWork(
            parts, plan, selection, pack.levels, pack.gains, hold_up, self.defaults, loads,
            figures.looms, pack.tune, pack.power, dict(figures.leads.ohms),
            held_names(CircuitIndex(circuit)),
        )  # fmt: skip
        tests = bay_sheet(work, circuit)
        remarks = stand_in_remarks(loads)
        sheets = circuit_sheets(circuit, parts, remarks, self.defaults, figures.looms)
        kept = tuple(end for end in plan.insulate if end.plug not in figures.looms)
        said = {end.what for end in kept}
        whole = replace(
            pack,
            plan=replace(plan, insulate=kept),
            because=(*pack.because, allowance_reason(parts, plan.turn_on, self.defaults)),
            circuit=circuit, sound=sound_of(work),
            besides_tone=besides_tone(parts.vehicle, selection),
            looms=sheets.looms, wiring=sheets.wiring,
            joints=sheets.joints,
            conductors=sheets.conductors,
            cut_list=sheets.cut_list,
            labels=sheets.labels,
            insulate=(*kept, *(end for end in sheets.insulate if end.what not in said)),
            tests=tests,
            customer=customer_sheet(
                parts, plan, pack.losses, pack.power, sheets.fuses, sheets.fitted,
                sheets.touched,
            ),
            parts=sheets.parts,
        )  # fmt: skip
        return (in_order if self.ordered else in_no_order)(whole, work, circuit)

    def _refused(
        self, pack: WorkPack, objections: tuple[Objection, ...], flags: tuple[PackFlag, ...]
    ) -> WorkPack:
        return refused_pack(replace(pack, flags=flags), self.parts, objections, self.defaults)
