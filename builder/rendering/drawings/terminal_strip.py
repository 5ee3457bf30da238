"""The converter with all its terminals, each with what feeds it or takes from it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from markupsafe import Markup

from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.planning.plan import Plan
from builder.rendering.drawings.canvas import Canvas
from builder.rendering.drawings.lettering import fit
from builder.rendering.drawings.shapes import WIRE, arrow_right, joint, wire_line
from builder.rendering.drawings.turn_on_lead import turn_on_place, turn_on_wire

W = 360.0
LEFT, RIGHT = 152.0, 268.0  # the converter's edges
ROW = 26.0

Terminal = tuple[str, str, str | None]  # name, what is there, wire words when a factory wire


def terminal_strip(plan: Plan, vehicle: Vehicle, converter: Converter, key: str) -> Markup:
    """Return the converter as a strip: inputs and supply on the left, outputs on the right."""
    left = list(_inputs(plan, converter)) + list(_service(plan, vehicle, converter))
    right = [f"output {at}" for at in range(1, converter.outputs + 1)]
    if converter.remote_out is not None:
        right.append("turn-on out")
    height = 60 + ROW * max(len(left), len(right))
    canvas = Canvas()
    canvas.text(8, 16, *fit(converter.name, 240, 14), bold=True)
    canvas.text(W - 8, 16, "terminals", 12, anchor="end")
    canvas.rect((LEFT, 28, RIGHT - LEFT, height - 36), "lb-part", 3)
    for at, terminal in enumerate(left):
        _left(canvas, 58 + ROW * at, terminal)
    for at, name in enumerate(right):
        _right(canvas, 58 + ROW * at, name)
    said = "; ".join(f"{name}: {what}" for name, what, _ in left)
    desc = f"{said}. To the amplifier: {', '.join(right)}."
    return canvas.svg((W, height), key, f"{converter.name}, terminals", desc, "lb-block")


def _inputs(plan: Plan, converter: Converter) -> Iterable[Terminal]:
    """Yield two terminals an input; several pairs on one input share its terminals."""
    for at in range(1, converter.inputs + 1):
        for leg, sign in (("positive", "+"), ("negative", "−")):
            feeds = [f for f in plan.feeds if (f.converter_input, f.leg) == (at, leg)]
            what = ", ".join(f"{f.plug}.{f.cavity} {f.wire}" for f in feeds)
            yield f"{at} {sign}", what or _NOT_USED, feeds[0].wire if feeds else None


_NOT_USED: Final = "not used"
_NO_LEAD: Final = "no lead"


def _service(plan: Plan, vehicle: Vehicle, converter: Converter) -> Iterable[Terminal]:
    if converter.remote_in is not None:
        place, wire = turn_on_place(plan.turn_on), turn_on_wire(plan.turn_on, vehicle)
        yield "turn-on in", f"{place} {wire or ''}".strip() or _NO_LEAD, wire
    if converter.supply is not None:
        yield "12 V", f"constant, fuse {converter.supply.fuse_a:g} A", None
        yield "ground", "ground", None


def _left(canvas: Canvas, y: float, terminal: Terminal) -> None:
    name, what, wire = terminal
    canvas.text(8, y - 6.5, *fit(what, LEFT - 16, 11))
    canvas.text(LEFT + 7, y + 4, name, 12, bold=True)
    if wire is not None:
        canvas.line((100, y), (LEFT, y), "lb-added", 2)
        canvas.add(wire_line(wire, 8, y - WIRE / 2, 92, WIRE))
        joint(canvas, 100, y)
    elif what not in (_NOT_USED, _NO_LEAD):
        canvas.line((8, y), (LEFT, y), "lb-added", 2)


def _right(canvas: Canvas, y: float, name: str) -> None:
    canvas.text(RIGHT - 7, y + 4, name, 11, anchor="end")
    arrow_right(canvas, RIGHT, RIGHT + 24, y)
    canvas.text(RIGHT + 28, y + 4, "amplifier", 11)
