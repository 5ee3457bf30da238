"""A scene written as SVG: frames, wires, marks, words, in this order.

Each piece of the circuit is a group with its ids, so that a test can walk from the circuit to the
picture. Wires have a case in ink: yellow on paper is seen too. There is no style attribute.
"""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import escape

from builder.rendering.drawings.canvas import Anchor, Canvas, number
from builder.rendering.drawings.wiring.paint_parts import drawn_part
from builder.rendering.drawings.wiring.paint_runs import drawn_run, gaps_drawn
from builder.rendering.drawings.wiring.scene import (
    BADGE_R,
    Badge,
    Frame,
    FrameKind,
    Scene,
    Words,
)
from builder.rendering.drawings.wiring.signs import put_mark, put_shell

_ROUND: dict[FrameKind, str] = {"jacket": ' rx="8"', "driver": ' rx="2"'}


def paint(canvas: Canvas, scene: Scene, name: str = "") -> None:
    """Write a scene. `name` is what the ids of its wires begin with, or "" for none."""
    for frame in scene.frames:
        canvas.add(_group(frame.ids, _frame(frame), frame.title))
    for shell in scene.shells:
        canvas.add(_with(put_shell(shell), _shows((shell.unit,))))
    canvas.add(gaps_drawn(scene.runs))
    for at, run in enumerate(scene.runs):
        drawn = drawn_run(run, f"{name}.{at}" if name else "")
        canvas.add(_group(run.ids, drawn, run.title, "lb-link"))
    for part in scene.parts:
        canvas.add(_group(part.ids, drawn_part(part), ""))
    for mark in scene.marks:
        opened = f' data-open="{escape(mark.open_end)}"' if mark.open_end else ""
        canvas.add(_with(put_mark(mark), _shows(mark.ids) + opened))
    _say(canvas, scene.words)
    for badge in scene.badges:
        canvas.add(_badge(badge))


def _say(canvas: Canvas, words: Iterable[Words]) -> None:
    """Write words, those of one kind in one group: no two of them lie on each other."""
    kinds: dict[tuple[float, Anchor, bool], list[Words]] = {}
    for line in words:
        kinds.setdefault((line.size, line.anchor, line.bold), []).append(line)
    for (size, anchor, bold), lines in kinds.items():
        place = "" if anchor == "start" else f' text-anchor="{anchor}"'
        weight = ' font-weight="700"' if bold else ""
        canvas.add(f'<g font-size="{number(size)}"{place}{weight}>')
        for line in lines:
            x, y = line.at
            canvas.add(f'<text x="{number(x)}" y="{number(y)}">{escape(line.text)}</text>')
        canvas.add("</g>")


def _group(ids: Iterable[str], inner: str, title: str, css: str = "") -> str:
    """Return a group that says which pieces of the circuit it shows.

    What shows one piece and is called as that has its name once, as its title; what has a title and
    shows none says so.
    """
    attributes = f' class="{css}"' if css else ""
    named = tuple(ids)
    attributes += _shows(named) if named != (title,) else ""
    attributes += "" if named or not title else ' data-id=""'
    said = f"<title>{escape(title)}</title>" if title else ""
    return f"<g{attributes}>{said}{inner}</g>" if attributes or said else inner


def _shows(ids: Iterable[str]) -> str:
    """Return which pieces of the circuit an element shows, as an attribute."""
    named = "|".join(ids)
    return f' data-id="{escape(named)}"' if named else ""


def _with(element: str, attributes: str) -> str:
    """Give an element without content more attributes, already safe."""
    return f"{element.removesuffix('/>')}{attributes}/>"


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
    """Return slanted strokes that fill a long box: one dashed line as thick as the box, pushed
    over by half a right angle. Where an axis is pushed, what lies beside it moves along it."""
    thick, level = min(w, h), w > h
    across = (y if level else x) + thick / 2
    if level:
        d, push = f"M{number(x + 3 + across)} {number(across)}h{number(w - 6)}", "skewX(-45)"
    else:
        d, push = f"M{number(across)} {number(y + 3 + across)}v{number(h - 6)}", "skewY(-45)"
    return f'<path class="lb-slanted" d="{d}" stroke-width="{number(thick)}" transform="{push}"/>'


def _speaker(x: float, y: float, r: float) -> str:
    at = f'cx="{number(x)}" cy="{number(y)}"'
    rings = "".join(
        f'<circle {at} r="{number(r * share)}"{width}/>'
        for share, width in ((1, ""), (0.78, ' stroke-width="0.9"'), (0.3, ' stroke-width="1.2"'))
    )
    return f'<g class="lb-frame-speaker" stroke-width="1.6">{rings}</g>'
