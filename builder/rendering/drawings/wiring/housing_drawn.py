"""A housing in the wiring picture: pale, its cavities in place, wires on top of it."""

from __future__ import annotations

from collections.abc import Collection

from builder.rendering.drawings.wiring.blocks import Block
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import MarkKind, Scene, Shell


def housing_drawn(
    scene: Scene, reading: Reading, block: Block, x: float, ringed: Collection[str] | None = None
) -> None:
    """Draw the housing and its empty cavities behind the wires, those in use in front.

    `ringed` names the cavities that are shown as the ones to use; None rings all that are.
    """
    shape, y = block.shape, block.top
    assert shape is not None
    used = reading.face(block.unit)
    empty = frozenset(each.name for each in shape.cavities) - used.keys()
    scene.shells.append(Shell(block.unit.id, shape, (x, y), empty))
    for cavity in shape.cavities:
        at = (x + cavity.x, y + cavity.y)
        if cavity.name in used:
            kind: MarkKind = "slot" if ringed is None or cavity.name in ringed else "cavity"
            scene.mark(kind, at, *_met(reading, used[cavity.name]))
            scene.say(cavity.name, at[0], at[1] + 4, anchor="middle", bold=True)


def _met(reading: Reading, cavity: str) -> tuple[str, ...]:
    """A cavity with all that is one with it: its wire's terminal, the socket's contact."""
    found = [cavity]
    for joint in reading.index.joints_of.get(cavity, []):
        if joint.kind == "plug_home":
            socket = [end for end in joint.joins
                      if end in reading.index.terminals and end != cavity
                      and reading.kind_of(end) != "interface"]  # fmt: skip
            if socket:  # a data interface on it has its own sign
                found += [joint.id, *socket, reading.index.unit_of(socket[0]).id]
        elif joint.kind == "terminal":
            found.append(joint.id)
    return tuple(found)
