"""Labels of every piece: at both ends what it is, where it comes from and where it goes."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.piece_names import CLASS_NAMES, cable_number
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, EndId
from builder.planning.harness.marks import label_most_mm
from builder.planning.sheet_rows import Label
from builder.planning.views.conductor_rows import CLASSES
from builder.planning.views.cut_rows import begins_words, pieces_of
from builder.planning.views.lead_lines import y_lead_words, y_leads


def label_rows(index: CircuitIndex, defaults: HouseDefaults) -> tuple[Label, ...]:
    """Return the labels of every piece: a cable also mid-way, with bands that a hand can feel."""
    return (
        *(
            label
            for name, wires in pieces_of(index).items()
            for label in _labels(index, name, wires, defaults)
        ),
        *(
            Label(unit.id, "at its plug", f"{unit.id}, line: {y_lead_words(index, unit)}", 0)
            for unit in y_leads(index)
        ),
    )


def _labels(
    index: CircuitIndex, name: str, wires: list[CircuitWire], defaults: HouseDefaults
) -> tuple[Label, ...]:
    if wires[0].loom:
        return _on_loom(index, name)
    first = _first(index, wires)
    text = label_text(index, wires)
    number = cable_number(name)
    # Cores of a cable may be bare of its jacket for much more than that, at a loom.
    of = "end of its jacket" if number is not None and len(wires) > 2 else "end"
    places = [
        f"{_near(index, wires, end, defaults)} {_short(place)} {of}"
        for end, place in zip(first.ends, (begins_words(wires), first.to_place), strict=True)
    ]
    if number is None:
        return tuple(Label(name, place, text, 0) for place in places)
    return tuple(Label(name, place, text, number) for place in (*places, "mid-way"))


def _near(
    index: CircuitIndex, wires: Sequence[CircuitWire], end: EndId, defaults: HouseDefaults
) -> str:
    """How near to an end its label is: at a loom the ties of the cable come first."""
    at_loom = len(wires) > 1 and _at_loom(index, end)
    return f"within {label_most_mm(defaults.label_from_end_mm, at_loom=at_loom):g} mm of the"


def _at_loom(index: CircuitIndex, end: EndId) -> bool:
    """Whether an end is joined to a wire of a loom."""
    met = (other for joint in index.joints_of.get(end, []) for other in joint.joins)
    return any(isinstance(x := index.owners.get(each), CircuitWire) and x.loom for each in met)


def _short(place: str) -> str:
    """A place beside a drawn label; which one it is stands whole on the label itself."""
    if place.startswith("Y-lead "):
        return "Y-lead"
    kept = place.replace("fuse of the link at the second battery", "second fuse")
    return kept.replace("fuse of the link at the battery", "first fuse").removesuffix(
        " of the second battery"
    )


def label_text(index: CircuitIndex, wires: Sequence[CircuitWire]) -> str:
    """Return what stands on every label of a piece: what it is, from where and to where."""
    first, (start, stop) = _first(index, wires), label_ends(index, wires)
    return f"{first.piece}, {CLASS_NAMES[CLASSES[first.carries]]}: from {start}, to {stop}"


def label_ends(index: CircuitIndex, wires: Sequence[CircuitWire]) -> tuple[str, str]:
    """Return what the label of a piece calls its two ends."""
    first = _first(index, wires)
    start, stop = first.ends
    return (
        _reached(index, first, start, begins_words(wires)),
        _reached(index, first, stop, first.to_place),
    )


def _first(index: CircuitIndex, wires: Sequence[CircuitWire]) -> CircuitWire:
    """The conductor that a piece is named for: the first in use."""
    return next((wire for wire in wires if index.link_of(wire)), wires[0])


def _reached(index: CircuitIndex, wire: CircuitWire, end: EndId, place: str) -> str:
    """What a piece comes to: at the radio alone there may be its own end and its speakers'."""
    for joint in index.joints_of.get(end, []):
        for other in (index.owners.get(each) for each in joint.joins if each != end):
            if isinstance(other, CircuitWire) and other.loom:
                return f"the {_loom_end(index, other)} of {other.loom}"
            if isinstance(other, CircuitWire) and other.stays and wire.carries == "amplified":
                return f"the speakers' wires at the {place}"
    return place


def _loom_end(index: CircuitIndex, wire: CircuitWire) -> str:
    """The plug of a loom that a wire of it comes from: "car end"."""
    link = index.link_of(wire)
    found = (index.terminals.get(each) for each in (link.path if link else ()))
    mine = (each.name for each in found if each is not None and each.unit == wire.loom)
    return next(name.rpartition(".")[0] for name in mine if "." in name)


def _on_loom(index: CircuitIndex, name: str) -> tuple[Label, ...]:
    """A loom says at each plug of it what that goes into: both may look alike."""
    found: dict[str, str] = {}
    for joint in index.circuit.joints:
        own = [end for end in joint.joins if joint.kind == "plug_home" and _is_of(index, end, name)]
        for end, other in zip(own, [e for e in joint.joins if e not in own], strict=False):
            unit = index.unit_of(other)
            into = f"into the {unit.place}" if unit.kind == "radio" else f"takes {unit.id}"
            found[index.terminals[end].name.rpartition(".")[0]] = into
    return tuple(
        Label(name, f"at its {end}", f"{name}, {end}: {into}", 0) for end, into in found.items()
    )


def _is_of(index: CircuitIndex, end: str, unit: str) -> bool:
    return end in index.terminals and index.terminals[end].unit == unit
