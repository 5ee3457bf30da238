"""Pieces for a phone: one side of a plug, its wires straight to the converter.

Wires that leave a plug upwards are drawn with the plug below, those that leave it downwards with
the plug above: the plug is never turned.
"""

from __future__ import annotations

from itertools import groupby

from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.behind_loom import at_plug, wire_before
from builder.rendering.drawings.wiring.blocks import Lane
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, put_part
from builder.rendering.drawings.wiring.frame import home_of, speaker_words, wire_name
from builder.rendering.drawings.wiring.housing_drawn import housing_drawn
from builder.rendering.drawings.wiring.lane_drawn import draw_speaker
from builder.rendering.drawings.wiring.plug_steps import PlugSteps
from builder.rendering.drawings.wiring.reading import Strand, is_there
from builder.rendering.drawings.wiring.scene import TITLE, Frame, Run, Scene
from builder.rendering.drawings.wiring.upright import (
    LINE,
    SIDE,
    SIZE,
    WIDTH,
    draw_idle,
    draw_stretch,
    folded,
    names_height,
    terminal_room,
    write_names,
    write_terminals,
)


class PlugPiece(PlugSteps):
    """Draws some lanes of one side of a source; `up`: the source is below its wires."""

    def draw(self) -> tuple[Scene, float]:
        """Return the scene and its height."""
        names = [self._terminal(s) for s in self.strands]
        room = 28.0 + terminal_room([n for n in names if n], self.pitch)
        high = self.block.shape.height if self.block.shape else 30.0
        if self.up:
            self.edge = room + 2
            self.base = self.edge + self.t_end
            self.source = self.base
            bottom = self.base + high + 34
        else:
            self.source = 30.0
            self.base = self.source + high
            self.edge = self.base + self.t_end
            bottom = self.edge + room + 2
        self._source(high)
        self._lanes()
        self._units(names, room)
        jackets = {lane.jacket for lane in self.lanes}
        return self.scene, draw_idle(self.scene, self.reading, jackets, bottom)

    def _source(self, high: float) -> None:
        unit, shape = self.block.unit, self.block.shape
        place = home_of(self.reading, unit)
        where = "" if unit.id.startswith(place) else f", in the {place}"
        said = f"{unit.id}{where}: wires side" if shape else unit.id
        y = self.source + high + 24 if self.up else 16.0
        y = self.source + 20 if shape is None else y
        self.scene.say(said, WIDTH / 2, y, size=SIZE, anchor="middle", bold=True, ids=(unit.id,))
        if shape is None:
            box = (WIDTH / 2 - 60, self.source, 120.0, high)
            self.scene.frames.append(Frame("unit", box, (unit.id,), unit.id))
            return
        self.block.top = self.source
        mine = {lane.exit.cavity for lane in self.lanes if lane.exit}
        housing_drawn(self.scene, self.reading, self.block, (WIDTH - shape.width) / 2, mine)

    def _lanes(self) -> None:
        first = self._names(self.firsts, self.t_name)
        second = self._names(self.seconds, self.t_second)
        for at, lane in enumerate(self.lanes):
            self._lane(at, lane, self.levels[at], first[at], second[at])
        self._kept()
        self._across()

    def _names(self, names: list[str], t: float) -> list[tuple[float, float, float, float] | None]:
        said = self._named(names)
        high = names_height(said, self.pitch)
        boxes = iter(write_names(self.scene, said, self._top(t, high), self.pitch))
        return [next(boxes) if name else None for name in names]

    def _start(self, at: int, lane: Lane, level: float) -> list[Point]:
        shape, x, out = self.block.shape, self.xs[at], self.exits[at]
        if shape is None or lane.exit is None:
            return [(x, self.base)]
        cavity = shape.of(lane.exit.cavity)
        left = (WIDTH - shape.width) / 2
        start, y = (left + cavity.x, self.source + cavity.y), self.y(level)
        return [start, (out, start[1]), (out, y), (x, y)]

    def _lane(self, at: int, lane: Lane, level: float, first, second) -> None:  # type: ignore[no-untyped-def]
        strand, x = lane.strand, self.xs[at]
        assert strand is not None
        start, joint = self._start(at, lane, level), (x, self.y(self.t_joint))
        car = next((w for w in self.reading.wires_in(strand) if is_there(w)), None)
        if lane.kept:
            car = wire_before(self.reading, lane.kept) or self.reading.wires_in(lane.kept)[0]
        terminal = self.reading.index.terminals[strand.way[0]]
        if car is not None:
            draw_stretch(self.scene, car, *start, joint, cut=first)
        else:
            lay_bare(self.scene, *start, joint, wire=terminal.wire, cut=first)
        if self.block.shape is None:
            self.scene.mark("screw", start[0], terminal.id)
        own = self._own(strand)
        if own is None:
            self._closed(car, joint)
        else:
            self._onward(strand, own, joint, second)

    def _closed(self, car: CircuitWire | None, at: Point) -> None:
        ends = {each.end for each in self.reading.circuit.open_ends}
        closed = next((e for e in car.ends if e in ends), "") if car else ""
        if closed:
            self.scene.mark("cap", at, open_end=closed)

    def _onward(self, strand: Strand, own: CircuitWire, joint: Point, cut) -> None:  # type: ignore[no-untyped-def]
        index, x = self.reading.index, joint[0]
        at = strand.way.index(own.id)
        before = [each for each in strand.way[:at] if each in index.joints]
        fuse = next((each for each in strand.way[:at] if each in index.elements), None)
        met = before[-2] if fuse else before[-1]
        self.scene.mark("tap" if index.joints[met].kind == "tap" else "upsleeve", joint, met)
        start = joint
        if fuse:
            start = (x, self.y(self.t_fuse + 26))
            lay_bare(self.scene, joint, start)
            put_part(self.scene, "fuse", x, self.y(self.t_fuse + 10), fuse,
                     index.elements[fuse].rating)  # fmt: skip
            self.scene.mark("dot", start, before[-1])
        end = self._behind(strand, strand.way[at + 1 :], x)
        draw_stretch(self.scene, own, start, end, cut=cut)

    def _behind(self, strand: Strand, way: tuple[str, ...], x: float) -> Point:
        """A pad, a diode or a driver before the terminal; returns where the wire ends."""
        index, edge = self.reading.index, (x, self.edge)
        self.scene.mark("screw", edge, way[-1], way[-2])
        parts = [index.elements[each] for each in way if each in index.elements]
        driver = [each for each in way if each in index.terminals][:-1]
        if not parts and not driver:
            return edge
        end = (x, self.y(self.t_part))
        lay_bare(self.scene, end, edge)
        self.scene.mark("dot", end, way[0])
        middle = (end[1] + edge[1]) / 2
        if parts:
            words = "" if parts[0].kind == "diode" else "\n".join(folded(parts[0].rating, 60))
            put_part(self.scene, parts[0].kind, x, middle, parts[0].id, words,
                     upright=True)  # fmt: skip
        else:
            self._driver(x, middle, driver)
        return end

    def _driver(self, x: float, y: float, ends: list[str]) -> None:
        unit = self.reading.index.unit_of(ends[0]).id
        lines = folded(unit, self.pitch - 4)
        high = LINE * len(lines) + 4
        box = (x - self.pitch / 2 + 2, y - high / 2, self.pitch - 4, high)
        self.scene.frames.append(Frame("driver", box, (unit, *ends), unit))
        for row, line in enumerate(lines):
            self.scene.say(line, x, y - high / 2 + 12 + LINE * row, size=SIZE, anchor="middle")

    def _kept(self) -> None:
        """The speakers of wires that stay whole, between their two taps."""
        where = {s.name: at for at, s in enumerate(self.strands)}
        for at, lane in enumerate(self.lanes):
            if lane.kept is None or lane.strand is None:
                continue
            mate = where.get(lane.strand.mate or "", at)
            middle, y = (self.xs[at] + self.xs[mate]) / 2, self.y(self.t_joint)
            edge = middle + (-9.0 if self.xs[at] < middle else 9.0)
            if wire_before(self.reading, lane.kept) is None:
                self._to_speaker(lane.kept, self.xs[at], edge, y)
            else:
                self._from_plug(lane.kept, self.xs[at], edge, y)
            unit = self.reading.index.unit_of(lane.kept.way[-1])
            if unit.id not in self.scene.shown:
                draw_speaker(self.scene, unit.id, (middle, y), 9.0, unit.kind)
                lines = [*speaker_words(unit), *self._behind_plugs(unit.id)]
                top = self._top(self.t_joint + 12, LINE * len(lines))
                for row, line in enumerate(lines):
                    self.scene.say(line, middle, top + 10 + LINE * row, size=SIZE,
                                   anchor="middle")  # fmt: skip

    def _to_speaker(self, kept: Strand, x: float, edge: float, y: float) -> None:
        for at, run in enumerate(self.scene.runs):
            if run.points[-1] == (x, y) and set(run.ids) & set(kept.way):
                self.scene.runs[at] = Run(run.ids, (*run.points, (edge, y)), run.kind, run.carries,
                                          run.wire, run.cuts, run.title)  # fmt: skip
        self.scene.mark("contact", (edge, y), kept.way[-1], kept.way[-2])

    def _from_plug(self, kept: Strand, x: float, edge: float, y: float) -> None:
        """Behind a loom: its wire goes on to the car's plug, and from there the car's own."""
        loom, wire = wire_before(self.reading, kept), self.reading.wires_in(kept)[0]
        assert loom is not None
        home = ((x + edge) / 2, y)
        lay(self.scene, loom, (x, y), home)
        lay(self.scene, wire, home, (edge, y))
        self.scene.mark("home", home, *at_plug(self.reading, kept))
        self.scene.mark("contact", (edge, y), kept.way[-1], kept.way[-2])

    def _behind_plugs(self, speaker: str) -> list[str]:
        """The car's own wires to a speaker behind a loom's plug, in lines that fit between taps."""
        index, kept = self.reading.index, [lane.kept for lane in self.lanes if lane.kept]
        wires = [self.reading.wires_in(each)[0] for each in kept
                 if index.unit_of(each.way[-1]).id == speaker
                 and wire_before(self.reading, each)]  # fmt: skip
        return [line for wire in wires for line in folded(wire_name(wire), self.pitch - 14)]

    def _across(self) -> None:
        """Stand-in loads, beside the joints that hold them."""
        where = {each: x for s, x in zip(self.strands, self.xs, strict=True) for each in s.way}
        y = self.y(self.t_joint)
        for part, rating, one, other in self._stand_ins():
            left, right = sorted((where[one], where[other]))
            lay_bare(self.scene, (left, y), (right, y), carries="speaker_level")
            put_part(self.scene, "resistor", (left + right) / 2, y, part, "")
            lines = folded(rating, right - left - 10)
            top = self._top(self.t_joint + 8, LINE * len(lines))
            for row, line in enumerate(lines):
                self.scene.say(line, (left + right) / 2, top + 10 + LINE * row, size=SIZE,
                               anchor="middle")  # fmt: skip

    def _terminal(self, strand: Strand) -> str:
        if self._own(strand) is None:
            return ""
        return self.reading.index.terminals[strand.way[-1]].name

    def _units(self, names: list[str], room: float) -> None:
        """The units at the far ends, each over its own lanes."""
        top = 2.0 if self.up else self.edge
        spots = [
            (x, name, s) for x, name, s in zip(self.xs, names, self.strands, strict=True) if name
        ]
        for unit, found in groupby(
            spots, key=lambda e: self.reading.index.unit_of(e[2].way[-1]).id
        ):
            lanes = list(found)
            aside = max(self.pitch / 2 - 2, 46.0)
            if len(lanes) == len(spots):
                aside = max(aside, text_width(unit, TITLE) / 2 + 12)
            left = max(SIDE, lanes[0][0] - aside)
            right = min(WIDTH - SIDE, lanes[-1][0] + aside)
            self.scene.frames.append(Frame("unit", (left, top, right - left, room), (unit,), unit))
            write_terminals(self.scene, [(x, n) for x, n, _ in lanes], self.edge, self.pitch,
                            above=self.up)  # fmt: skip
            y = top + 18 if self.up else top + room - 8
            self.scene.say(unit, (left + right) / 2, y, size=TITLE, anchor="middle", bold=True)
