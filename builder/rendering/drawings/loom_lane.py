"""The lanes of a loom on the table: where a millimetre lies, and the marks that stand on a lane."""

from __future__ import annotations

from typing import Final

from builder.figures import shown
from builder.rendering.drawings.canvas import Canvas, number
from builder.rendering.drawings.lettering import clip, text_width
from builder.rendering.drawings.shapes import WIRE, joint, wire_line

W: Final = 700.0
CAVITY_W: Final = 30.0
LEFT, RIGHT = 6.0 + CAVITY_W, 606.0
SIZE: Final = 9.5


class Lane:
    """A length laid out between two places of the drawing; to no scale where nobody knows it."""

    def __init__(self, length_mm: float | None, right: float = RIGHT) -> None:
        self.length_mm, self.right = length_mm, right

    def x(self, at_mm: float | None) -> float:
        """Where a millimetre lies; the middle where it is to be measured."""
        if at_mm is None or not self.length_mm:
            return self.right if at_mm is not None and at_mm == self.length_mm else self._middle
        share = min(1.0, max(0.0, at_mm / self.length_mm))
        return LEFT + share * (self.right - LEFT)

    @property
    def _middle(self) -> float:
        return (LEFT + self.right) / 2


def mm(value: float) -> str:
    """Return millimetres as printed: "295 mm"."""
    return f"{shown(value, 0)} mm"


def cavity(canvas: Canvas, x: float, y: float, name: str) -> None:
    """Draw a cavity of a plug, its left edge at x."""
    canvas.rect((x, y - 9, CAVITY_W, 18), "lb-socket", 2)
    canvas.text(x + CAVITY_W / 2, y + 4, name, 11, anchor="middle", bold=True)


def wire(canvas: Canvas, words: str, start: float, stop: float, y: float) -> None:
    """Draw a wire in its colours."""
    canvas.add(wire_line(words, start, y - WIRE / 2, max(1.0, stop - start), WIRE))


def sleeve(
    canvas: Canvas, span: tuple[float, float], y: float, line: int, *, closed: bool, wrapped: bool
) -> None:
    """Draw a joint under its sleeve or wrap, or an end that is closed off; `line` names it."""
    low, high = span
    kind = "closed" if closed else "joined"
    canvas.add(f'<g class="lb-bench-{kind}" data-line="{line}">')
    canvas.rect((low, y - 6, high - low, 12), "lb-sleeve", 0 if wrapped else 5)
    if closed:
        cross = (low + high) / 2
        canvas.path(f"M{number(cross - 4)} {number(y - 4)}l8 8m0 -8l-8 8", "lb-cross", 1.6)
    canvas.add("</g>")


def barrel(canvas: Canvas, span: tuple[float, float], y: float) -> None:
    """Draw the barrel of a joint, as long as it is at most."""
    low, high = span
    canvas.rect((low, y - 3, high - low, 6), "lb-barrel", 0)


def dot(canvas: Canvas, x: float, y: float) -> None:
    """Draw where a wire meets others or leaves the bundle."""
    joint(canvas, x, y)


def label(canvas: Canvas, x: float, y: float, words: str) -> None:
    """Write words from x on, or so far left of it that they end inside the drawing."""
    room = text_width(words, SIZE)
    canvas.text(max(6.0, min(x, W - 6 - room)), y, clip(words, W - 12, SIZE), SIZE)


def length_at_end(canvas: Canvas, y: float, length_m: float | None) -> None:
    """Write at the right how long a whole wire is."""
    words = "measure" if length_m is None else mm(1000 * length_m)
    canvas.text(W - 6, y + 4, words, SIZE, anchor="end")


def upright(canvas: Canvas, x: float, top: float, bottom: float) -> None:
    """Draw where the jackets end, across the cables."""
    canvas.path(f"M{number(x)} {number(top)}V{number(bottom)}", "lb-edge", 1)
