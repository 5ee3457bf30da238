"""Where the wires that feed a data interface run: left out of their plug, and up to the interface.

The interface stands above its plugs. A feed leaves the housing between two rows, where no wire of
a lane passes, and the lowest runs outermost: so none crosses another.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.blocks import Block, Feed, LeftSide
from builder.rendering.drawings.wiring.plug_ends import Cavity, PlugShape
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.scene import TEXT

ROW_PITCH = 22.0
APART = 8.0  # between two feeds that leave a housing


def interface_feeds(reading: Reading) -> list[Strand]:
    """Return what feeds a data interface, each from the car's cavity on."""
    found = [s for s in reading.interface_feeds if reading.kind_of(s.way[0]) == "plug"]
    return sorted(found, key=lambda strand: strand.carries != "supply")


def place_feeds(reading: Reading, side: LeftSide) -> None:
    """Give each feed its way; the blocks have their heights."""
    blocks = {block.unit.id: block for block in side.blocks}
    for strand in interface_feeds(reading):
        plug, interface = (blocks[reading.index.unit_of(strand.way[at]).id] for at in (0, -1))
        side.feeds.append(_feed(reading, side, strand, plug, interface))
        side.feed_named = max(side.feed_named, text_width(feed_name(reading, strand), TEXT))
    side.feeds.sort(key=lambda feed: -feed.out_y)
    for interface in {id(feed.interface): feed.interface for feed in side.feeds}.values():
        own = [feed for feed in side.feeds if feed.interface is interface]
        for at, feed in enumerate(own):
            feed.row = ROW_PITCH * (at - (len(own) - 1) / 2)


def feeds_crossed(reading: Reading, blocks: Iterable[Block]) -> int:
    """Return how many lanes the feeds cross at least, whichever way each leaves its plug."""
    by_unit = {block.unit.id: block for block in blocks}
    count = 0
    for strand in interface_feeds(reading):
        plug = by_unit[reading.index.unit_of(strand.way[0]).id]
        assert plug.shape is not None
        cavity = plug.shape.of(reading.cavity_of(strand.way[0]))
        count += min(_crossed(plug, cavity, y) for y in _ways_out(plug.shape, cavity))
    return count


def feed_name(reading: Reading, strand: Strand) -> str:
    """What stands on a feed: the cavity with the colours of its wire."""
    terminal = reading.index.terminals[strand.way[0]]
    wire = terminal.colour or "not recorded"
    return f"{terminal.id} {wire}"


def _feed(
    reading: Reading, side: LeftSide, strand: Strand, plug: Block, interface: Block
) -> Feed:  # fmt: skip
    assert plug.shape is not None
    cavity = plug.shape.of(reading.cavity_of(strand.way[0]))
    taken = [feed.out for feed in side.feeds if feed.plug is plug]
    free = [y for y in _ways_out(plug.shape, cavity) if all(abs(y - x) >= APART for x in taken)]
    out = min(free, key=lambda y: (_crossed(plug, cavity, y), abs(y - cavity.y)))
    return Feed(strand, plug, interface, cavity.x, out, cavity.y)


def _ways_out(shape: PlugShape, cavity: Cavity) -> Iterator[float]:
    """Heights at which a wire can leave to the left: level, or beside the rows next to its own."""
    rows = {row: next(c.y for c in shape.cavities if c.row == row) for row in shape.rows}
    if all(c.x >= cavity.x for c in shape.cavities if c.row == cavity.row):
        yield cavity.y
    half = shape.cavity[1] / 2 + 5
    above = [y for y in rows.values() if y < cavity.y]
    below = [y for y in rows.values() if y > cavity.y]
    for other, edge in ((max(above, default=None), -half), (min(below, default=None), half)):
        middle = cavity.y + edge if other is None else (cavity.y + other) / 2
        yield from (middle, middle - APART / 2, middle + APART / 2)


def _crossed(plug: Block, cavity: Cavity, y: float) -> int:
    """How many lanes of a plug a wire crosses that leaves it to the left at a height."""
    assert plug.shape is not None
    count = 0
    for lanes, up in ((plug.above, True), (plug.below, False)):
        for lane in lanes:
            if lane.exit is not None and lane.exit.x < cavity.x:
                start = plug.shape.of(lane.exit.cavity).y
                count += y < start if up else y > start
    return count
