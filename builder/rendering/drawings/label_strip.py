"""Labels to cut out and tape on: words to read, and bands to feel where nothing can be read."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from builder.planning.sheet_rows import Label
from builder.rendering.drawings.canvas import Canvas, identifier
from builder.rendering.drawings.lettering import fit, wrap
from builder.rendering.drawings.shapes import hatch

W = 288.0  # a third of a page of paper, with words that are still read
CABLE = (10.0, 66.0)  # left and right end of the drawn piece of cable
TEXT = 74.0
ROOM = W - TEXT - 6


def label_strip(labels: Sequence[Label]) -> Markup:
    """Return the labels of one jacket, one strip below the other; empty markup without any."""
    if not labels:
        return Markup("")
    canvas, y = Canvas(), 4.0
    for label in labels:
        y = _strip(canvas, label, y)
    first = labels[0]
    desc = "; ".join(f"{one.end}: {one.text}, {bands_said(one.bands)}" for one in labels)
    key = identifier("labels", first.jacket)
    return canvas.svg((W, y), key, f"labels of {first.jacket}", desc, "lb-block")


def bands_said(bands: int) -> str:
    """Return how many bands a label has beside it: only cables that look alike have any."""
    return f"{bands} band{'' if bands == 1 else 's'}" if bands else "no band"


def _strip(canvas: Canvas, label: Label, top: float) -> float:
    """Draw one strip from `top`; return where the next begins."""
    lines, places = wrap(label.text, ROOM, 12), wrap(label.end, ROOM, 10)
    height = max(46.0, 13 + 15.0 * len(lines) + 13.0 * len(places))
    canvas.rect((4, top, W - 8, height), "lb-cut", extra=' stroke-dasharray="6 3"')
    _cable(canvas, label, top + 14)
    canvas.text(sum(CABLE) / 2, top + 41, *fit(bands_said(label.bands), 60, 11), anchor="middle")
    for at, line in enumerate(lines):
        canvas.text(TEXT, top + 16 + 15 * at, line, 12, bold=True)
    for at, place in enumerate(places):
        canvas.text(TEXT, top + 17 + 15 * len(lines) + 13 * at, place, 10)
    return top + height + 4


def _cable(canvas: Canvas, label: Label, top: float) -> None:
    """Draw a piece of cable with its bands raised, evenly from the cut end."""
    left, right = CABLE
    canvas.rect((left, top + 3, right - left, 9), "lb-cable")
    if label.bands < 1:
        return
    step = min(12.0, (right - left - 12) / label.bands)
    for at in range(label.bands):
        canvas.add(hatch("solid", left + 8 + step * at, top, step / 2, 15))
