"""What a loom asks for: the loom that is bought, or the plugs, terminals and wire it is made of."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.model.parts import Loom
from builder.planning.cables.cut_lengths import round_up_m
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Unit
from builder.planning.harness.made_here import wire_metres
from builder.planning.sheet_rows import PartLine
from builder.planning.work_pack import JobParts


def loom_part_lines(parts: JobParts, index: CircuitIndex) -> list[PartLine]:
    """Return the lines of every loom of a job."""
    return [
        line
        for unit in index.circuit.units
        if unit.kind == "loom"
        for line in _lines(parts, index, unit)
    ]


def _lines(parts: JobParts, index: CircuitIndex, unit: Unit) -> Iterator[PartLine]:
    loom = parts.shelf.looms[unit.record]
    if loom.made == "bench":
        yield from _made(parts, index, unit, loom)
        return
    number = f" {loom.part_number}" if loom.part_number else ""
    yield PartLine(loom.name, 1, "", f"{loom.maker or 'no maker recorded'}{number}; {unit.id}")


def _made(parts: JobParts, index: CircuitIndex, unit: Unit, loom: Loom) -> Iterator[PartLine]:
    """The bare plugs, a terminal for each wire in a cavity, and the metres of each wire."""
    plugs = [(end.name, end.housing) for end in loom.ends]
    plugs += [(each.name, each.housing) for each in loom.branches if each.housing]
    for name, housing in plugs:
        record = parts.shelf.housings.get(housing)
        yield PartLine(record.name if record else housing, 1, "", f"bare; {name} of {unit.id}")
    crimps = [
        end
        for joint in index.circuit.joints
        if joint.kind == "terminal" and joint.place == unit.id
        for end in joint.joins
        if end in index.owners
    ]
    yield PartLine("terminal for a bare plug", len(crimps), "", f"{unit.id}; of its own sizes")
    for words, metres in wire_metres(loom).items():
        if metres:
            yield PartLine(words, round_up_m(metres), "m", f"wire of {unit.id}")
    yield from _unmeasured(index, unit, loom)


def _unmeasured(index: CircuitIndex, unit: Unit, loom: Loom) -> Iterator[PartLine]:
    """Pieces whose length depends on where a splice lies: the maker measures."""
    most = "" if loom.length_m is None else f", at most {loom.length_m:g} m and its branch each"
    wires = [w for w in index.circuit.wires if w.loom == unit.id and w.length_m is None]
    for words, count in Counter(map(_kind, wires)).items():
        yield PartLine(words, count, "", f"pieces of {unit.id} to its splices{most}; measure")


def _kind(wire: CircuitWire) -> str:
    size = wire.size.words if wire.size else "wire of a size not recorded"
    return f"{size}, {wire.colours}" if wire.wire else size
