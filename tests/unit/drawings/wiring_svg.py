"""A wiring picture read back from its SVG: what it shows, where its lines run, where words stand.

Nothing here is taken from the code that draws: paths and boxes are measured in the written file.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise
from xml.etree import ElementTree

from drawing_samples import Box, text_boxes
from svg_paths import Point, corners, read_drawings

Segment = tuple[Point, Point]
THICK = 6.4  # of most wires, over all
PLATES = {"lb-part-fuse", "lb-part-resistor", "lb-mark-slot", "lb-frame-driver"}


@dataclass(frozen=True)
class Line:
    """A wire as drawn: what it shows and its straight stretches."""

    shows: str
    stretches: tuple[Segment, ...]  # as if no name interrupted it
    seen: tuple[Segment, ...]  # what is left beside the names


class Drawn:
    """One picture."""

    def __init__(self, markup: str) -> None:
        *_, self.svg = read_drawings(markup).iter("svg")

    def shown(self) -> set[str]:
        """Every piece of the circuit that an element says it shows."""
        return {each for group in self.svg.iter() for each in shows(group) if each}

    def opened(self) -> set[str]:
        return {each.get("data-open", "") for each in self.svg.iter()} - {""}

    def group_of(self, name: str) -> ElementTree.Element:
        """The wire that shows a piece."""
        return next(
            group for group in self.svg.iter("g")
            if name in shows(group) and "lb-link" in group.get("class", "")
        )  # fmt: skip

    def leads(self, name: str) -> tuple[Point, Point]:
        """Where a part stands, and which way it leads from its first lead to its second."""
        group = next(g for g in self.svg.iter("g") if name in shows(g))
        turn = next(g.get("transform", "") for g in group.iter("g") if g.get("transform"))
        angle, x, y = map(float, turn.removeprefix("rotate(").removesuffix(")").split(" "))
        return (x, y), {90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}[angle]

    def colours(self, name: str) -> list[str]:
        """Base colour and stripe of a wire as drawn; none of a wire drawn pale."""
        return [
            path.get("stroke", "") for path in self.group_of(name).iter("path")
            if path.get("class") in ("lb-run", "lb-run-stripe")
        ]  # fmt: skip

    def lines(self) -> list[Line]:
        """Every wire and every lead of a part."""
        found = []
        for element in self.svg.iter():
            if element.tag == "g" and "lb-link" in element.get("class", ""):
                found.append(_line("|".join(shows(element)), next(element.iter("path"))))
        return found

    def words(self) -> list[tuple[str, Box]]:
        """Every line of text that is read where the picture is large."""
        inside = {id(text) for badge in self._badges() for text in badge.iter("text")}
        kept = [text for text in self.svg.iter("text") if id(text) not in inside]
        boxes = text_boxes(self.svg)
        every = list(self.svg.iter("text"))
        return [box for text, box in zip(every, boxes, strict=True) if text in kept]

    def sizes(self) -> list[float]:
        """The size of each line of text, its own or that of the group it stands in."""
        groups = [each for each in self.svg.iter() if each.get("font-size")]
        return [float(each.get("font-size", "nan")) for each in groups if each.findall(".//text")
                or each.tag == "text"]  # fmt: skip

    def _badges(self) -> list[ElementTree.Element]:
        return [g for g in self.svg.iter("g") if g.get("class") == "lb-badge"]

    def plates(self) -> list[Box]:
        """What covers the wires below it and has words on it."""
        return [
            (float(r.get("x", 0)), float(r.get("y", 0)), float(r.get("width", 0)),
             float(r.get("height", 0)))
            for r in self.svg.iter("rect") if r.get("class") in PLATES
        ]  # fmt: skip

    @property
    def size(self) -> Point:
        _, _, width, height = map(float, self.svg.get("viewBox", "").split())
        return width, height


def shows(element: ElementTree.Element) -> list[str]:
    """The pieces of the circuit that an element names; a title alone is the name of one piece."""
    if element.tag != "g":
        return element.get("data-id", "").split("|")
    return element.get("data-id", element.findtext("title") or "").split("|")


def _line(shows: str, path: ElementTree.Element) -> Line:
    """A wire from one of its paths, all alike; names interrupt it, and it goes on behind them."""
    lines = corners(path.get("d", ""))
    seen = tuple(stretch for line in lines for stretch in _stretches(line))
    return Line(shows, _stretches([point for line in lines for point in line]), seen)


def _stretches(route: list[Point]) -> tuple[Segment, ...]:
    """The straight stretches from corner to corner."""
    return tuple((a, b) for a, b in pairwise(route) if a != b)


def crossings(lines: list[Line]) -> list[tuple[str, str]]:
    """Pairs of wires of which a level stretch passes an upright one, each as often as it does."""
    return [
        (one.shows, other.shows)
        for one, other in combinations(lines, 2)
        for a in one.stretches
        for b in other.stretches
        if _passes(a, b) or _passes(b, a)
    ]


def _passes(flat: Segment, tall: Segment) -> bool:
    (x1, y1), (x2, y2) = flat
    (x3, y3), (x4, y4) = tall
    if y1 != y2 or x3 != x4:
        return False
    return min(x1, x2) + 1 < x3 < max(x1, x2) - 1 and min(y3, y4) + 1 < y1 < max(y3, y4) - 1


def on_each_other(lines: list[Line]) -> list[tuple[str, str]]:
    """Pairs of wires that run along each other nearer than they are thick."""
    return [
        (one.shows, other.shows)
        for one, other in combinations(lines, 2)
        for a in one.stretches
        for b in other.stretches
        if one.shows and other.shows and _beside(a, b)
    ]


def _beside(a: Segment, b: Segment) -> bool:
    for axis in (0, 1):
        if a[0][axis] == a[1][axis] and b[0][axis] == b[1][axis]:
            along = 1 - axis
            near = max(min(a[0][along], a[1][along]), min(b[0][along], b[1][along]))
            far = min(max(a[0][along], a[1][along]), max(b[0][along], b[1][along]))
            return abs(a[0][axis] - b[0][axis]) < THICK and far - near > 3
    return False


def struck(drawn: Drawn) -> list[tuple[str, str]]:
    """Words that a wire runs through, but for those on a plate that covers it."""
    plates = drawn.plates()
    return [
        (words, line.shows)
        for words, box in drawn.words()
        if not any(_covers(plate, box) for plate in plates)
        for line in drawn.lines()
        if any(_meets(stretch, box) for stretch in line.seen)
    ]


def _covers(plate: Box, box: Box) -> bool:
    """Whether the middle of a word is on a plate."""
    x, y = box[0] + box[2] / 2, box[1] + box[3] / 2
    return plate[0] <= x <= plate[0] + plate[2] and plate[1] <= y <= plate[1] + plate[3]


def _meets(stretch: Segment, box: Box) -> bool:
    """Whether the middle of a wire comes into the letters of a line of text."""
    (x1, y1), (x2, y2) = stretch
    x, y, w, h = box
    return (
        min(x1, x2) < x + w - 1 and x + 1 < max(x1, x2) + 0.01 and
        min(y1, y2) < y + h - 1 and y + 1 < max(y1, y2) + 0.01
    )  # fmt: skip
