"""Names in the channel between the converter and the amplifiers."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.frame import Columns
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import FORK_FROM, FORK_PITCH, TEXT, Scene, Words


def name_in_channel(
    scene: Scene, reading: Reading, devices: int, cols: Columns, name: tuple[CircuitWire, float], *,
    above: bool = False,
) -> None:  # fmt: skip
    """Name a level wire below or above it in the channel, right of Y-leads; `name` is the
    wire and its height. What it is made of has a line of its own."""
    forks = len(reading.units("y_lead"))
    x = cols.converter[1] + (FORK_FROM + FORK_PITCH * forks - 4 if forks else 10.0)
    room = cols.amplifier[0] - 20 - 12 * (devices - 1) - x
    wire, y = name
    size = [wire.size.words] if wire.size else []
    names = wrap(wire.id, room, TEXT)
    for lines in ([*names, *size], names):  # its size stands elsewhere where others are in the way
        first = -8.0 - 13 * (len(lines) - 1) if above else 16.0
        said = [Words(line, (x, y + first + 13 * at)) for at, line in enumerate(lines)]
        if lines == names or not any(_over(one, each) for one in said for each in scene.words):
            scene.words += said
            return


def _over(one: Words, other: Words) -> bool:
    (x1, y1, w1, h1), (x2, y2, w2, h2) = one.box, other.box
    return x1 < x2 + w2 and x2 < x1 + w1 and y1 < y2 + h2 and y2 < y1 + h1
