"""Speaker wires that hang free under power: what each gets, on the parts list as in the steps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from builder.model.parts import Amplifier
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import EndId
from builder.planning.sheet_rows import PartLine
from builder.planning.views.wiring_rows import made_by_us

CAP: Final = "push-on cap for a wire's end"


def capped_ends(index: CircuitIndex, amplifier: str) -> list[EndId]:
    """Return the wires' ends that wait for the output screws of an amplifier."""
    return [
        end
        for joint in index.circuit.joints
        if made_by_us(index, joint)
        and any(_is_output(index, each, amplifier) for each in joint.joins)
        for end in joint.joins
        if end in index.owners
    ]


def _is_output(index: CircuitIndex, end: EndId, amplifier: str) -> bool:
    terminal = index.terminals.get(end)
    return terminal is not None and (terminal.unit, terminal.carries) == (amplifier, "amplified")


def cap_lines(index: CircuitIndex, amplifiers: Mapping[str, Amplifier]) -> Iterator[PartLine]:
    """Yield the caps of each amplifier whose speakers do not come off by a plug."""
    for name, amplifier in amplifiers.items():
        ends = [] if amplifier.speakers_pull_off else capped_ends(index, name)
        if ends:
            yield PartLine(CAP, len(ends), "", f"speaker ends of {name}; off again when it plays")
