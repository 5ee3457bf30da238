"""The devices that a job brings and that something has to hold."""

from __future__ import annotations

from builder.planning.circuit.hold_up import HOLD_UP_PARTS, HOLDS_UP
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Unit
from builder.planning.circuit.terminal_names import SECOND
from builder.planning.words import UnitKind

_OURS: tuple[UnitKind, ...] = (
    "converter", "interface", "amplifier", "distribution", "driver", "turn_on_load",
    "battery_joiner", "speaker",
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


def held_names(index: CircuitIndex) -> tuple[str, ...]:
    """Return what is pulled by hand once it is fixed: each device, and the parts of a hold-up."""
    parts = () if hold_up_place(index) is None else (HOLD_UP_PARTS,)
    return (*(unit.id for unit in devices_of(index)), *parts)


def mounted_as(unit: Unit) -> str:
    """Return what a job's `mounts` call a device: its name, and "converter"."""
    return "converter" if unit.kind == "converter" else unit.id


def where_words(unit: Unit) -> str:
    """Return a device with its place: "sub amp (right luggage side)"."""
    return f"{unit.id} ({unit.place})" if unit.place != unit.id else unit.id
