"""A scene written as SVG: frames, wires, marks, words, in this order.

A picture that is `traced` says of each element which pieces of the circuit it shows, so that a test
can walk from the circuit to the picture; pages have no use for that. Wires have a case in ink:
yellow on paper is seen too. There is no style attribute.
"""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import escape

from builder.rendering.drawings.canvas import Canvas, number
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
from builder.rendering.drawings.wiring.signs import put_mark, put_shell, put_speaker

_ROUND: dict[FrameKind, str] = {"jacket": ' rx="8"', "driver": ' rx="2"'}


def paint(canvas: Canvas, scene: Scene, name: str = "", *, traced: bool = False) -> None:
    """Write a scene. `name` is what the ids of its wires begin with, or "" for none."""
    group, put = (_traced_group, _traced) if traced else (_group, _untraced)
    for frame in scene.frames:
        canvas.add(group(frame.ids, _frame(frame), frame.title, ""))
    for shell in scene.shells:
        canvas.add(put(put_shell(shell), (shell.unit,), ""))
    canvas.add(gaps_drawn(scene.runs))
    for at, run in enumerate(scene.runs):
        drawn = drawn_run(run, f"{name}.{at}" if name else "")
        canvas.add(group(run.ids, drawn, run.title, "lb-link"))
    for part in scene.parts:
        canvas.add(group(part.ids, drawn_part(part), "", ""))
    for mark in scene.marks:
        canvas.add(put(put_mark(mark), mark.ids, mark.open_end))
    canvas.add(_said(scene.words))
    for badge in scene.badges:
        canvas.add(_badge(badge))


def _said(words: Iterable[Words]) -> str:
    """Return words, those of one kind in one group: no two of them lie on each other."""
    canvas = Canvas(words_last=True)
    for line in words:
        canvas.text(*line.at, line.text, line.size, anchor=line.anchor, bold=line.bold)
    return canvas.inner


def _group(_: Iterable[str], inner: str, title: str, css: str) -> str:
    """Return what shows a piece of the circuit, with its name for who points at it."""
    return f"<g><title>{escape(title)}</title>{inner}</g>" if title else inner


def _traced_group(ids: Iterable[str], inner: str, title: str, css: str) -> str:
    """Return a group that says which pieces of the circuit it shows, and of which class it is.

    What shows one piece and is called as that has its name once, as its title; what has a title and
    shows none says so.
    """
    attributes = f' class="{css}"' if css else ""
    named = tuple(ids)
    attributes += _shows(named) if named != (title,) else ""
    attributes += "" if named or not title else ' data-id=""'
    said = f"<title>{escape(title)}</title>" if title else ""
    return f"<g{attributes}>{said}{inner}</g>" if attributes or said else inner


def _untraced(element: str, _: Iterable[str], open_end: str) -> str:
    """Return an element as it is."""
    return element


def _traced(element: str, ids: Iterable[str], open_end: str) -> str:
    """Say of an element without content which pieces it shows, and which end it closes."""
    opened = f' data-open="{escape(open_end)}"' if open_end else ""
    return f"{element.removesuffix('/>')}{_shows(ids)}{opened}/>"


def _shows(ids: Iterable[str]) -> str:
    """Return which pieces of the circuit an element shows, as an attribute."""
    named = "|".join(ids)
    return f' data-id="{escape(named)}"' if named else ""


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
        return put_speaker((x + w / 2, y + h / 2), w / 2)
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
