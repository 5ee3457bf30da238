"""The tap drawn: radio end, break or branch, converter, amplifier, speaker end, pair by pair.

Each pair is a drawing of its own, 360 units wide, so that pairs stack on a phone and stand
side by side on paper. The positive leg runs down the left, the negative down the right, and
what is added sits between them: so no conductor crosses another.
"""

from __future__ import annotations

from markupsafe import Markup, escape

from builder.model.parts import Converter
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.planning.plan import Feed, Plan
from builder.rendering.drawings.canvas import Canvas, identifier, number
from builder.rendering.drawings.function_kinds import plain, unit_words
from builder.rendering.drawings.lettering import fit
from builder.rendering.drawings.shapes import WIRE, arrow_down, joint, part_box, wire_line
from builder.rendering.drawings.terminal_strip import terminal_strip
from builder.rendering.drawings.turn_on_lead import turn_on_lead

W = 360.0
LEGS = {"positive": (26.0, 1, "+"), "negative": (W - 26.0, -1, "−")}  # x, inward, sign
ADDED = (112.0, 136.0)  # left edge and width of what is added between the legs

Pair = dict[str, Feed]  # by leg


def tap_diagram(plan: Plan, vehicle: Vehicle, converter: Converter) -> Markup:
    """Return a figure: the converter's terminals, each pair, and the turn-on lead.

    A plan without feeds gives empty markup: there is nothing to join yet.
    """
    if not plan.feeds:
        return Markup("")
    key = identifier("tap", converter.id)
    blocks = [terminal_strip(plan, vehicle, converter, f"{key}-s")]
    blocks += [
        _pair_block(pair, plan, vehicle, converter, f"{key}-{at}")
        for at, pair in enumerate(pairs_of(plan), 1)
    ]
    blocks.append(turn_on_lead(plan, vehicle, converter, f"{key}-o"))
    return Markup(  # blocks are markup, the caption is escaped
        f'<figure class="lb-tap"><div class="lb-blocks">{"".join(blocks)}</div>'
        f"<figcaption>{escape(_caption(plan))}</figcaption></figure>"
    )


def _caption(plan: Plan) -> str:
    key = (
        "Thick two-tone lines are factory wires, thin lines are added conductors, dots are joints."
    )
    return key if plan.kind == "tap_plan" else f"Not proved: measure first, join nothing yet. {key}"


def pairs_of(plan: Plan) -> list[Pair]:
    """Return the feeds as pairs, by converter input and channel."""
    pairs: dict[tuple[int, str, str], Pair] = {}
    for feed in sorted(plan.feeds, key=lambda f: (f.converter_input, f.channel)):
        pairs.setdefault((feed.converter_input, feed.channel, feed.plug), {})[feed.leg] = feed
    return list(pairs.values())


def _pair_block(pair: Pair, plan: Plan, vehicle: Vehicle, converter: Converter, key: str) -> Markup:
    feed = next(iter(pair.values()))
    cut = feed.treatment == "intercept"
    canvas = Canvas()
    canvas.text(8, 16, *fit(plain(feed.channel), 190, 14), bold=True)
    to_do = "cut both wires" if cut else "branch off, do not cut"
    canvas.text(W - 8, 16, to_do if plan.kind == "tap_plan" else "measure first", 12, anchor="end")
    source = vehicle.plug(feed.plug)
    part_box(canvas, (8, 28, W - 16, 28), (f"{unit_words(source)}, plug {feed.plug}",))
    _added(canvas, converter.name, feed.converter_input, cut)
    height = 292.0 if cut else 236.0
    for leg, one in pair.items():
        (_cut_leg if cut else _branched_leg)(canvas, leg, one, _end(source))
    part_box(canvas, (8, height - 36, W - 16, 28), (f"factory speaker, {plain(feed.channel)}",))
    title = (
        f"{plain(feed.channel)}: {'intercept' if cut else 'add-on'}, input {feed.converter_input}"
    )
    return canvas.svg((W, height), key, title, _described(pair, cut), "lb-block")


def _end(plug: Plug | None) -> str:
    return "radio end" if plug is None or plug.unit == "radio" else "factory end"


def _added(canvas: Canvas, name: str, converter_input: int, cut: bool) -> None:
    x, w = ADDED
    part_box(canvas, (x, 108, w, 44), (name, f"input {converter_input}"), 22)
    if not cut:
        arrow_down(canvas, W / 2, 152, 168)
        canvas.text(W / 2, 183, "to the amplifier", 11, anchor="middle")
    else:
        canvas.line((W / 2, 152), (W / 2, 162))
        canvas.text(W / 2, 175, "to the amplifier", 11, anchor="middle")
        arrow_down(canvas, W / 2, 180, 192)
        part_box(canvas, (x, 192, w, 40), ("amplifier", "output"), 22)


def _terminal(canvas: Canvas, leg: str, y: float) -> None:
    """Draw the added conductor from the leg to the box between, and its sign in the box."""
    x, inward, sign = LEGS[leg]
    edge = ADDED[0] if inward > 0 else ADDED[0] + ADDED[1]
    canvas.line((x, y), (edge, y), "lb-added", 2)
    canvas.text(edge + inward * 11, y + 5, sign, 15, anchor="middle", bold=True)
    joint(canvas, x, y)


def _upright(canvas: Canvas, leg: str, wire: str, top: float, bottom: float) -> None:
    canvas.add(wire_line(wire, LEGS[leg][0] - WIRE / 2, top, WIRE, bottom - top))


def _label(
    canvas: Canvas, leg: str, y: float, words: str, *, room: float = 135, bold: bool = False
) -> None:
    """Write beside the leg, on its inner side, in at most `room` units."""
    x, inward, _ = LEGS[leg]
    said, size = fit(words, room, 12 if bold else 11)
    anchor = "start" if inward > 0 else "end"
    canvas.text(x + inward * 11, y, said, size, anchor=anchor, bold=bold)


def _cut_leg(canvas: Canvas, leg: str, feed: Feed, end: str) -> None:
    _upright(canvas, leg, feed.wire, 56, 128)
    _label(canvas, leg, 76, f"{feed.plug}.{feed.cavity}", bold=True)
    _label(canvas, leg, 92, feed.wire)
    _terminal(canvas, leg, 128)
    _label(canvas, leg, 146, end, room=72)
    _gap(canvas, LEGS[leg][0])
    _label(canvas, leg, 204, "speaker end", room=72)
    _upright(canvas, leg, feed.wire, 214, 256)
    _terminal(canvas, leg, 214)
    _label(canvas, leg, 247, feed.wire)


def _gap(canvas: Canvas, x: float) -> None:
    """Draw the break: nothing between two slanted strokes."""
    for y in (160, 182):
        canvas.path(f"M{number(x - 9)} {number(y + 4)}l18 -8", "lb-break", 2)


def _branched_leg(canvas: Canvas, leg: str, feed: Feed, end: str) -> None:
    _upright(canvas, leg, feed.wire, 56, 200)
    _label(canvas, leg, 76, f"{feed.plug}.{feed.cavity}", bold=True)
    _label(canvas, leg, 92, feed.wire)
    _terminal(canvas, leg, 128)
    _label(canvas, leg, 146, "not cut", room=72)


def _described(pair: Pair, cut: bool) -> str:
    return " ".join(
        f"{feed.plug}.{feed.cavity}, wire {feed.wire}, {leg}: "
        + (
            "cut; radio end to the converter, amplifier output to the speaker end."
            if cut
            else "not cut; a branch goes to the converter."
        )
        for leg, feed in pair.items()
    )
