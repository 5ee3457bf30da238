"""How far from a plug the steps of its wires lie in a piece for a phone."""

from __future__ import annotations

from collections.abc import Sequence

from builder.planning.circuit.model import CircuitWire
from builder.planning.words import ElementKind
from builder.rendering.drawings.wiring.behind_loom import wire_before
from builder.rendering.drawings.wiring.blocks import Block, Lane
from builder.rendering.drawings.wiring.frame import first_name, wire_name
from builder.rendering.drawings.wiring.reading import Reading, Strand, is_there
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.upright import LINE, WIDTH, names_height, pitch_of, spread

JOG = 9.0
LATCH = 14.0
BEHIND_PLUGS = 4 * LINE  # names of the car's wires behind a loom


class PlugSteps:
    """How far from a source each step of its lanes lies; `up`: the source is below its wires."""

    def __init__(self, reading: Reading, block: Block, lanes: Sequence[Lane], *, up: bool) -> None:
        self.reading, self.block, self.up = reading, block, up
        self.lanes = sorted(lanes, key=lambda lane: lane.exit.x if lane.exit else 0.0)
        self.xs, self.pitch = spread(len(lanes)), pitch_of(len(lanes))
        self.scene = Scene()
        self.base = self.edge = self.source = 0.0  # of the source, of the far unit, its top
        self.strands = [lane.strand for lane in self.lanes if lane.strand]
        self._measure()

    def _measure(self) -> None:
        """How far from the source everything lies."""
        own = [self._own(s) for s in self.strands]
        self.firsts = [self._first(s) for s in self.strands]
        self.seconds = [self._second(w) if w else "" for w in own]
        self.exits = self._exits()
        self.levels = self._levels()
        self.t_name = max(self.levels, default=LATCH) + 8
        self.t_joint = self.t_name + names_height(self._named(self.firsts), self.pitch) + 12
        held = any(lane.kept for lane in self.lanes)
        if any(lane.kept and wire_before(self.reading, lane.kept) for lane in self.lanes):
            self.t_fuse = self.t_joint + 78.0 + BEHIND_PLUGS
        else:
            self.t_fuse = self.t_joint + (78.0 if held else 44.0 if self._stand_ins() else 8.0)
        self.t_second = self.t_fuse + (36.0 if self._has("fuse") else 6.0)
        self.t_part = self.t_second + names_height(self._named(self.seconds), self.pitch) + 8
        self.t_end = self.t_part + (44.0 if self._parts() or self._drivers() else 4.0)

    def _named(self, names: list[str]) -> list[tuple[float, str]]:
        return [(x, name) for x, name in zip(self.xs, names, strict=True) if name]

    def _own(self, strand: Strand) -> CircuitWire | None:
        return next((w for w in self.reading.wires_in(strand) if not is_there(w)), None)

    def _first(self, strand: Strand) -> str:
        return first_name(self.reading, strand)

    def _second(self, wire: CircuitWire) -> str:
        """A conductor by its jacket and colours; a wire that lies by itself by what it is."""
        return f"{wire.lies_in} {wire_name(wire)}" if wire.cable else wire_name(wire)

    def _has(self, kind: ElementKind) -> bool:
        return any(p.kind == kind for s in self.strands for p in self.reading.elements_in(s))

    def _parts(self) -> bool:
        return self._has("resistor") or self._has("diode")

    def _drivers(self) -> bool:
        return any(len(self.reading.terminals_in(s)) > 2 for s in self.strands)

    def _stand_ins(self) -> list[tuple[str, str, str, str]]:
        mine = {each for strand in self.strands for each in strand.way}
        return [(part.id, part.rating, one.id, other.id)
                for part, one, other in self.reading.stand_ins if one.id in mine]  # fmt: skip

    def _exits(self) -> list[float]:
        shape = self.block.shape
        if shape is None:
            return list(self.xs)
        start = (WIDTH - shape.width) / 2
        return [start + lane.exit.x if lane.exit else WIDTH / 2 for lane in self.lanes]

    def y(self, t: float) -> float:
        """Return the height of what lies so far from the source."""
        return self.base - t if self.up else self.base + t

    def _top(self, t: float, high: float) -> float:
        return self.y(t + high) if self.up else self.y(t)

    def _levels(self) -> list[float]:
        """How far out each wire turns to its place: the outermost of a fan first."""
        moves = [x - e for x, e in zip(self.xs, self.exits, strict=True)]
        right = [at for at, move in enumerate(moves) if move > 0][::-1]
        left = [at for at, move in enumerate(moves) if move < 0]
        found = [LATCH] * len(moves)
        for group in (right, left):
            for level, at in enumerate(group):
                found[at] = LATCH + JOG * level
        return found
