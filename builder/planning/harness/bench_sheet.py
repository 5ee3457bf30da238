"""The bench sheet of each loom of a job, a view of its circuit."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.terminal_names import plug_name, source_name
from builder.planning.harness.bench_counts import loom_needs
from builder.planning.harness.bench_needs import needs_lines
from builder.planning.harness.bench_rules import rule_lines
from builder.planning.harness.bench_terms import term_lines
from builder.planning.harness.bench_words import order_lines
from builder.planning.harness.cable_ends import CableEnds
from builder.planning.harness.cables_of import cable_rows
from builder.planning.harness.joint_list import joint_rows
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.ring_fails import failing_lines
from builder.planning.harness.ring_method import measuring_lines, why_lines
from builder.planning.harness.ring_rows import bundle_of, ring_rows
from builder.planning.harness.rows import LoomSheet
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.harness.wire_rows import WireOfLoom
from builder.planning.looms.conductors import Conductor, conductors
from builder.planning.work_pack import JobParts


def bench_sheets(
    plans: Mapping[str, LoomPlan], index: CircuitIndex, parts: JobParts, defaults: HouseDefaults
) -> tuple[LoomSheet, ...]:
    """Return the bench sheet of every loom, in the order of the job."""
    return tuple(_sheet(plan, index, parts, defaults) for plan in plans.values())


def _sheet(
    plan: LoomPlan, index: CircuitIndex, parts: JobParts, defaults: HouseDefaults
) -> LoomSheet:
    loom, plug = plan.use.loom, plan.use.plug
    wires = [
        WireOfLoom(plan, index, wire)
        for wire in sorted(conductors(loom), key=lambda wire: _by_cavity(plan, wire))
    ]
    ends = CableEnds(plan, wires)
    joints = tuple(joint_rows(plan, index, wires, ends, defaults))
    rows = tuple(wire.row(joints) for wire in wires)
    cables = tuple(cable_rows(plan, index, joints, ends))
    work = SheetWork(
        plan, index, parts.shelf.housings, defaults, rows, cables, joints,
        ring_rows(plan, index, cables, defaults), bundle_of(plan, index),
    )  # fmt: skip
    unit, car = plan.ends
    return LoomSheet(
        loom=plan.use.name,
        record=loom.id,
        title=loom.name,
        made=loom.made,
        between=f"{plug_name(plug)} and the {source_name(plug.unit)}",
        length_m=loom.length_m,
        unit_end=unit.name,
        car_end=car.name,
        wires=rows,
        cables=cables,
        joints=joints,
        terms=tuple(term_lines(work)),
        needs=tuple(needs_lines(work)),
        counts=tuple(loom_needs(work)),
        rules=tuple(rule_lines(work)),
        order=tuple(order_lines(work)),
        measuring=(*measuring_lines(work), *why_lines(work)),
        failing=tuple(failing_lines(work)),
        ring_out=work.ringing,
        bundle=work.bundle,
    )


def _by_cavity(plan: LoomPlan, wire: Conductor) -> tuple[tuple[int, str], int]:
    """The cavity in the car's plug, then the unit's side first; a wire of none comes last."""
    places = [end.name for end in plan.ends]
    spots = [spot for spot in (wire.start, wire.to) if spot.place in places]
    if not spots:
        return (1000, ""), 0
    return spots[0].by_number, min(places.index(spot.place) for spot in spots)
