"""The lanes that leave an amplifier at its right edge, with the room that their speakers take."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.wiring.coils_drawn import coil_stack
from builder.rendering.drawings.wiring.reading import Reading, Strand, is_there

LEG_PITCH = 20.0  # between the two wires of a speaker


@dataclass(slots=True)
class OutLane:
    """A lane from an amplifier's right edge, a spare core, or a speaker that nothing feeds."""

    strand: Strand | None
    jacket: str = ""
    spare: CircuitWire | None = None
    speaker: str = ""
    crossover: str = ""  # what it comes out of, where that is no amplifier
    y: float = 0.0
    apart: float = LEG_PITCH  # from the lane before, of the same speaker
    below: float = 0.0  # what its speaker takes below it

    @property
    def ends_at(self) -> str:
        """The terminal at its end; nothing of a spare core."""
        return self.strand.way[-1] if self.strand else ""


def out_lanes(reading: Reading, strands: list[Strand]) -> list[OutLane]:
    """Return the lanes: pairs of one speaker together, a jacket's spares below its last pair."""
    lanes: list[OutLane] = []
    for strand in strands:
        wire = next(wire for wire in reading.wires_in(strand) if not is_there(wire))
        speaker = reading.index.unit_of(strand.way[-1]).id
        first = reading.index.unit_of(strand.way[0])
        crossover = first.id if first.kind == "crossover" else ""
        lanes.append(OutLane(strand, wire.lies_in, None, speaker, crossover))
        _make_room(reading, lanes)
    jackets = dict.fromkeys(lane.jacket for lane in lanes)
    for spare in reading.spares:
        if spare.lies_in in jackets:
            last = max(at for at, lane in enumerate(lanes) if lane.jacket == spare.lies_in)
            lanes.insert(last + 1, OutLane(None, spare.lies_in, spare))
    return lanes


def _make_room(reading: Reading, lanes: list[OutLane]) -> None:
    """A speaker of several coils has its terminals as far apart as they stand in its box."""
    before, lane = ([None, *lanes])[-2:]
    stack = coil_stack(reading, lane.speaker) if lane else None
    if stack is None or lane is None:
        return
    lane.below = stack.reach - stack.heights[lane.ends_at]
    if before is not None and before.speaker == lane.speaker:
        lane.apart = stack.heights[lane.ends_at] - stack.heights[before.ends_at]
