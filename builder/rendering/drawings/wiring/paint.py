"""A scene written as SVG: frames, wires, marks, words, in this order.

Each piece of the circuit is a group with its ids, so that a test can walk from the circuit to the
picture. Wires have a case in ink: yellow on paper is seen too. There is no style attribute.
"""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import escape

from builder.rendering.drawings.canvas import Canvas, number
from builder.rendering.drawings.wiring.paint_parts import drawn_mark, drawn_part
from builder.rendering.drawings.wiring.paint_runs import drawn_run
from builder.rendering.drawings.wiring.scene import (
    BADGE_R,
    Badge,
    Frame,
    FrameKind,
    Scene,
)

_ROUND: dict[FrameKind, str] = {"jacket": ' rx="8"', "driver": ' rx="2"'}


def paint(canvas: Canvas, scene: Scene) -> None:
    """Write a scene."""
    for frame in scene.frames:
        canvas.add(_group(frame.ids, _frame(frame), frame.title))
    for shape in scene.shapes:
        canvas.add(shape)
    for run in scene.runs:
        canvas.add(_group(run.ids, drawn_run(run), run.title, f"lb-link lb-{run.carries}"))
    for part in scene.parts:
        canvas.add(_group(part.ids, drawn_part(part), ""))
    for mark in scene.marks:
        canvas.add(_group(mark.ids, drawn_mark(mark), "", open_end=mark.open_end))
    for line in scene.words:
        canvas.text(*line.at, line.text, line.size, anchor=line.anchor, bold=line.bold)
    for badge in scene.badges:
        canvas.add(_badge(badge))


def _group(
    ids: Iterable[str], inner: str, title: str, css: str = "", open_end: str = ""
) -> str:  # fmt: skip
    """Return a group that says which pieces of the circuit it shows."""
    named = "|".join(ids)
    attributes = f' class="{css}"' if css else ""
    attributes += f' data-id="{escape(named)}"' if named else ""
    attributes += f' data-open="{escape(open_end)}"' if open_end else ""
    said = f"<title>{escape(title)}</title>" if title else ""
    return f"<g{attributes}>{said}{inner}</g>" if attributes or said else inner


def _badge(badge: Badge) -> str:
    """The number of the piece that draws this part anew; seen where the words are too small."""
    x, y = badge.at
    return (
        f'<g class="lb-badge"><circle cx="{number(x)}" cy="{number(y)}" r="{number(BADGE_R)}"/>'
        f'<text x="{number(x)}" y="{number(y + 15)}" font-size="42" text-anchor="middle"'
        f' font-weight="700">{escape(badge.number)}</text></g>'
    )


def _frame(frame: Frame) -> str:
    x, y, w, h = frame.box
    box = f'x="{number(x)}" y="{number(y)}" width="{number(w)}" height="{number(h)}"'
    if frame.kind == "speaker":
        return _speaker(x + w / 2, y + h / 2, w / 2)
    round_by = _ROUND.get(frame.kind, "")
    body = f'<rect class="lb-frame-{frame.kind}" {box}{round_by}/>'
    return body + (_hatched(x, y, w, h) if frame.kind == "body" else "")


def _hatched(x: float, y: float, w: float, h: float) -> str:
    step = min(w, h)
    starts = range(2, int(max(w, h) - step) - 1, 9)
    places = [(x + at, y + h) if w > h else (x, y + at + step) for at in starts]
    d = "".join(f"M{number(a)} {number(b)}l{number(step)} {number(-step)}" for a, b in places)
    return f'<path class="lb-hatch" d="{d}" stroke-width="1"/>'


def _speaker(x: float, y: float, r: float) -> str:
    rings = "".join(
        f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(r * share)}" fill="none"'
        f' stroke="currentColor" stroke-width="{width}"/>'
        for share, width in ((1, "1.6"), (0.78, "0.9"), (0.3, "1.2"))
    )
    return f'<g class="lb-frame-speaker">{rings}</g>'
