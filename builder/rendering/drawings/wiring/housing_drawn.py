"""A housing in the wiring picture: pale, its cavities in place, wires on top of it."""

from __future__ import annotations

from collections.abc import Collection

from markupsafe import escape

from builder.rendering.drawings.canvas import number
from builder.rendering.drawings.wiring.blocks import Block
from builder.rendering.drawings.wiring.plug_ends import PlugShape, latch_box
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import MarkKind, Scene

_CORNERS = ("top_left", "top_right", "bottom_right", "bottom_left")
CUT, ROUND = 9.0, 2.0


def housing_drawn(
    scene: Scene, reading: Reading, block: Block, x: float, ringed: Collection[str] | None = None
) -> None:
    """Draw the housing and its empty cavities behind the wires, those in use in front.

    `ringed` names the cavities that are shown as the ones to use; None rings all that are.
    """
    shape, y = block.shape, block.top
    assert shape is not None
    scene.shapes.append(f'<g data-id="{escape(block.unit.id)}">{_shell(shape, x, y)}</g>')
    used = reading.face(block.unit)
    w, h = shape.cavity
    for cavity in shape.cavities:
        at = (x + cavity.x, y + cavity.y)
        if cavity.name in used:
            kind: MarkKind = "slot" if ringed is None or cavity.name in ringed else "cavity"
            scene.mark(kind, at, *_met(reading, used[cavity.name]))
            scene.say(cavity.name, at[0], at[1] + 4, anchor="middle", bold=True)
        else:
            scene.shapes.append(_empty(at[0] - w / 2, at[1] - h / 2, w, h))


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


def _shell(shape: PlugShape, x: float, y: float) -> str:
    cuts = [CUT if corner == shape.corner else ROUND for corner in _CORNERS]
    tl, tr, br, bl = cuts
    w, h = shape.width, shape.height
    points = (
        (x + tl, y), (x + w - tr, y), (x + w, y + tr), (x + w, y + h - br),
        (x + w - br, y + h), (x + bl, y + h), (x, y + h - bl), (x, y + tl),
    )  # fmt: skip
    d = "M" + "L".join(f"{number(px)} {number(py)}" for px, py in points) + "Z"
    body = f'<path class="lb-housing" d="{d}"/>'
    return body + _latch(shape, x, y)


def _latch(shape: PlugShape, x: float, y: float) -> str:
    box = latch_box(shape, x, y)
    if box is None:
        return ""
    left, top, wide, high = box
    return (
        f'<rect class="lb-housing-latch" x="{number(left)}" y="{number(top)}"'
        f' width="{number(wide)}" height="{number(high)}"/>'
    )


def _empty(x: float, y: float, w: float, h: float) -> str:
    return (
        f'<rect class="lb-cavity-empty" x="{number(x)}" y="{number(y)}" width="{number(w)}"'
        f' height="{number(h)}" rx="4"/>'
    )
