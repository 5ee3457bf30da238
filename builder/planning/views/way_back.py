"""The way back to stock: every joint on the car's own wires undone, in order."""

from __future__ import annotations

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Joint
from builder.planning.views.names import end_words
from builder.planning.views.wiring_rows import OF_THE_CAR, is_on_a_stud
from builder.planning.words import UndoneHow


def undone_lines(index: CircuitIndex) -> tuple[str, ...]:
    """Return one line for each link whose joints change a wire of the car."""
    lines = []
    for joint in index.circuit.joints:
        if joint.undone == "rejoin" and (line := _rejoined(index, joint)):
            lines.append(line)
    lines += [
        f"Unplug {unit.id} at both ends; the car's plug home in its own unit."
        for unit in index.circuit.units
        if unit.kind == "loom"
    ]
    lines += [
        f"Unplug the data interface {unit.id}; the car's plug home."
        for unit in index.circuit.units
        if unit.kind == "interface"
    ]
    lines += [_taken_off(index, joint) for joint in _with(index, "take_off")]
    return tuple(dict.fromkeys(lines))


def _with(index: CircuitIndex, how: UndoneHow) -> list[Joint]:
    return [joint for joint in index.circuit.joints if joint.undone == how]


def _rejoined(index: CircuitIndex, joint: Joint) -> str:
    """One line for each cut wire, told at its radio end."""
    stub = next((end for end in joint.joins if " radio end " in end), None)
    if stub is None:
        return ""
    wire = index.owners[stub]
    others = [end_words(index, end) for end in joint.joins if end != stub]
    place = getattr(wire, "place", "")
    return (
        f"{place}: take {' and '.join(others)} off, then join radio end and speaker end of its "
        "wire again."
    )


def _taken_off(index: CircuitIndex, joint: Joint) -> str:
    car = [
        end
        for end in joint.joins
        if end in index.terminals and index.unit_of(end).kind in OF_THE_CAR
    ]
    ours = [end_words(index, end) for end in joint.joins if end not in car]
    then = "." if is_on_a_stud(joint) else " and close the insulation."
    return f"{' and '.join(car)}: take {' and '.join(ours)} off{then}"
