"""Names and sizes beside wires that have no room for them: places are looked for when all is drawn.

The place is the first of those along the wire that is free: below or above a level stretch, from
its name outwards, else beside an upright one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain, pairwise

from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.canvas import Anchor, Box, Point
from builder.rendering.drawings.wiring.canvas_marks import part_width
from builder.rendering.drawings.wiring.frame import sized
from builder.rendering.drawings.wiring.reading import Reading, is_there
from builder.rendering.drawings.wiring.scene import FrameKind, Run, Scene, Words

NEAR = 24.0
"""How far from a wire what it is made of may stand, and still be read as its own."""
BELOW, ABOVE, ASIDE = 17.5, -9.5, 9.0
STEP, CLEAR, WIRE = 12.0, 2.0, 4.0
SOLID: tuple[FrameKind, ...] = ("unit", "driver", "battery", "speaker", "body")


def name_beside(scene: Scene, reading: Reading, housings: Iterable[Box], width: float) -> None:
    """Name each single wire, and say what it is made of, where nothing near it says so."""
    taken, mates = _Taken(scene, list(housings), width), set[str]()
    for run in list(scene.runs):
        wire = reading.index.wires.get(run.ids[0]) if run.ids else None
        if wire is None or not is_single(wire) or wire.carries == "line":
            continue
        if not _is_said(scene, run, wire.id) and not _is_said(scene, run, wire.purpose):
            name = _free(run, sized(wire), taken) or _free(run, wire.id, taken)
            scene.words += [name] if name else []
        if wire.size is None or wire.id in mates or _is_said(scene, run, wire.size.words):
            continue
        place = _free(run, wire.size.words, taken)
        if place is not None:
            scene.words.append(place)
            mates |= {wire.mate} if wire.mate else set()


def _is_said(scene: Scene, run: Run, text: str) -> bool:
    return any(f" {text}" in f" {words.text}" and _reaches(run, words.box)
               for words in scene.words)  # fmt: skip


def _free(run: Run, text: str, taken: _Taken) -> Words | None:
    """Return the first place along a wire that is free, or None."""
    return next((each for each in _places(run, text) if taken.free(each, run)), None)


def is_single(wire: CircuitWire) -> bool:
    """Whether a wire lies by itself: a jacket, a loom and the car's plug say it of all theirs."""
    return not is_there(wire) and not wire.cable


def _reaches(run: Run, box: Box) -> bool:
    x, y, wide, high = box
    return any(_meets(pair, (x - NEAR, y - NEAR, wide + 2 * NEAR, high + 2 * NEAR))
               for pair in pairwise(run.points))  # fmt: skip


def _places(run: Run, text: str) -> Iterator[Words]:
    pairs = sorted(pairwise(run.points), key=lambda pair: (not _named(run, pair), -_length(pair)))
    level = [pair for pair in pairs if pair[0][1] == pair[1][1]]
    for (x1, y), (x2, _) in level:
        named = [cut[0] + cut[2] / 2 for cut in run.cuts if cut[1] < y < cut[1] + cut[3]]
        middle = named[0] if named else (x1 + x2) / 2
        for x in _outwards(middle, min(x1, x2), max(x1, x2)):
            yield from (Words(text, (x, y + dy), anchor="middle") for dy in (BELOW, ABOVE))
    for (x, y1), (_, y2) in (pair for pair in pairs if pair not in level):
        sides: tuple[tuple[float, Anchor], ...] = ((x + ASIDE, "start"), (x - ASIDE, "end"))
        for y in _outwards((y1 + y2) / 2, min(y1, y2) + 12, max(y1, y2) - 6):
            yield from (Words(text, (at, y), anchor=anchor) for at, anchor in sides)


def _named(run: Run, pair: tuple[Point, Point]) -> bool:
    """Whether a name interrupts a stretch."""
    return any(_meets(pair, cut) for cut in run.cuts)


def _outwards(middle: float, low: float, high: float) -> Iterator[float]:
    """Yield a middle, then places on both sides of it, as far as the wire reaches."""
    yield middle
    for at in range(1, int((high - low) / STEP) + 1):
        yield from (each for each in (middle - at * STEP, middle + at * STEP) if low < each < high)


class _Taken:
    """What is drawn already, and leaves no room."""

    def __init__(self, scene: Scene, housings: list[Box], width: float) -> None:
        self.scene, self.width = scene, width
        self.solid = [frame.box for frame in scene.frames if frame.kind in SOLID]
        marks = [(x - 7, y - 7, 14.0, 14.0) for x, y in (mark.at for mark in scene.marks)]
        parts = [_part_box(part.at, part.words) for part in scene.parts]
        self.boxes = [*housings, *marks, *parts]
        self.stretches = [pair for run in scene.runs for pair in pairwise(run.points)]
        self.said: list[Box] = []

    def free(self, words: Words, run: Run) -> bool:
        """Whether a line of text meets nothing there; only what runs in a box is named in it."""
        x, y, wide, high = words.box
        box = (x - CLEAR, y - CLEAR, wide + 2 * CLEAR, high + 2 * CLEAR)
        if x < CLEAR or x + wide > self.width - CLEAR or y < CLEAR:
            return False
        if any(_over(box, each) for each in chain(self.boxes, self._said())):
            return False
        met = (each for each in self.solid if _over(box, each))
        if any(not self._is_inside(words, run, each) for each in met):
            return False
        wires = (x - WIRE, y - WIRE, wide + 2 * WIRE, high + 2 * WIRE)
        return not any(_meets(pair, wires) for pair in self.stretches)

    def _said(self) -> list[Box]:
        """Where words stand by now: each line is measured once."""
        self.said += [each.box for each in self.scene.words[len(self.said) :]]
        return self.said

    @staticmethod
    def _is_inside(words: Words, run: Run, solid: Box) -> bool:
        return _within(words.box, solid) and all(_at(p, solid) for p in run.points)


def _part_box(at: Point, words: str) -> Box:
    wide, high = (part_width(words), 15.0) if words else (28.0, 24.0)
    return at[0] - wide / 2, at[1] - high / 2, wide, high


def _length(pair: tuple[Point, Point]) -> float:
    (x1, y1), (x2, y2) = pair
    return abs(x1 - x2) + abs(y1 - y2)


def _at(point: Point, box: Box) -> bool:
    return box[0] <= point[0] <= box[0] + box[2] and box[1] <= point[1] <= box[1] + box[3]


def _within(inner: Box, outer: Box) -> bool:
    x, y, wide, high = inner
    return _at((x - CLEAR, y - CLEAR), outer) and _at((x + wide + CLEAR, y + high + CLEAR), outer)


def _over(one: Box, other: Box) -> bool:
    return (one[0] < other[0] + other[2] and other[0] < one[0] + one[2]
            and one[1] < other[1] + other[3] and other[1] < one[1] + one[3])  # fmt: skip


def _meets(pair: tuple[Point, Point], box: Box) -> bool:
    (x1, y1), (x2, y2) = pair
    x, y, wide, high = box
    return (min(x1, x2) < x + wide and x < max(x1, x2) + 0.01
            and min(y1, y2) < y + high and y < max(y1, y2) + 0.01)  # fmt: skip
