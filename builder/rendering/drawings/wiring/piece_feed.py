"""A piece for a phone: the wires of a plug that feed a data interface, which stands above it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.rendering.drawings.canvas import Box
from builder.rendering.drawings.wiring.blocks import Block, Feed, Lane, LeftSide
from builder.rendering.drawings.wiring.canvas_marks import lay_bare, put_part
from builder.rendering.drawings.wiring.piece_plug import PlugPiece
from builder.rendering.drawings.wiring.plug_ends import Exit, Way, choices, exits
from builder.rendering.drawings.wiring.reading import Reading, Strand


def feed_pieces(reading: Reading, side: LeftSide) -> Iterator[tuple[str, FeedPiece]]:
    """Yield a piece for each plug that feeds an interface, with its title."""
    groups: dict[str, list[Feed]] = {}
    for feed in side.feeds:
        title = f"From {feed.plug.unit.id} to {feed.interface.unit.id}"
        groups.setdefault(title, []).append(feed)
    for title, feeds in groups.items():
        lanes = [Lane(feed.strand, exit=_exit(reading, feed, feeds)) for feed in feeds]
        plug = feeds[0].plug
        block = Block(plug.unit, plug.shape, lanes)
        yield title, FeedPiece(reading, block, lanes, up=True)


def _exit(reading: Reading, feed: Feed, feeds: list[Feed]) -> Exit:
    """Straight up, or beside the rows above; over them where a housing leaves no such way."""
    assert feed.plug.shape is not None
    names = [reading.cavity_of(each.strand.way[0]) for each in feeds]
    up: Mapping[str, Way] = next(w for w in choices(feed.plug.shape, names, names)
                                 if set(w.values()) == {"up"})  # fmt: skip
    own = reading.cavity_of(feed.strand.way[0])
    found = exits(feed.plug.shape, up) or ()
    return next((each for each in found if each.cavity == own), Exit(own, "up", feed.x))


class FeedPiece(PlugPiece):
    """Draws what feeds an interface; the leads are the interface's own, the fuse lies on one."""

    def _terminal(self, strand: Strand) -> str:
        return self.reading.index.terminals[strand.way[-1]].name

    def _lane(
        self, at: int, lane: Lane, level: float, first: Box | None, second: Box | None
    ) -> None:
        super()._lane(at, lane, level, first, second)
        assert lane.strand is not None
        index, way = self.reading.index, lane.strand.way
        x, joint = self.xs[at], self.y(self.t_joint)
        joints = [each for each in way if each in index.joints]
        lay_bare(self.scene, (x, joint), (x, self.edge))
        self.scene.mark("tap" if index.joints[joints[0]].kind == "tap" else "home", (x, joint),
                        joints[0])  # fmt: skip
        for part in self.reading.elements_in(lane.strand):
            put_part(self.scene, part.kind, x, self.y(self.t_fuse + 10), part.id, part.rating)
        self.scene.mark("screw", (x, self.edge), way[-1], *joints[1:])
