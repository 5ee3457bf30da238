"""The shapes that all drawings share: hatching, wires, joints, arrows, boxes, verdict marks."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal

from builder.rendering.drawings.canvas import Box, Canvas, Point, number
from builder.rendering.drawings.lettering import fit
from builder.rendering.drawings.path_data import PathData
from builder.rendering.drawings.wire_colours import colour_hex, is_bare, split_words

WIRE = 7.0  # thickness of a factory wire


def _segments(box: Box, step: float, lean: int) -> Iterator[tuple[Point, Point]]:
    """Yield diagonal lines clipped to the box; `lean` 1 rises to the right, -1 falls."""
    x, y, w, h = box
    reach = step / 2
    while reach < w + h:
        near, far = max(0.0, reach - h), min(reach, w)
        left = (x + near, y + (reach - near)) if lean > 0 else (x + near, y + h - (reach - near))
        right = (x + far, y + (reach - far)) if lean > 0 else (x + far, y + h - (reach - far))
        yield left, right
        reach += step


def _steps(start: float, length: float, step: float) -> Iterator[float]:
    """Yield evenly spaced places inside a length, centred."""
    count = max(1, int(length / step))
    for index in range(count):
        yield start + (length - step * (count - 1)) / 2 + index * step


Hatch = Literal["solid", "level", "upright", "rising", "crossed", "dots"]
"""A pattern that fills a box."""
Mark = Literal["yes", "maybe", "thin", "no", "absent"]
"""The mark of a verdict; a word stands beside it."""


def _hatch_lines(kind: Hatch, box: Box) -> Iterator[tuple[Point, Point]]:
    x, y, w, h = box
    if kind == "level":
        yield from (((x, at), (x + w, at)) for at in _steps(y, h, 4))
    elif kind == "upright":
        yield from (((at, y), (at, y + h)) for at in _steps(x, w, 4))
    elif kind == "dots":
        across = list(_steps(x, w, 4.5))
        yield from (((at, down), (at + 0.1, down)) for down in _steps(y, h, 4.5) for at in across)
    else:
        yield from _segments(box, 7, 1)
        yield from _segments(box, 7, -1) if kind == "crossed" else ()


@lru_cache(maxsize=4096)
def hatch(kind: Hatch, x: float, y: float, w: float, h: float) -> str:
    """Return the pattern `kind` filling a box, drawn as lines so that it prints anywhere."""
    if kind == "solid":
        return f'<rect class="lb-solid"{_box(x, y, w, h)}/>'
    weight = ' stroke-width="2" stroke-linecap="round"' if kind == "dots" else ""
    d = PathData()
    for start, end in _hatch_lines(kind, (x, y, w, h)):
        d.move(start).line(end)
    return f'<path class="lb-hatch" d="{d}"{weight}/>'


@lru_cache(maxsize=4096)
def wire_line(
    words: str, x: float, y: float, w: float, h: float, *, is_sample: bool = False
) -> str:
    """Return a straight two-tone wire filling the box, base colour with the stripe along it.

    A colour word that is not known is drawn as an outline filled with hatching. Of a sample, which
    a page has by dozens and which begins at nought, the style sheet says how large it is.
    """
    base, stripe = split_words(words)
    box = "" if is_sample else _box(x, y, w, h)
    fill = colour_hex(base)
    parts = [f'<rect class="lb-wire"{box} fill="{fill or "none"}"/>']
    if fill is None or is_bare(base):
        parts.append(hatch("rising" if fill is None else "crossed", x, y, w, h))
    if stripe is not None:
        third = min(w, h) / 3
        within = (x, y + third, w, third) if w >= h else (x + third, y, third, h)
        parts.append(_stripe(stripe, f' y="{number(third)}"' if is_sample else _box(*within)))
    return "".join(parts)


def _box(x: float, y: float, w: float, h: float) -> str:
    return f' x="{number(x)}" y="{number(y)}" width="{number(w)}" height="{number(h)}"'


def _stripe(word: str, box: str) -> str:
    fill = colour_hex(word)
    if fill is None:
        return f'<rect class="lb-stripe"{box} fill="none" stroke="currentColor"/>'
    return f'<rect class="lb-stripe"{box} fill="{fill}"/>'


def joint(canvas: Canvas, x: float, y: float) -> None:
    """Draw the dot that means: these conductors are joined."""
    canvas.add(f'<circle class="lb-joint" cx="{number(x)}" cy="{number(y)}" r="5"/>')


def arrow_down(canvas: Canvas, x: float, y1: float, y2: float) -> None:
    """Draw an arrow from y1 down to y2."""
    canvas.line((x, y1), (x, y2 - 5))
    canvas.add(_head((x, y2), (-4, -7), (4, -7)))


def _head(tip: Point, *barbs: Point) -> str:
    """Return an arrow head; `barbs` are given from the tip."""
    points = (tip, *((tip[0] + dx, tip[1] + dy) for dx, dy in barbs))
    d = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f'<path class="lb-head" d="M{d}Z"/>'


def part_box(canvas: Canvas, box: Box, lines: tuple[str, ...]) -> None:
    """Draw a part as a box with centred lines of text, the first one bold."""
    x, y, w, h = box
    canvas.rect(box, "lb-part", 3)
    top = y + h / 2 - 7 * (len(lines) - 1) + 4
    for index, line in enumerate(lines):
        words, size = fit(line, w - 16, 12 if index == 0 else 11)
        canvas.text(x + w / 2, top + 14 * index, words, size, anchor="middle", bold=index == 0)


_MARKS: dict[Mark, str] = {
    "yes": '<path d="M1.5 7.5l3.8 4.2 7.2-9" fill="none" stroke="currentColor"'
    ' stroke-width="2.6"/>',
    "maybe": '<circle cx="7" cy="7" r="6.2" fill="none" stroke="currentColor" stroke-width="1.6"/>',
    "thin": '<path d="M7 1L13.2 13H.8Z" fill="none" stroke="currentColor" stroke-width="1.6"/>'
    '<path d="M7 5.5v3.6M7 11v.2" stroke="currentColor" stroke-width="1.6"/>',
    "no": '<path d="M2 2l10 10M12 2L2 12" stroke="currentColor" stroke-width="2.4"/>',
    "absent": '<path d="M2 7h10" stroke="currentColor" stroke-width="1.6"/>',
}


def verdict_mark(canvas: Canvas, x: float, y: float, kind: Mark) -> None:
    """Draw a 14 unit mark with its top left at (x, y): yes, maybe, thin, no, absent."""
    canvas.add(
        f'<g class="lb-mark lb-mark-{kind}" transform="translate({number(x)} {number(y)})">'
        f"{_MARKS[kind]}</g>"
    )
