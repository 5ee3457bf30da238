"""The tap drawn: radio end, break or branch, converter, amplifier, speaker end, pair by pair.

Each pair is a drawing of its own, 360 units wide, so that pairs stack on a phone and stand
side by side on paper. The positive leg runs down the left, the negative down the right, and
what is added sits between them: so no conductor crosses another.
"""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup, escape

from builder.model.names import channel_name
from builder.model.parts import Converter
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.model.words import Channel, Leg
from builder.planning.car.output_sums import corner_of
from builder.planning.car.treatments import TREATMENT_WORDS
from builder.planning.levels.level_pad import ohm_words
from builder.planning.plan import Feed, Plan
from builder.rendering.drawings.canvas import Anchor, Canvas, identifier, number
from builder.rendering.drawings.function_kinds import unit_words
from builder.rendering.drawings.lettering import fit
from builder.rendering.drawings.shapes import WIRE, arrow_down, joint, part_box, wire_line
from builder.rendering.drawings.terminal_strip import terminal_strip
from builder.rendering.drawings.turn_on_lead import turn_on_lead

W = 360.0
LEGS: dict[Leg, tuple[float, int, str]] = {
    "positive": (26.0, 1, "+"),
    "negative": (W - 26.0, -1, "−"),
}  # x, inward, sign
ADDED = (112.0, 136.0)  # left edge and width of what is added between the legs
TOP, IN, OUT = 48.0, 104.0, 180.0  # where the wires begin, the converter joins, the amplifier joins
CUT_BOTTOM, BRANCHED_BOTTOM = 222.0, 182.0  # where the wires end

Pair = dict[Leg, Feed]


def tap_diagram(
    plan: Plan, vehicle: Vehicle, converter: Converter, outputs: Mapping[Channel, str] | None = None
) -> Markup:
    """Return a figure: the converter's terminals, each pair, and the turn-on lead.

    `outputs` names what drives the speaker end of a cut pair, by its channel ("door amp,
    channel 1"); a plan alone does not know it. A plan without feeds gives empty markup: there
    is nothing to join yet.
    """
    if not plan.feeds:
        return Markup("")
    key = identifier("tap", converter.id)
    blocks = [terminal_strip(plan, vehicle, converter, f"{key}-s")]
    blocks += [
        _pair_block(pair, plan, vehicle, converter, (f"{key}-{at}", _output(pair, outputs)))
        for at, pair in enumerate(pairs_of(plan), 1)
    ]
    blocks.append(turn_on_lead(plan, vehicle, converter, f"{key}-o"))
    return Markup(  # blocks are markup, the caption is escaped
        f'<figure class="lb-tap"><div class="lb-blocks">{"".join(blocks)}</div>'
        f"<figcaption>{escape(_caption(plan))}</figcaption></figure>"
    )


def _output(pair: Pair, outputs: Mapping[Channel, str] | None) -> str:
    """What drives the speaker end; a woofer and its tweeter may have a new output in common."""
    named, channel = outputs or {}, next(iter(pair.values())).channel
    return named.get(channel) or named.get(corner_of(channel), "")


def _caption(plan: Plan) -> str:
    key = "Thick two-tone lines are factory wires, thin lines are added wires, dots are joints."
    return key if plan.kind == "tap_plan" else f"Not proved: measure first, join nothing yet. {key}"


def pairs_of(plan: Plan) -> list[Pair]:
    """Return the feeds as pairs, by converter input and channel."""
    pairs: dict[tuple[int, str, str], Pair] = {}
    for feed in sorted(plan.feeds, key=lambda f: (f.converter_input, f.channel)):
        pairs.setdefault((feed.converter_input, feed.channel, feed.plug), {})[feed.leg] = feed
    return list(pairs.values())


def _pair_block(
    pair: Pair, plan: Plan, vehicle: Vehicle, converter: Converter, names: tuple[str, str]
) -> Markup:
    """Return one pair; `names` are the drawing's key and the amplifier's channel, or ""."""
    key, output = names
    feed = next(iter(pair.values()))
    cut = feed.treatment == "intercept"
    canvas = Canvas()
    canvas.text(8, 16, *fit(channel_name(feed.channel), 190, 14), bold=True)
    to_do = "cut both wires" if cut else "join, do not cut"
    canvas.text(W - 8, 16, to_do if plan.kind == "tap_plan" else "measure first", 12, anchor="end")
    source = vehicle.plug(feed.plug)
    part_box(canvas, (8, TOP - 24, W - 16, 24), (f"{unit_words(source)}, plug {feed.plug}",))
    _added(canvas, (converter.name, f"input {feed.converter_input}"), output if cut else None)
    bottom = CUT_BOTTOM if cut else BRANCHED_BOTTOM
    for leg, one in pair.items():
        (_cut_leg if cut else _branched_leg)(canvas, leg, one, _end(source))
    end = "factory amplifier" if feed.treatment == "line_tap" else "factory speaker"
    part_box(canvas, (8, bottom, W - 16, 24), (f"{end}, {channel_name(feed.channel)}",))
    how = TREATMENT_WORDS[feed.treatment]
    title = f"{channel_name(feed.channel)}: {how}, input {feed.converter_input}"
    return canvas.svg((W, bottom + 30), key, title, _described(pair, cut), "lb-block")


def _end(plug: Plug | None) -> str:
    return "radio end" if plug is None or plug.unit == "radio" else "factory end"


def _added(canvas: Canvas, converter: tuple[str, str], output: str | None) -> None:
    """Draw the converter between the legs and, for a cut pair, the amplifier under it."""
    x, w = ADDED
    part_box(canvas, (x, IN - 20, w, 40), converter, 22)
    if output is None:
        arrow_down(canvas, W / 2, IN + 20, IN + 36)
        canvas.text(W / 2, IN + 50, "to the amplifier", 11, anchor="middle")
    else:
        canvas.line((W / 2, IN + 20), (W / 2, IN + 25))
        canvas.text(W / 2, IN + 36, "to the amplifier", 11, anchor="middle")
        arrow_down(canvas, W / 2, IN + 41, OUT - 20)
        name, _, channel = output.rpartition(", ")
        part_box(canvas, (x, OUT - 20, w, 40), (name or "amplifier", channel or "output"), 22)


def _terminal(canvas: Canvas, leg: Leg, y: float) -> None:
    """Draw the added conductor from the leg to the box between, and its sign in the box."""
    x, inward, sign = LEGS[leg]
    edge = ADDED[0] if inward > 0 else ADDED[0] + ADDED[1]
    canvas.line((x, y), (edge, y), "lb-added", 2)
    canvas.text(edge + inward * 11, y + 5, sign, 15, anchor="middle", bold=True)
    joint(canvas, x, y)


def _pad(canvas: Canvas, leg: Leg, feed: Feed) -> None:
    """Write the resistor of a pad over the added conductor that it stands in."""
    if feed.pad_ohm_per_leg:
        _label(canvas, leg, IN - 6, f"pad {ohm_words(feed.pad_ohm_per_leg)}", room=72)


def _upright(canvas: Canvas, leg: Leg, wire: str, top: float, bottom: float) -> None:
    canvas.add(wire_line(wire, LEGS[leg][0] - WIRE / 2, top, WIRE, bottom - top))


def _label(
    canvas: Canvas, leg: Leg, y: float, words: str, *, room: float = 135, bold: bool = False
) -> None:
    """Write beside the leg, on its inner side, in at most `room` units."""
    x, inward, _ = LEGS[leg]
    said, size = fit(words, room, 12 if bold else 11)
    anchor: Anchor = "start" if inward > 0 else "end"
    canvas.text(x + inward * 11, y, said, size, anchor=anchor, bold=bold)


def _cut_leg(canvas: Canvas, leg: Leg, feed: Feed, end: str) -> None:
    _upright(canvas, leg, feed.wire, TOP, IN)
    _names(canvas, leg, feed)
    _terminal(canvas, leg, IN)
    _pad(canvas, leg, feed)
    _label(canvas, leg, IN + 17, end, room=72)
    _gap(canvas, LEGS[leg][0])
    _label(canvas, leg, OUT - 9, "speaker end", room=72)
    _upright(canvas, leg, feed.wire, OUT, CUT_BOTTOM)
    _terminal(canvas, leg, OUT)
    _label(canvas, leg, CUT_BOTTOM - 8, feed.wire)


def _names(canvas: Canvas, leg: Leg, feed: Feed) -> None:
    _label(canvas, leg, TOP + 15, f"{feed.plug}.{feed.cavity}", bold=True)
    _label(canvas, leg, TOP + 30, feed.wire)


def _gap(canvas: Canvas, x: float) -> None:
    """Draw the break: nothing between two slanted strokes."""
    for y in (IN + 29, OUT - 27):
        canvas.path(f"M{number(x - 9)} {number(y + 4)}l18 -8", "lb-break", 2)


def _branched_leg(canvas: Canvas, leg: Leg, feed: Feed, end: str) -> None:
    _upright(canvas, leg, feed.wire, TOP, BRANCHED_BOTTOM)
    _names(canvas, leg, feed)
    _terminal(canvas, leg, IN)
    _pad(canvas, leg, feed)
    _label(canvas, leg, IN + 17, "not cut", room=72)


def _pad_said(feed: Feed) -> str:
    ohm = feed.pad_ohm_per_leg
    return f" A resistor of {ohm_words(ohm)} stands before the converter." if ohm else ""


def _described(pair: Pair, cut: bool) -> str:
    return " ".join(
        f"{feed.plug}.{feed.cavity}, wire {feed.wire}, {leg}: "
        + (
            "cut; radio end to the converter, amplifier output to the speaker end."
            if cut
            else "not cut; a branch goes to the converter."
        )
        + _pad_said(feed)
        for leg, feed in pair.items()
    )
