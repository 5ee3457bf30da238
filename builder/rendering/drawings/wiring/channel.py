"""Names in the channel between the converter and the amplifiers."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.frame import Columns
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import FORK_FROM, FORK_PITCH, TEXT, Scene


def name_in_channel(
    scene: Scene, reading: Reading, devices: int, cols: Columns, name: tuple[CircuitWire, float], *,
    above: bool = False,
) -> None:  # fmt: skip
    """Name a level wire below or above it in the channel, right of Y-leads; `name` is the
    wire and its height. What it is made of has a line of its own."""
    forks = len(reading.units("y_lead"))
    x = cols.converter[1] + (FORK_FROM + FORK_PITCH * forks - 4 if forks else 10.0)
    room = cols.amplifier[0] - 20 - 12 * (devices - 1) - x
    size = name[0].size
    lines = [*wrap(name[0].id, room, TEXT), *([size.words] if size else [])]
    first = -8.0 - 13 * (len(lines) - 1) if above else 16.0
    for at, line in enumerate(lines):
        scene.say(line, x, name[1] + first + 13 * at)
