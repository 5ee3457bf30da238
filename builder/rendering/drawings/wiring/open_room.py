"""Room below a converter for its inputs that stay open, where a wire passes it to an amplifier."""

from __future__ import annotations

from builder.rendering.drawings.wiring.blocks import LeftSide
from builder.rendering.drawings.wiring.converter_box import FOOT, OPEN_PITCH, open_ends
from builder.rendering.drawings.wiring.reading import Reading

CLEAR = 12.0  # from the foot of the converter to what passes below it


def make_open_room(reading: Reading, left: LeftSide) -> None:
    """Move what passes below the converter's lanes, and all below that, clear of its box."""
    converter = reading.units("converter")[0]
    own = {terminal.id for terminal in converter.terminals}
    ends = [(lane.y, lane.strand.way[-1] in own) for lane in left.lanes
            if lane.strand and lane.strand.carries in ("control", "speaker_level")]  # fmt: skip
    last = max((y for y, is_own in ends if is_own), default=None)
    passing = min((y for y, is_own in ends if not is_own and last is not None and y > last),
                  default=None)  # fmt: skip
    many = len(open_ends(reading, converter.id))
    if last is None or passing is None or not many:
        return
    dy = last + OPEN_PITCH * many + FOOT + CLEAR - passing
    if dy <= 0:
        return
    for block in left.blocks:
        block.top += dy if block.top > passing else 0.0
    for lane in left.lanes:
        lane.y += dy if lane.y >= passing else 0.0
    left.height += dy
