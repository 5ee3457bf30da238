"""A cable cut across: every conductor in its colours, numbered, with what it carries in words.

A spare is drawn empty, dashed and crossed out, so that a black-and-white print shows it too.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from markupsafe import Markup

from builder.planning.cables.piece_names import CLASS_NAMES
from builder.planning.sheet_rows import ConductorRow
from builder.rendering.drawings.canvas import Canvas, Point, identifier, number
from builder.rendering.drawings.lettering import fit, wrap
from builder.rendering.drawings.shapes import wire_line
from builder.rendering.drawings.wire_colours import colour_hex, split_words

W = 300.0  # a third of a page of paper, with words that are still read
JACKET = 40.0  # radius
CENTRE = 58.0  # of the jacket, from the left and from the top of its part
LIST = 116.0  # where the words begin
_PAIR = re.compile(r"pair (\d+)")


def is_spare(row: ConductorRow) -> bool:
    """Tell whether a conductor carries nothing and must be closed off at both ends."""
    return row.demand_class == "spare"


def jacket_section(rows: Sequence[ConductorRow], cable: str = "", cut: str = "") -> Markup:
    """Return one jacket: `rows` are all of its conductors. Empty markup without rows.

    `cable` is the cable's name, its id when left out; `cut` is its length in words.
    """
    if not rows:
        return Markup("")
    canvas = Canvas()
    top = _heading(canvas, rows, cable or rows[0].cable, cut)
    spots = _spots(len(rows), top)
    canvas.add(
        f'<circle class="lb-jacket" cx="{number(CENTRE)}" cy="{number(top + CENTRE - 8)}"'
        f' r="{number(JACKET)}" fill="none" stroke="currentColor" stroke-width="3"/>'
    )
    _pair_ties(canvas, rows, spots, _radius(len(rows)) + 2)
    for at, (row, spot) in enumerate(zip(rows, spots, strict=True), 1):
        _conductor(canvas, row, spot, _radius(len(rows)))
        _outside_number(canvas, at, spot, top)
    bottom = _list(canvas, rows, top)
    first = rows[0]
    title = f"{first.piece}, {first.cable}"
    desc = "; ".join(f"{at}: {row.wire}, {row.purpose}" for at, row in enumerate(rows, 1))
    key = identifier("jacket", str(first.jacket), first.cable, first.from_end)
    return canvas.svg((W, max(bottom, top + 2 * CENTRE)), key, title, desc, "lb-block")


def _heading(canvas: Canvas, rows: Sequence[ConductorRow], cable: str, cut: str) -> float:
    """Write name, cable and ends; return where the section begins."""
    first = rows[0]
    classes = dict.fromkeys(row.demand_class for row in rows if not is_spare(row))
    title = f"{first.piece}: {' and '.join(CLASS_NAMES[word] for word in classes) or 'unused'}"
    canvas.text(8, 16, *fit(title, W - 120 if cut else W - 16, 14), bold=True)
    if cut:
        canvas.text(W - 8, 16, *fit(cut, 96, 13), anchor="end", bold=True)
    y = 32.0
    for line in wrap(f"{cable}: {first.from_end} to {first.to_end}", W - 16, 11):
        canvas.text(8, y, line, 11)
        y += 14
    return y - 6


def _ring(count: int) -> float:
    """Radius on which the conductors stand, so that neighbours leave a little room."""
    return 0.0 if count == 1 else (JACKET - 5) / (1 + 0.86 * math.sin(math.pi / count))


def _radius(count: int) -> float:
    return min(22.0, 0.86 * _ring(count) * math.sin(math.pi / count)) if count > 1 else 22.0


def _spots(count: int, top: float) -> list[Point]:
    """Return the centre of each conductor, clockwise from the top left."""
    turn = 2 * math.pi / count
    start = -math.pi / 2 - turn / 2
    return [
        (
            CENTRE + _ring(count) * math.cos(start + turn * at),
            top + CENTRE - 8 + _ring(count) * math.sin(start + turn * at),
        )
        for at in range(count)
    ]


def _pair_ties(
    canvas: Canvas, rows: Sequence[ConductorRow], spots: Sequence[Point], reach: float
) -> None:
    """Draw a line round the two conductors of a pair: they stay together."""
    pairs: dict[str, list[Point]] = {}
    for row, spot in zip(rows, spots, strict=True):
        found = _PAIR.match(row.place)
        if found:
            pairs.setdefault(found[1], []).append(spot)
    for ends in pairs.values():
        if len(ends) == 2:
            canvas.path(_round(ends[0], ends[1], reach), "lb-pair-tie", 1.5)


def _round(a: Point, b: Point, reach: float) -> str:
    """Return the outline that stays `reach` away from the line between two places."""
    length = math.dist(a, b) or 1.0
    nx, ny = -(b[1] - a[1]) / length * reach, (b[0] - a[0]) / length * reach
    corners = [(a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny), (b[0] - nx, b[1] - ny)]
    corners.append((a[0] - nx, a[1] - ny))
    near, far, back, home = (f"{number(x)} {number(y)}" for x, y in corners)
    bend = f"A{number(reach)} {number(reach)} 0 0 0 "
    return f"M{near}L{far}{bend}{back}L{home}{bend}{near}Z"


def _conductor(canvas: Canvas, row: ConductorRow, spot: Point, radius: float) -> None:
    x, y = spot
    at = f'cx="{number(x)}" cy="{number(y)}" r="{number(radius)}" stroke="currentColor"'
    if is_spare(row):
        canvas.add(
            f'<circle class="lb-spare" {at} fill="none" stroke-width="1.5" stroke-dasharray="3 2"/>'
        )
        reach = radius * 0.55
        for lean in (1, -1):
            start, end = (x - reach, y - lean * reach), (x + reach, y + lean * reach)
            canvas.line(start, end, "lb-cross", 2)
        return
    base, stripe = split_words(row.wire)
    fill = colour_hex(base) or "none"
    canvas.add(f'<circle class="lb-core" {at} fill="{fill}" stroke-width="1.2"/>')
    if stripe is not None:
        shown = colour_hex(stripe) or "currentColor"
        w = number(radius * 0.5)
        reach = radius * 0.94
        canvas.add(
            f'<path class="lb-core-stripe" d="M{number(x)} {number(y - reach)}v{number(2 * reach)}"'
            f' fill="none" stroke="{shown}" stroke-width="{w}"/>'
        )


def _outside_number(canvas: Canvas, at: int, spot: Point, top: float) -> None:
    """Number a conductor outside the jacket, where no colour lies behind the figure."""
    dx, dy = spot[0] - CENTRE, spot[1] - (top + CENTRE - 8)
    length = math.hypot(dx, dy)
    dx, dy = (0.0, -1.0) if length < 1 else (dx / length, dy / length)
    reach = JACKET + 10
    x, y = CENTRE + reach * dx, top + CENTRE - 8 + reach * dy
    canvas.text(x, y + 4, str(at), 11, anchor="middle", bold=True)


def _list(canvas: Canvas, rows: Sequence[ConductorRow], top: float) -> float:
    """Write number, colours and purpose of every conductor; return the bottom."""
    y = top + 6.0
    for at, row in enumerate(rows, 1):
        canvas.text(LIST + 14, y + 8, str(at), 12, anchor="end", bold=True)
        canvas.add(wire_line(row.wire, LIST + 20, y, 30, 9))
        canvas.text(LIST + 56, y + 8, *fit(row.wire, W - LIST - 62, 12), bold=True)
        y += 22
        for line in wrap(row.purpose, W - LIST - 26, 11):
            canvas.text(LIST + 20, y, line, 11)
            y += 13
        y += 2
    return y
