"""Every sheet of a pack that is a view of its circuit, made at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit
from builder.planning.harness.bench_sheet import bench_sheets
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import LoomSheet
from builder.planning.plan import Insulated
from builder.planning.power.joiners import joiner_remarks
from builder.planning.sheet_rows import (
    ConductorRow,
    CutRow,
    JointRow,
    Label,
    PartLine,
    WiringRow,
)
from builder.planning.views.conductor_rows import conductor_rows
from builder.planning.views.cut_rows import cut_rows
from builder.planning.views.fuse_parts import fuse_lines
from builder.planning.views.label_rows import label_rows
from builder.planning.views.part_lines import (
    PartsWork,
    battery_joiners,
    device_lines,
    part_lines,
)
from builder.planning.views.way_back import touched_lines
from builder.planning.views.wiring_rows import joint_rows, wiring_rows
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class CircuitSheets:
    """What each sheet shows of one circuit."""

    wiring: tuple[WiringRow, ...]
    joints: tuple[JointRow, ...]
    conductors: tuple[ConductorRow, ...]
    cut_list: tuple[CutRow, ...]
    labels: tuple[Label, ...]
    insulate: tuple[Insulated, ...]
    fuses: tuple[str, ...]
    touched: tuple[str, ...]
    parts: tuple[PartLine, ...]
    fitted: tuple[str, ...]
    looms: tuple[LoomSheet, ...]


def circuit_sheets(
    circuit: Circuit, parts: JobParts, remarks: dict[str, str], defaults: HouseDefaults,
    plans: Mapping[str, LoomPlan],
) -> CircuitSheets:  # fmt: skip
    """Return the sheets of a circuit; `remarks` are notes on its parts by their purpose, `plans`
    its looms by the plug of the car."""
    index = CircuitIndex(circuit)
    remarks = remarks | joiner_remarks(parts.job.supply.second_battery)
    cut_list = cut_rows(index, defaults)
    labels = label_rows(index, defaults)
    bands = sum(label.bands for label in labels)
    looms = bench_sheets(plans, index, parts, defaults)
    return CircuitSheets(
        wiring=wiring_rows(index),
        joints=joint_rows(index),
        conductors=conductor_rows(index),
        cut_list=cut_list,
        labels=labels,
        insulate=tuple(
            Insulated(each.what, None, None, each.because) for each in circuit.open_ends
        ),
        fuses=fuse_lines(index),
        touched=touched_lines(index),
        parts=part_lines(
            PartsWork(parts, index, cut_list, len(labels), bands, remarks, defaults, looms)
        ),
        fitted=(*(line.item for line in device_lines(parts, index)), *battery_joiners(index)),
        looms=looms,
    )
