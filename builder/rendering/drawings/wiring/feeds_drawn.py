"""A data interface with the wires of the car that feed it, fused where they are joined."""

from __future__ import annotations

from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.blocks import (
    INTERFACE_HALF,
    INTERFACE_WIDE,
    Block,
    Feed,
    LeftSide,
)
from builder.rendering.drawings.wiring.canvas_marks import lay_bare, name_at, put_part
from builder.rendering.drawings.wiring.feeds_placed import feed_name
from builder.rendering.drawings.wiring.frame import Columns
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import TEXT, TITLE, Frame, Scene

FUSE_AT = 26.0  # from the joint to the middle of the fuse
CHANNEL = 12.0


class FeedsDrawn:
    """Draws interfaces that wires of the car feed, and those wires."""

    def __init__(self, scene: Scene, reading: Reading, side: LeftSide, cols: Columns) -> None:
        self.scene, self.reading, self.side, self.cols = scene, reading, side, cols

    def draw(self) -> None:
        """Draw every feed; the interfaces are drawn with the other sources."""
        for at, feed in enumerate(self.side.feeds):
            self._feed(feed, self.cols.plug - CHANNEL * (len(self.side.feeds) - at))

    def interface(self, block: Block) -> None:
        """The box of an interface: what feeds it at the left, what it gives at the right."""
        x, y = self.cols.plug + self.side.interface_at, block.middle
        box = (x, y - INTERFACE_HALF, INTERFACE_WIDE, 2 * INTERFACE_HALF)
        self.scene.frames.append(Frame("unit", box, (block.unit.id,), block.unit.id))
        self.scene.say(block.unit.id, x + 46, y + 4, size=_fitting(block.unit.id), bold=True)
        for lane in block.below:
            if lane.strand:
                gives = self.reading.index.terminals[lane.strand.way[0]].name
                self.scene.say(gives, x + INTERFACE_WIDE - 9, lane.y + 4, anchor="end")
        for feed in self.side.feeds:
            if feed.interface is block:
                terminal = self.reading.index.terminals[feed.strand.way[-1]]
                self.scene.say(terminal.name, x + 9, feed.row_y + 4)

    def _feed(self, feed: Feed, channel: float) -> None:
        """From the cavity to the joint, then by the interface's own lead."""
        strand, y = feed.strand, feed.row_y
        start = (self.cols.plug + feed.x, feed.plug.top + feed.start)
        out: list[Point] = [start, (start[0], feed.out_y), (channel, feed.out_y), (channel, y)]
        left, right = self.cols.plug, self.cols.plug + self.side.interface_at
        met = (left + self.side.feed_named + 22, y)
        name = feed_name(self.reading, strand)
        cut = name_at(self.scene, name, left + 6 + self.side.feed_named / 2, y)
        wire = self.reading.index.terminals[strand.way[0]].wire
        lay_bare(self.scene, *out, met, carries=strand.carries, wire=wire, cut=cut)
        lay_bare(self.scene, met, (right, y))
        joints = [each for each in strand.way if each in self.reading.index.joints]
        tapped = self.reading.index.joints[joints[0]].kind == "tap"
        self.scene.mark("tap" if tapped else "home", met, joints[0])
        for part in self.reading.elements_in(strand):
            put_part(self.scene, part.kind, met[0] + FUSE_AT, y, part.id, part.rating)
        self.scene.mark("screw", (right, y), strand.way[-1], *joints[1:])


def _fitting(name: str) -> float:
    return TITLE if text_width(name, TITLE) <= INTERFACE_WIDE - 86 else TEXT
