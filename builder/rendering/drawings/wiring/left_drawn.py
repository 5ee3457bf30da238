"""The left of the picture drawn: housings, the car's wires, joints, jackets up to the converter."""

from __future__ import annotations

from collections.abc import Mapping

from builder.planning.circuit.model import CircuitWire, Unit
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.behind_loom import at_plug, wire_before
from builder.rendering.drawings.wiring.blocks import INTERFACE_WIDE, Block, Lane, LeftSide
from builder.rendering.drawings.wiring.canvas_marks import (
    lay,
    lay_bare,
    name_at,
    put_part,
)
from builder.rendering.drawings.wiring.feeds_drawn import FeedsDrawn
from builder.rendering.drawings.wiring.frame import (
    Columns,
    first_name,
    home_of,
    speaker_words,
    wire_name,
)
from builder.rendering.drawings.wiring.housing_drawn import housing_drawn
from builder.rendering.drawings.wiring.lane_drawn import (
    draw_across,
    draw_jackets,
    draw_spare,
    draw_speaker,
    draw_tail,
    spans,
)
from builder.rendering.drawings.wiring.left_side import SINGLE
from builder.rendering.drawings.wiring.reading import Reading, Strand, is_there
from builder.rendering.drawings.wiring.scene import TEXT, TITLE, Frame, Scene
from builder.rendering.drawings.wiring.size_notes import source_words

SPEAKER_R = 10.0
SOURCE_WIDTH = 124.0
HOME_AT = 16.0  # from a lane to the plug behind a loom


class LeftDrawn:
    """Draws the left side into a scene; `ends` is where each lane leaves the jackets."""

    def __init__(self, scene: Scene, reading: Reading, side: LeftSide, cols: Columns) -> None:
        self.scene, self.reading, self.side, self.cols = scene, reading, side, cols
        self.feeds = FeedsDrawn(scene, reading, side, cols)
        self.at = {lane.strand.name: lane.y for lane in side.lanes if lane.strand}

    def draw(self, to: Mapping[str, Point]) -> None:
        """Draw it all; `to` is where each strand's last terminal stands, by the strand's name."""
        for block in self.side.blocks:
            self._source(block)
            for lane in (*block.above, *block.below):
                if lane.strand is not None:
                    self._lane(block, lane, lane.strand, to.get(lane.strand.name))
        self.feeds.draw()
        self._stand_ins()
        draw_jackets(self.scene, self.reading, self.cols.jacket, _spans(self.side),
                     leftwards=True)  # fmt: skip
        for lane in self.side.lanes:
            if lane.spare is not None:
                draw_spare(self.scene, lane.spare, self.cols.jacket, lane.y)

    def _source(self, block: Block) -> None:
        """A housing with its caption beside it, or the box of another source."""
        unit, x = block.unit, self.cols.plug
        if self._is_fed(block):
            self.feeds.interface(block)
            return
        if block.shape is None:
            heights = [lane.y for lane in block.below if lane.strand]
            first, last = heights[0], heights[-1]
            box = (x, first - 15, SOURCE_WIDTH, last - first + 30.0)
            self.scene.frames.append(Frame("unit", box, (unit.id,), unit.id))
            self.scene.say(unit.id, x + SOURCE_WIDTH / 2, (first + last) / 2 + 4, anchor="middle",
                           bold=True)  # fmt: skip
            return
        housing_drawn(self.scene, self.reading, block, x, self._ringed(block))
        self._caption(unit, x + block.shape.width + 14, block.top + block.shape.height / 2)

    def _caption(self, unit: Unit, x: float, middle: float) -> None:
        """What a plug is, where, and what its wires are made of, up to the converter."""
        room = self.cols.converter[0] - 14 - x
        title = wrap(unit.id, room / 1.1, TITLE)
        said = [f"in the {home_of(self.reading, unit)}: wires side",
                *source_words(self.reading, unit.id, self.reading.face(unit))]  # fmt: skip
        lines = [line for each in said for line in wrap(each, room, TEXT)]
        y = middle - 4 - 7 * (len(title) + len(lines) - 2)
        for row, line in enumerate(title):
            self.scene.say(line, x, y + 15 * row, size=TITLE, bold=True, ids=(unit.id,))
        y += 15 * len(title)
        for row, line in enumerate(lines):
            self.scene.say(line, x, y + 14 * row)

    def _ringed(self, block: Block) -> set[str] | None:
        """The cavities to use of a plug that only feeds an interface; else all that are drawn."""
        if block.above or block.below:
            return None
        return {self.reading.cavity_of(feed.strand.way[0]) for feed in self.side.feeds
                if feed.plug is block}  # fmt: skip

    def _lane(self, block: Block, lane: Lane, strand: Strand, to: Point | None) -> None:
        start = self._start(block, lane)
        if strand.carries in SINGLE or (
            not any(is_there(w) for w in self.reading.wires_in(strand)) and not lane.kept
        ):
            self._unnamed_wire(strand, start, lane)
        elif lane.kept is not None:
            self._kept_wire(lane, lane.kept, strand, start)
        else:
            self._car_wire(lane, strand, start)
        self._onward(lane, strand, to)

    def _is_fed(self, block: Block) -> bool:
        return any(feed.interface is block for feed in self.side.feeds)

    def _start(self, block: Block, lane: Lane) -> list[Point]:
        """From the cavity to the lane."""
        if block.shape is None or lane.exit is None:
            wide = SOURCE_WIDTH
            if self._is_fed(block):
                wide = self.side.interface_at + INTERFACE_WIDE
            return [(self.cols.plug + wide, lane.y)]
        x, y, cavity = self.cols.plug, block.top, block.shape.of(lane.exit.cavity)
        out = x + lane.exit.x
        return [(x + cavity.x, y + cavity.y), (out, y + cavity.y), (out, lane.y)]

    def _unnamed_wire(self, strand: Strand, start: list[Point], lane: Lane) -> None:
        """The car's wire up to the tap; the circuit says of it only that it stays whole."""
        terminal = self.reading.index.terminals[strand.way[0]]
        name, end = first_name(self.reading, strand), (self.cols.joint, lane.y)
        cut = name_at(self.scene, name, self.cols.name, lane.y) if name else None
        lay_bare(self.scene, *start, end, carries=strand.carries, wire=terminal.wire, cut=cut)
        if lane.exit is None:
            self.scene.mark("screw", start[0], terminal.id)

    def _car_wire(self, lane: Lane, strand: Strand, start: list[Point]) -> None:
        wire = next(w for w in self.reading.wires_in(strand) if is_there(w))
        closed = self._open_end(wire)
        end = (self.cols.joint - (8 if closed else 0), lane.y)
        name = first_name(self.reading, strand) if wire.loom else wire_name(wire)
        lay(self.scene, wire, *start, end, name=name, at=(self.cols.name, lane.y))
        if closed:
            self.scene.mark("cap", end, open_end=closed)
            self.scene.say("closed off", self.cols.joint + 4, lane.y + 4)

    def _open_end(self, wire: CircuitWire) -> str:
        ends = {each.end for each in self.reading.circuit.open_ends}
        return next((end for end in wire.ends if end in ends), "")

    def _kept_wire(self, lane: Lane, kept: Strand, strand: Strand, start: list[Point]) -> None:
        """A wire that stays whole turns to its speaker behind the tap, between the two legs."""
        wire = self.reading.wires_in(kept)[0]
        other = self.at.get(strand.mate or "", lane.y)
        x, middle = self.cols.joint, (lane.y + other) / 2
        down = 1 if lane.y <= middle else -1
        edge = middle - SPEAKER_R * down
        loom = wire_before(self.reading, kept)
        if loom is None:
            lay(self.scene, wire, *start, (x, lane.y), (x, edge), name=wire_name(wire),
                at=(self.cols.name, lane.y))  # fmt: skip
        else:
            home = (x, lane.y + HOME_AT * down)
            lay(self.scene, loom, *start, (x, lane.y), home, name=first_name(self.reading, strand),
                at=(self.cols.name, lane.y))  # fmt: skip
            lay(self.scene, wire, home, (x, edge))
            self.scene.mark("home", home, *at_plug(self.reading, kept))
            self.scene.say(wire_name(wire), x - 12, home[1] + 4, anchor="end")
        terminal = kept.way[-1]
        self.scene.mark("contact", (x, edge), terminal, kept.way[-2])
        unit = self.reading.index.unit_of(terminal)
        if unit.id not in self.scene.shown:
            draw_speaker(self.scene, unit.id, (x, middle), SPEAKER_R, unit.kind)
            *what, where = speaker_words(unit)
            self.scene.say(" ".join(what), x - 16, middle - 2, anchor="end")
            self.scene.say(where, x - 16, middle + 10, anchor="end")

    def _onward(self, lane: Lane, strand: Strand, to: Point | None) -> None:
        """Joint, fuse, conductor of the jacket, and what stands before the terminal."""
        own = next((w for w in self.reading.wires_in(strand) if not is_there(w)), None)
        if own is None:
            return
        at = strand.way.index(own.id)
        x = self._tapped(strand, strand.way[:at], lane.y)
        end = to or (self.cols.jacket[1], lane.y)
        last = draw_tail(self.scene, self.reading, strand.way[at + 1 :], end)
        middle = sum(self.cols.jacket) / 2
        lay(self.scene, own, (x, lane.y), *_bent((x, lane.y), last), name=wire_name(own),
            at=(middle, lane.y))  # fmt: skip

    def _tapped(self, strand: Strand, way: tuple[str, ...], y: float) -> float:
        """The joint at the car's wire and a fuse behind it; return where the conductor begins."""
        index, x = self.reading.index, self.cols.joint
        joints = [each for each in way if each in index.joints]
        fuse = next((each for each in way if each in index.elements), None)
        first = joints[-2] if fuse else joints[-1]
        self.scene.mark("tap" if index.joints[first].kind == "tap" else "sleeve", (x, y), first)
        if fuse is None:
            return x
        words = index.elements[fuse].rating
        lay_bare(self.scene, (x, y), (x + 46, y), carries=strand.carries)
        put_part(self.scene, "fuse", x + 25, y, fuse, words)
        self.scene.mark("dot", (x + 46, y), joints[-1])
        return x + 46

    def _stand_ins(self) -> None:
        """A resistor across two radio ends, its value beside it."""
        where = {each: lane.y for lane in self.side.lanes if lane.strand for each in
                 lane.strand.way}  # fmt: skip
        for part, one, other in self.reading.stand_ins:
            draw_across(self.scene, part, self.cols.joint, where[one.id], where[other.id])
            for joint in (one, other):
                if joint.id not in self.scene.shown:
                    self.scene.mark("sleeve", (self.cols.joint, where[joint.id]), joint.id)


def _bent(start: Point, end: Point) -> tuple[Point, ...]:
    """A lane that ends at another height bends shortly before its end."""
    return (end,) if start[1] == end[1] else ((end[0] - 14, start[1]), (end[0] - 14, end[1]), end)


def _spans(side: LeftSide) -> list[tuple[str, float, float]]:
    return spans([(lane.jacket, lane.y) for lane in side.lanes])
