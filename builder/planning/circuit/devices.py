"""The devices that a job brings and that something has to hold."""

from __future__ import annotations

from builder.model.job import Job, Mount
from builder.planning.circuit.hold_up import HOLD_UP_PARTS, HOLDS_UP
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Element, Joint, Unit
from builder.planning.circuit.terminal_names import LINK_FUSE, SECOND
from builder.planning.words import BLOCK, MAIN_FUSE, UnitKind

_OURS: tuple[UnitKind, ...] = (
    "converter", "interface", "amplifier", "distribution", "driver", "turn_on_load",
    "battery_joiner", "speaker", "crossover",
)  # fmt: skip


def devices_of(index: CircuitIndex) -> list[Unit]:
    """Return each, a second battery too; a speaker in the place of the car's own is held by it."""
    replaced = {
        index.unit_of(end).id
        for joint in index.circuit.joints
        for end in joint.joins
        if joint.undone == "put_back" and end in index.terminals
    }
    return [
        unit
        for unit in index.circuit.units
        if (unit.kind in _OURS and unit.id not in replaced) or unit.id == SECOND
    ]


def hold_up_place(index: CircuitIndex) -> str | None:
    """Return where the parts of a hold-up hang on their leads, which hold nothing; None without."""
    parts = (each for each in index.circuit.elements if each.kind == "capacitor")
    return next((each.place for each in parts if each.purpose.startswith(HOLDS_UP)), None)


def held_holders(index: CircuitIndex) -> list[Element]:
    """Return the fuses whose holder is fixed to the car, heavy cable at both ends of it: the main
    one, and those of a link between two batteries."""
    heavy = (MAIN_FUSE, LINK_FUSE, f"fuse of the link at the {SECOND}")
    return [x for x in index.circuit.elements if x.id in heavy and x.place != BLOCK]


def tied_holders(index: CircuitIndex) -> list[Element]:
    """Return the fuses whose holder hangs in a thin wire of the job, which holds nothing."""
    fixed = [each.id for each in held_holders(index)]
    taps = {end for joint in index.circuit.joints if _at_fuse(index, joint) for end in joint.joins}
    return [
        x
        for x in index.circuit.elements
        if x.kind == "fuse" and x.id not in fixed and x.place != BLOCK
        and not x.loom and not taps & {*x.ends}
    ]  # fmt: skip


def _at_fuse(index: CircuitIndex, joint: Joint) -> bool:
    """Whether a joint is a tap in a fuse position of the car, which holds what is put into it."""
    ends = [end for end in joint.joins if end in index.terminals]
    return any(index.unit_of(end).kind == "fuse_position" for end in ends)


def held_names(index: CircuitIndex) -> tuple[str, ...]:
    """Return what is pulled by hand once it is fixed: devices, heavy fuse holders, the parts of a
    hold-up."""
    parts = () if hold_up_place(index) is None else (HOLD_UP_PARTS,)
    fuses = (f"holder of the {each.id}" for each in held_holders(index))
    return (*(unit.id for unit in devices_of(index)), *fuses, *parts)


def mounted_as(unit: Unit) -> str:
    """Return what a job's `mounts` call a device: its name, and "converter"."""
    return "converter" if unit.kind == "converter" else unit.id


def mounts_of(job: Job, unit: Unit) -> list[Mount]:
    """Return what a job says of how a device is held."""
    return [each for each in job.mounts if each.device == mounted_as(unit)]


def where_words(unit: Unit) -> str:
    """Return a device with its place: "sub amp (right luggage side)"."""
    return f"{unit.id} ({unit.place})" if unit.place != unit.id else unit.id
