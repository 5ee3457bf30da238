"""What the left of the picture is made of: plugs and other sources, the lanes that leave them."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.planning.circuit.model import CircuitWire, Unit
from builder.rendering.drawings.wiring.plug_ends import Exit, PlugShape
from builder.rendering.drawings.wiring.reading import Strand

FEED_PITCH = 12.0
INTERFACE_WIDE = 124.0
FEED_PARTS = 78.0  # beside its name: wire, the joint, a fuse
INTERFACE_HALF = 26.0  # from the middle of an interface that is fed by wires to its edges


@dataclass(slots=True)
class Lane:
    """One level lane; `y` is set when all are stacked. A spare core has no strand."""

    strand: Strand | None
    jacket: str = ""
    spare: CircuitWire | None = None
    exit: Exit | None = None
    source: str = ""  # the unit at its left end
    kept: Strand | None = None
    y: float = 0.0


@dataclass(slots=True)
class Block:
    """A plug or another source with the lanes that leave it."""

    unit: Unit
    shape: PlugShape | None
    above: list[Lane] = field(default_factory=list)
    below: list[Lane] = field(default_factory=list)
    top: float = 0.0  # of its housing or box

    @property
    def middle(self) -> float:
        """The middle of a box: that of what leaves it."""
        heights = [lane.y for lane in self.below if lane.strand]
        return sum(heights) / len(heights)


@dataclass(slots=True)
class Feed:
    """A wire of the car that feeds a data interface: out of its plug at the left, then up to it."""

    strand: Strand  # from the cavity to the terminal of the interface
    plug: Block
    interface: Block
    x: float  # of the cavity, from the left of its housing
    out: float  # where it leaves to the left, from the top of that housing
    start: float = 0.0  # of the cavity, from the top of that housing
    row: float = 0.0  # where it comes to the interface, below the middle of that

    @property
    def row_y(self) -> float:
        """The height at which it comes to the interface."""
        return self.interface.middle + self.row

    @property
    def out_y(self) -> float:
        """The height at which it leaves its housing."""
        return self.plug.top + self.out


@dataclass(slots=True)
class LeftSide:
    """Every block from top to bottom."""

    blocks: list[Block]
    height: float = 0.0
    feeds: list[Feed] = field(default_factory=list)
    feed_named: float = 0.0  # of the widest name of a wire that feeds a data interface

    @property
    def lanes(self) -> list[Lane]:
        """Every lane from top to bottom."""
        return [lane for block in self.blocks for lane in (*block.above, *block.below)]

    @property
    def width(self) -> float:
        """Of the widest housing."""
        return max((b.shape.width for b in self.blocks if b.shape), default=130.0)

    @property
    def interface_to(self) -> float:
        """From the left edge of the plugs to the right edge of a data interface."""
        return self.interface_at + INTERFACE_WIDE if self.feeds else 0.0

    @property
    def margin(self) -> float:
        """Room left of the plugs, in which what feeds a data interface runs up to it."""
        return FEED_PITCH * len(self.feeds) - 2 if self.feeds else 0.0

    @property
    def interface_at(self) -> float:
        """From the left edge of the plugs to that of a data interface."""
        return self.feed_named + FEED_PARTS
