"""The way back to stock: every joint on the car's own wires undone, in order."""

from __future__ import annotations

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Element, EndId, Joint
from builder.planning.views.names import end_words, is_at_fuse
from builder.planning.views.wiring_rows import OF_THE_CAR, is_on_a_stud
from builder.planning.words import UndoneHow


def undone_lines(index: CircuitIndex) -> tuple[str, ...]:
    """Return one line for each link whose joints change a wire of the car."""
    lines = [_rejoined(index, place) for place in _cut_wires(index)]
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
    places = {joint.place for joint in _with(index, "put_back")}
    lines += [
        f"Take {unit.id} off the car's wire and put the factory speaker back in its place, + on +."
        for unit in index.circuit.units
        if unit.kind == "speaker" and unit.place in places
    ]
    return tuple(dict.fromkeys(lines))


def undone_places(index: CircuitIndex) -> tuple[str, ...]:
    """Return where something behind trim is undone, each place once; a stud lies open."""
    joints = [*_with(index, "rejoin"), *_with(index, "take_off")]
    joints += [
        joint
        for joint in _with(index, "unplug")
        if any(index.is_of_loom(end) or _of_interface(index, end) for end in joint.joins)
    ]
    places = (joint.place for joint in joints if not is_on_a_stud(joint))
    return tuple(dict.fromkeys(places))


def _of_interface(index: CircuitIndex, end: EndId) -> bool:
    return end in index.terminals and index.unit_of(end).kind == "interface"


def _with(index: CircuitIndex, how: UndoneHow) -> list[Joint]:
    return [joint for joint in index.circuit.joints if joint.undone == how]


def _cut_wires(index: CircuitIndex) -> list[str]:
    """The cavities whose own wire is cut, in the order in which they are joined to something."""
    halves = [
        owner
        for joint in _with(index, "rejoin")
        for end in joint.joins
        if isinstance(owner := index.owners.get(end), CircuitWire) and owner.stays
    ]
    return list(dict.fromkeys(half.place for half in halves))


def _rejoined(index: CircuitIndex, place: str) -> str:
    """One line for each cut wire: what hangs on either half, and that they meet again."""
    ends = [end for end, wire in index.owners.items() if _is_half(wire, place)]
    met = [j for j in _with(index, "rejoin") if {*ends} & {*j.joins}]
    others = [end_words(index, e) for joint in met for e in joint.joins if e not in ends]
    return (
        f"{place}: take {' and '.join(others)} off, then join radio end and speaker end of its "
        f"wire again ({met[0].place})."
    )


def _is_half(wire: CircuitWire | Element, place: str) -> bool:
    return isinstance(wire, CircuitWire) and wire.stays and wire.place == place


def _taken_off(index: CircuitIndex, joint: Joint) -> str:
    car = [
        end
        for end in joint.joins
        if end in index.terminals and index.unit_of(end).kind in OF_THE_CAR
    ]
    ours = [end_words(index, end) for end in joint.joins if end not in car]
    bare = is_on_a_stud(joint) or is_at_fuse(index, joint)
    then = "." if bare else f" and close the insulation ({joint.place})."
    return f"{' and '.join(car)}: take {' and '.join(ours)} off{then}"
