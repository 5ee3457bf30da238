"""A loom as it lies on the table, in millimetres: plugs, branches, cables, each joint in its place.

Every wire that something is done at has a lane, so that staggered joints are seen; what goes
through lies in one. Lengths along a lane are true to each other, to no scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from builder.model.parts import Loom
from builder.model.parts.loom import Branch
from builder.planning.harness.joint_list import WRAPPED
from builder.planning.harness.joint_places import BARREL_MM
from builder.planning.harness.rows import LoomCableRow, LoomJointRow, LoomSheet
from builder.planning.looms.conductors import Conductor, Terminal, conductors
from builder.rendering.drawings.canvas import Canvas
from builder.rendering.drawings.lettering import clip, wrap
from builder.rendering.drawings.loom_lane import (
    LEFT,
    RIGHT,
    SIZE,
    Lane,
    W,
    barrel,
    cavity,
    dot,
    label,
    length_at_end,
    mm,
    sleeve,
    upright,
    wire,
)
from builder.rendering.drawings.loom_said import (
    cable_said,
    from_unit_mm,
    joint_said,
    leaves_said,
    read_branch,
    read_out,
)
from builder.rendering.drawings.wire_colours import wire_words

BARE: Final = 28.0
CABLE: Final = 20.0
_HEAD: Final = 52.0


def loom_bench(sheet: LoomSheet, loom: Loom, key: str) -> tuple[Markup, ...]:
    """Return the drawings of one loom: its bundle, then each branch. `key` must be an id."""
    bundle, title = _Bench(sheet, loom), f"{sheet.loom} on the table, lengths in millimetres"
    bundle.draw_bundle()
    said = (
        " ".join(read_out(sheet, loom)),
        *(" ".join(read_branch(sheet, loom, each)) for each in loom.branches),
    )
    found = [bundle.canvas.svg((W, bundle.y), key, title, said[0], "lb-bench")]
    for at, branch in enumerate(loom.branches, 1):
        drawn = _Bench(sheet, loom)
        drawn.draw_branch(branch)
        name = f"{branch.name} of {sheet.loom}, lengths in millimetres"
        found.append(drawn.canvas.svg((W, drawn.y), f"{key}-{at}", name, said[at], "lb-bench"))
    return tuple(found)


class _Bench:
    """The drawing on its way, lane by lane from the top."""

    def __init__(self, sheet: LoomSheet, loom: Loom) -> None:
        self.sheet, self.loom, self.canvas, self.y = sheet, loom, Canvas(), _HEAD
        self.length_mm = None if sheet.length_m is None else 1000 * sheet.length_m
        self.bundle = Lane(self.length_mm)

        self.wires = {f"{each.start.shown} to {each.to.shown}": each for each in conductors(loom)}

    def draw_bundle(self) -> None:
        """The bundle and the cables that come to it."""
        self._head()
        rows = {row.wire: row for row in self.sheet.wires}
        through: dict[float | None, list[str]] = {}
        for name, row in rows.items():
            joints = [each for each in self.sheet.joints if each.wire == name and not each.branch]
            if not joints and row.doing == "through" and self._is_through(self.wires[name]):
                through.setdefault(row.length_m, []).append(name)
            else:
                self._lane(self.wires[name], joints, row.length_m)
        for length_m, names in through.items():
            self._through(names, length_m)
        self._cables([row for row in self.sheet.cables if not row.branch], self.bundle)
        self.y += 4

    def _is_through(self, one: Conductor) -> bool:
        return {one.start.place, one.to.place} == {self.sheet.unit_end, self.sheet.car_end}

    def _head(self) -> None:
        sheet, canvas = self.sheet, self.canvas
        canvas.text(6, 16, clip(sheet.unit_end, 200, 13), 13, bold=True)
        canvas.text(W - 6, 16, clip(sheet.car_end, 200, 13), 13, anchor="end", bold=True)
        said = "length: measure" if self.length_mm is None else f"{mm(self.length_mm)} back to back"
        canvas.text(W / 2, 16, said, 11, anchor="middle")
        y = 30.0
        canvas.line((LEFT, y), (RIGHT, y), "lb-line", 1)
        for x, words in (
            (LEFT, "0"),
            (RIGHT, "" if self.length_mm is None else mm(self.length_mm)),
        ):
            canvas.line((x, y - 4), (x, y + 4), "lb-line", 1)
            if words:
                canvas.text(x, y + 14, words, SIZE, anchor="middle")

    def _lane(self, one: Conductor, joints: Sequence[LoomJointRow], length_m: float | None) -> None:
        y, lane = self.y + 20, self.bundle
        words = wire_words(one.wire)
        left, right = (self._spot(one, end) for end in (self.sheet.unit_end, self.sheet.car_end))
        for spot, x in ((left, 6.0), (right, RIGHT)):
            if spot is not None:
                cavity(self.canvas, x, y, spot.cavity)
        turns = self._turns(one)
        start = LEFT if left else turns[0]
        stop = RIGHT if right else turns[-1]
        tips = [row for row in joints if row.cut_mm is not None]
        if tips:
            self._halves(y, words, tips)
        elif start < stop:
            wire(self.canvas, words, start, stop, y)
        self._elsewhere(one, y, stop if left else start)
        for at, row in enumerate(joints):
            self._joint(lane, row, y, at)
        length_at_end(self.canvas, y, length_m)
        self.y += BARE + 12 * max(0, len(joints) - 1)

    def _spot(self, one: Conductor, end: str) -> Terminal | None:
        return next((spot for spot in (one.start, one.to) if spot.place == end), None)

    def _turns(self, one: Conductor) -> list[float]:
        """Where a wire that is no wire from end to end leaves the bundle or meets a splice, from
        left to right."""
        lies = self.loom.lies_m
        places = [lies[spot.place] for spot in (one.start, one.to) if spot.place in lies]
        known = [from_unit_mm(self.sheet, self.loom, at) for at in places if at is not None]
        return sorted(self.bundle.x(at) for at in known) or [self.bundle.x(None)]

    def _elsewhere(self, one: Conductor, y: float, x: float) -> None:
        """Where a wire goes that does not end in both plugs: a splice, a branch, or from one to
        the other."""
        lies, said = self.loom.lies_m, []
        for spot in (one.start, one.to):
            if spot.place in lies:
                at_m = lies[spot.place]
                at = None if at_m is None else from_unit_mm(self.sheet, self.loom, at_m)
                dot(self.canvas, self.bundle.x(at), y)
                said.append(f"{spot.place}: {'measure' if at is None else mm(at)}")
        if said:
            label(self.canvas, x + 8, y - 9, f"{', to '.join(said)}, {wire_words(one.wire)}")

    def _halves(self, y: float, words: str, rows: Sequence[LoomJointRow]) -> None:
        """The two halves of a cut wire, each to its tip."""
        cut = rows[0].cut_mm or 0.0
        for row in rows:
            tip = self.bundle.x(row.tip_mm)
            if (row.tip_mm or 0.0) < cut:
                wire(self.canvas, words, LEFT, tip, y)
            else:
                wire(self.canvas, words, tip, RIGHT, y)

    def _joint(self, lane: Lane, row: LoomJointRow, y: float, number: int) -> None:
        """A joint of a lane: the words of the first stand above it, of the others below."""
        at = lane.x(row.tip_mm)
        low, high = (lane.x(each) for each in (row.sleeve_from_mm, row.sleeve_to_mm))
        if row.sleeve_from_mm is None:
            low, high = at - 10, at + 10
        wrapped = row.sleeve == WRAPPED
        sleeve(self.canvas, (low, high), y, row.number, closed=not row.joint, wrapped=wrapped)
        if row.joint and row.sleeve_from_mm is not None and row.sleeve_to_mm is not None:
            middle = (row.sleeve_from_mm + row.sleeve_to_mm) / 2
            half = BARREL_MM / 2
            barrel(self.canvas, (lane.x(middle - half), lane.x(middle + half)), y)
        if row.core and row.core_mm is not None and not row.branch:
            self._core(y, high, self._edge(row), above=not number)
        label(self.canvas, low, y + 8 + 11 * number if number else y - 9, joint_said(row))

    def _edge(self, row: LoomJointRow) -> float | None:
        """Where the jacket of a joint's core ends on the bundle; None: elsewhere, or unknown."""
        cable = next((each for each in self.sheet.cables if each.cable == row.cable), None)
        return None if cable is None or cable.branch else cable.edge_mm

    def _core(self, y: float, start: float, edge: float | None, *, above: bool) -> None:
        """A core on its way from its joint to its jacket, beside the wire."""
        if edge is not None and self.bundle.x(edge) > start:
            at = y - 6 if above else y + 6
            self.canvas.line((start, at), (self.bundle.x(edge), at), "lb-core", 1)

    def _through(self, names: Sequence[str], length_m: float | None) -> None:
        cavities = [name.split(" to ")[0].rpartition(".")[2] for name in names]
        said = f"{len(names)} go through, untouched: {', '.join(cavities)}"
        for words in wrap(said, RIGHT - LEFT - 16, SIZE):
            self.y += 12
            self.canvas.text(LEFT + 8, self.y, words, SIZE)
        wire(self.canvas, "unknown", LEFT, RIGHT, self.y + 8)
        length_at_end(self.canvas, self.y + 8, length_m)
        self.y += 20

    def _cables(self, rows: Sequence[LoomCableRow], lane: Lane) -> None:
        top = self.y
        for row in rows:
            y = self.y + CABLE / 2
            x = lane.x(row.edge_mm) if row.edge_mm is not None else RIGHT - 60
            self.canvas.rect((x, y - 5, W - 6 - x, 10), "lb-cable", 2)
            words = clip(cable_said(row), x - 16, SIZE)
            self.canvas.text(x - 8, y + 3, words, SIZE, anchor="end")
            self.y += CABLE
        edges = {row.edge_mm for row in rows if row.edge_mm is not None}
        for edge in edges:
            upright(self.canvas, lane.x(edge), top - 6, self.y - 5)

    def draw_branch(self, branch: Branch) -> None:
        """A branch, its wires and the cables that come to it."""
        self.canvas.text(6, 16, clip(branch.name, 240, 13), 13, bold=True)
        said = leaves_said(self.sheet, self.loom, branch)
        self.canvas.text(W - 6, 16, clip(said, 430, 11), 11, anchor="end")
        self.y = 28.0
        lane = Lane(None if branch.length_m is None else 1000 * branch.length_m, RIGHT - 40)
        for name, one in self.wires.items():
            if branch.name in (one.start.place, one.to.place):
                self._out(branch, name, one, lane)
        self._cables([row for row in self.sheet.cables if row.branch == branch.name], lane)
        self.y += 4

    def _out(self, branch: Branch, name: str, one: Conductor, lane: Lane) -> None:
        """One wire of a branch, from where it leaves to its end."""
        y = self.y + 20
        spot = one.start if one.start.place == branch.name else one.to
        rows = [each for each in self.sheet.joints if each.wire == name and each.branch]
        tips = [row.tip_mm for row in rows if row.tip_mm is not None]
        stop = lane.x(tips[0]) if tips else lane.right
        wire(self.canvas, wire_words(one.wire), LEFT, stop, y)
        if spot.cavity:
            cavity(self.canvas, stop, y, spot.cavity)
        self.canvas.text(6, y + 17, clip(f"from {one.other(spot).shown}", 250, SIZE), SIZE)
        for at, row in enumerate(rows):
            self._joint(lane, row, y, 2 * at)
        long = next((row.length_m for row in self.sheet.wires if row.wire == name), None)
        length_at_end(self.canvas, y, long)
        self.y += BARE + 12 + 22 * max(0, len(rows) - 1)
