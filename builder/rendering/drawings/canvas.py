"""The sheet every drawing is made on: plain elements, escaped text, a title and a description.

Units are those of the view box: one unit is one CSS pixel at natural size. Ink is
`currentColor`, so a drawing follows the page into dark mode and onto paper. There is no
style attribute and no style element: a strict Content-Security-Policy allows neither. How a class
is filled and stroked stands once, in `drawings.css`; an element says only what differs within one.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal

from markupsafe import Markup, escape

Point = tuple[float, float]  # x, y
Box = tuple[float, float, float, float]  # x, y, width, height

_NOT_ID = re.compile(r"[^A-Za-z0-9-]")


@lru_cache(maxsize=16384)
def number(value: float) -> str:
    """Return `value` with at most one decimal, so that output is short and repeatable.

    Drawings ask for the same few thousand figures again and again, so they are kept.
    """
    text = f"{value:.1f}"
    if text.endswith(".0"):
        text = text[:-2]
    return "0" if text == "-0" else text


@lru_cache(maxsize=16384)
def _escaped(words: str) -> str:
    return str(escape(words))


def identifier(*parts: str) -> str:
    """Return an id made of `parts`; different parts always give different ids."""
    safe = (_NOT_ID.sub(lambda found: f"_{ord(found[0]):x}_", part) for part in parts)
    return "lb-" + ".".join(safe)


USUAL = 11.0
"""The size of words of which nothing else is said."""
Anchor = Literal["start", "middle", "end"]
"""Which end of a text stands at its place."""


class Canvas:
    """Collects the elements of one drawing, in painting order.

    With `words_last` its words come behind all else, those of one kind in one group: shorter, where
    nothing is drawn over words.
    """

    def __init__(self, *, words_last: bool = False) -> None:
        self._parts: list[str] = []
        self._words: dict[str, list[str]] | None = {} if words_last else None

    def add(self, markup: str) -> None:
        """Append markup that is already safe."""
        self._parts.append(markup)

    @property
    def inner(self) -> str:
        """The elements so far, already safe."""
        groups = (self._words or {}).items()
        said = (f"<g{kind}>{''.join(lines)}</g>" for kind, lines in groups)
        return "".join((*self._parts, *said))

    def text(
        self,
        x: float,
        y: float,
        words: str,
        size: float = USUAL,
        *,
        anchor: Anchor = "start",
        bold: bool = False,
    ) -> None:
        """Write `words` with the baseline at (x, y)."""
        kind = "" if size == USUAL else f' font-size="{number(size)}"'
        kind += "" if anchor == "start" else f' text-anchor="{anchor}"'
        kind += ' font-weight="700"' if bold else ""
        place = f'x="{number(x)}" y="{number(y)}"'
        if self._words is None:
            self.add(f"<text {place}{kind}>{_escaped(words)}</text>")
        else:
            self._words.setdefault(kind, []).append(f"<text {place}>{_escaped(words)}</text>")

    def rect(self, box: Box, css: str, radius: float = 0, extra: str = "") -> None:
        """Draw an outlined rectangle; `extra` is further attributes, already safe."""
        x, y, w, h = box
        corner = f' rx="{number(radius)}"' if radius else ""
        self.add(
            f'<rect class="{css}" x="{number(x)}" y="{number(y)}" width="{number(w)}"'
            f' height="{number(h)}"{corner}{extra}/>'
        )

    def path(self, d: str, css: str, width: float = 1.5, extra: str = "") -> None:
        """Draw an unfilled path in ink."""
        self.add(f'<path class="{css}" d="{d}" stroke-width="{number(width)}"{extra}/>')

    def line(self, start: Point, end: Point, css: str = "lb-line", width: float = 1.5) -> None:
        """Draw a straight line in ink."""
        (x1, y1), (x2, y2) = start, end
        self.path(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}", css, width)

    def svg(
        self, size: tuple[float, float], key: str, title: str, desc: str, css: str = ""
    ) -> Markup:
        """Return the drawing as one `svg` element named by `key`, which must be an id."""
        width, height = size
        return Markup(  # every part was escaped when it was added
            f'<svg class="lb-drawing{" " + css if css else ""}" id="{key}" width="{number(width)}"'
            f' height="{number(height)}" viewBox="0 0 {number(width)} {number(height)}"'
            f' font-size="{number(USUAL)}" role="img" aria-labelledby="{key}-t {key}-d">'
            f'<title id="{key}-t">{escape(title)}</title>'
            f'<desc id="{key}-d">{escape(desc)}</desc>{self.inner}</svg>'
        )
