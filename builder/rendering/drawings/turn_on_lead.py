"""The turn-on lead drawn: where it comes from, the converter, the amplifier."""

from __future__ import annotations

from markupsafe import Markup

from builder.figures import shown, small_current
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.planning.plan import Plan, TurnOn
from builder.planning.words import RUNG_NAMES
from builder.rendering.drawings.canvas import Canvas
from builder.rendering.drawings.function_kinds import plain, unit_words
from builder.rendering.drawings.lettering import fit, wrap
from builder.rendering.drawings.shapes import WIRE, arrow_down, joint, part_box, wire_line
from builder.rendering.drawings.wire_colours import NOT_RECORDED, wire_words

W = 360.0
X = 46.0  # where the lead runs
LINE = 14.0


def turn_on_place(turn_on: TurnOn) -> str:
    """Return where the turn-on comes from ("A.2", "fuse F14", "pair front left"), or ""."""
    if turn_on.plug and turn_on.cavity:
        return f"{turn_on.plug}.{turn_on.cavity}"
    if turn_on.fuse_position:
        return f"fuse {turn_on.fuse_position}"
    if turn_on.interface:
        return f"interface {turn_on.interface}"
    return f"pair {plain(turn_on.pair)}" if turn_on.pair else ""


def turn_on_wire(turn_on: TurnOn, vehicle: Vehicle) -> str | None:
    """Return the colours of the factory wire that the lead joins, or None without one."""
    if not (turn_on.plug and turn_on.cavity):
        return None
    plug = vehicle.plug(turn_on.plug)
    pins = plug.pins if plug else ()
    pin = next((pin for pin in pins if pin.cavity == turn_on.cavity), None)
    return wire_words(pin.wire) if pin else NOT_RECORDED


def turn_on_lead(plan: Plan, vehicle: Vehicle, converter: Converter, key: str) -> Markup:
    """Return the turn-on of the converter and what it passes on, or why there is no lead."""
    turn_on = plan.turn_on
    place = turn_on_place(turn_on)
    canvas = Canvas()
    canvas.text(8, 16, "turn-on", 14, bold=True)
    canvas.text(
        W - 8, 16, *fit(RUNG_NAMES.get(turn_on.kind, plain(turn_on.kind)), 230, 12), anchor="end"
    )
    y = _source(canvas, turn_on, vehicle) if place else 28.0
    if place or converter.remote_in is not None:
        part_box(canvas, (8, y, W - 16, 40), (converter.name, _acts_on(turn_on)))
        y += 40
        y = _onward(canvas, converter, y)
    y = _because(canvas, turn_on.because, y + 18)
    desc = f"{place or 'no lead'}: {turn_on.because}"
    return canvas.svg(
        (W, y),
        key,
        f"turn-on: {RUNG_NAMES.get(turn_on.kind, plain(turn_on.kind))}",
        desc,
        "lb-block",
    )


def _source_words(turn_on: TurnOn, vehicle: Vehicle) -> str:
    plug = vehicle.plug(turn_on.plug) if turn_on.plug else None
    if plug is not None:
        return f"{unit_words(plug)}, plug {plug.id}, cavity {turn_on.cavity}"
    return turn_on_place(turn_on)


def _acts_on(turn_on: TurnOn) -> str:
    if turn_on.pair:
        return "wakes from its own speaker input"
    return "turn-on in" if turn_on.kind != "none" else "turn-on in: nothing joined"


def _source(canvas: Canvas, turn_on: TurnOn, vehicle: Vehicle) -> float:
    """Draw the source and the lead down from it; return where the converter begins."""
    part_box(canvas, (8, 28, W - 16, 28), (_source_words(turn_on, vehicle),))
    wire = turn_on_wire(turn_on, vehicle)
    if wire is not None:
        canvas.add(wire_line(wire, X - WIRE / 2, 56, WIRE, 34))
        canvas.line((X, 90), (X, 128), "lb-added", 2)
        joint(canvas, X, 90)
    else:
        canvas.line((X, 56), (X, 128), "lb-added", 2)
    said = f"wire {wire}" if wire else ("no separate lead" if turn_on.pair else "new lead")
    canvas.text(X + 16, 76, *fit(said, W - X - 30, 11))
    canvas.text(X + 16, 112, *fit(_current(turn_on), W - X - 30, 11))
    return 128.0


def _current(turn_on: TurnOn) -> str:
    draw, capacity = turn_on.draw_ma, turn_on.capacity_ma
    if draw is None:
        return "current not known"
    return f"draws {draw:g} mA" + (f" of {small_current(capacity)}" if capacity is not None else "")


def _onward(canvas: Canvas, converter: Converter, y: float) -> float:
    """Draw the turn-on output to the amplifier, if there is one; return the new bottom."""
    out = converter.remote_out
    if out is None:
        return y
    arrow_down(canvas, X, y, y + 40)
    delay = "" if out.delay_s is None else f", {out.delay_s:g} s later"
    said = f"turn-on out, at most {shown(out.max_ma)} mA{delay}"
    canvas.text(X + 16, y + 24, *fit(said, 280, 11))
    part_box(canvas, (8, y + 40, W - 16, 28), ("amplifier, turn-on",))
    return y + 68


def _because(canvas: Canvas, because: str, y: float) -> float:
    for line in wrap(because, W - 16, 11):
        canvas.text(8, y, line, 11)
        y += LINE
    return y - LINE + 6
