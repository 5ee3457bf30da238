"""A drawing as XML, what it refers to put in its place; path data read letter by letter.

Nothing here is taken from the code that draws.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from copy import deepcopy
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

Point = tuple[float, float]
FIGURES = {"M": 2, "L": 2, "H": 1, "V": 1, "Q": 4, "Z": 0}


def read_drawings(markup: str) -> Element:
    """Return markup as XML, which proves it well formed, with each `use` drawn out."""
    page = ElementTree.fromstring(f"<page>{markup}</page>")
    named = {each.get("id", ""): each for each in page.iter() if each.get("id")}
    _draw_out(page, named)
    for parent in list(page.iter()):
        for child in [each for each in parent if each.tag == "defs"]:
            parent.remove(child)
    return page


def _draw_out(parent: Element, named: dict[str, Element]) -> None:
    """Put a copy of what is referred to in the place of each `use`, moved, in its attributes."""
    for at, child in enumerate(list(parent)):
        href = child.get("href", "").removeprefix("#")
        if child.tag == "use" and named.get(href) is not None and named[href].tag != "svg":
            parent[at] = _in_place(child, named[href])
        _draw_out(parent[at], named)


def _in_place(use: Element, shape: Element) -> Element:
    copy, by = deepcopy(shape), (float(use.get("x", "0")), float(use.get("y", "0")))
    copy.attrib.pop("id", None)
    for each in copy.iter():
        _move(each, by)
    own = {key: value for key, value in use.attrib.items() if key not in ("href", "x", "y")}
    copy.attrib |= own
    return copy


def _move(element: Element, by: Point) -> None:
    for keys, tags in ((("x", "y"), ("rect", "text", "use")), (("cx", "cy"), ("circle",))):
        if element.tag in tags:
            for key, more in zip(keys, by, strict=True):
                element.set(key, f"{float(element.get(key, '0')) + more:.1f}")
    if element.tag == "path":
        element.set("d", "".join(_said(letter, moved) for letter, moved in _moved(element, by)))


def _moved(path: Element, by: Point) -> Iterator[tuple[str, list[float]]]:
    for letter, figures in commands(path.get("d", "")):
        axes = (0.0, 0.0) if letter.islower() else by[1:] if letter == "V" else by
        yield letter, [figure + axes[at % len(axes)] for at, figure in enumerate(figures)]


def _said(letter: str, figures: list[float]) -> str:
    return letter + " ".join(f"{figure:.1f}" for figure in figures)


def commands(d: str) -> Iterator[tuple[str, list[float]]]:
    """Yield each letter with its figures, as often as there are figures for it."""
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", d):
        figures = [float(found) for found in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", rest)]
        count = FIGURES[letter.upper()]
        for at in range(0, max(len(figures), 1), count or 1):
            yield letter, figures[at : at + count]


def corners(d: str) -> list[list[Point]]:
    """Return the lines of a path, each as its corners: of a curve the point that pulls it, so
    that a rounded corner is where its two sides meet."""
    lines: list[list[Point]] = []
    x = y = 0.0
    for letter, figures in commands(d):
        left, top = (x, y) if letter.islower() else (0.0, 0.0)
        if letter in "Zz":
            continue
        if letter in "Hh":
            x = left + figures[0]
        elif letter in "Vv":
            y = top + figures[0]
        else:
            x, y = left + figures[-2], top + figures[-1]
        if letter in "Mm":
            lines.append([])
        if letter in "Qq":
            lines[-1].append((left + figures[0], top + figures[1]))
        else:
            lines[-1].append((x, y))
    return lines
