"""The right of the picture drawn: amplifiers, what leads from them, speakers."""

from __future__ import annotations

from itertools import takewhile

from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.wiring.canvas_marks import lay
from builder.rendering.drawings.wiring.coils_drawn import COILS_AT, coil_stack, draw_coils
from builder.rendering.drawings.wiring.crossovers_drawn import draw_crossover
from builder.rendering.drawings.wiring.frame import Columns, out_name, speaker_words, wire_name
from builder.rendering.drawings.wiring.inside_box import NOT_CHOSEN
from builder.rendering.drawings.wiring.lane_drawn import (
    draw_jackets,
    draw_spare,
    draw_speaker,
    spans,
)
from builder.rendering.drawings.wiring.loads_drawn import hung_edges
from builder.rendering.drawings.wiring.out_lanes import OutLane
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.right_side import INSIDE_PITCH, UNCHOSEN, Device, RightSide
from builder.rendering.drawings.wiring.scene import TITLE, Frame, FrameKind, Scene

SPEAKER_R = 17.0


def draw_right(scene: Scene, reading: Reading, side: RightSide, cols: Columns) -> None:
    """Draw every device, every lane to its right, every speaker."""
    for device in side.switched:
        _device(scene, device, cols)
        for lane in device.outs:
            _out_lane(scene, reading, lane, cols)
        for name in device.crossovers:
            outs = {lane.strand.way[0]: lane.y for lane in device.outs
                    if lane.strand and lane.crossover == name}  # fmt: skip
            draw_crossover(scene, reading, name, outs, cols.crossover, cols.amplifier[1])
        found = spans([(lane.jacket, lane.y) for lane in device.outs])
        draw_jackets(scene, reading, cols.out_jacket, found, leftwards=False)
    for lane in side.silent:
        _silent(scene, reading, lane, cols)
    _speakers(scene, reading, side, cols)


def _device(scene: Scene, device: Device, cols: Columns) -> None:
    left, right = hung_edges(device, cols)
    kind: FrameKind = "unit" if device.unit.kind == "amplifier" else "driver"
    box = (left, device.top, right - left, device.bottom - device.top)
    scene.frames.append(Frame(kind, box, (device.unit.id,), device.unit.id))
    y = device.top + (38 if kind == "unit" else 17)
    x = (left + right) / 2
    scene.say(device.unit.id, x, y, size=TITLE, anchor="middle", bold=True)
    if device.unit.is_unchosen:
        scene.say(NOT_CHOSEN, x, y + UNCHOSEN, anchor="middle")
    for at, (terminal, words) in enumerate(device.inside):
        y = device.inside_y + INSIDE_PITCH * at
        scene.mark("dot", (left + 12, y), terminal)
        scene.say(words, left + 20, y + 4)


def _out_lane(scene: Scene, reading: Reading, lane: OutLane, cols: Columns) -> None:
    if lane.spare is not None:
        draw_spare(scene, lane.spare, cols.out_jacket, lane.y)
        return
    strand = lane.strand
    assert strand is not None
    start, y = strand.way[0], lane.y
    coils = coil_stack(reading, lane.speaker)
    left, right = (
        cols.crossover[1] if lane.crossover else cols.amplifier[1],
        (cols.speaker - SPEAKER_R if coils is None else cols.speaker + COILS_AT),
    )
    scene.mark("screw", (left, y), start, strand.way[1])
    name = reading.index.terminals[start].name
    scene.say(name, left - 9, y + 4, anchor="end")
    own, *car = reading.wires_in(strand)
    loom = car.pop(0) if car and car[0].loom else None
    middle = sum(cols.out_jacket) / 2 if car else (left + right) / 2
    end = (cols.out_joint, y) if car else (right, y)
    lay(scene, own, (left, y), end, name=out_name(reading, strand), at=(middle, y))
    if car:
        home = end if loom is None else (cols.out_home, y)
        lay(scene, car[0], home, (right, y), name=wire_name(car[0]), at=(cols.out_name, y))
        if loom is not None:
            _through_plug(scene, reading, strand, loom, (end, home))
        scene.mark("sleeve", end, strand.way[3])
    if coils is None:
        _at_speaker(scene, strand, (right, y))


def _through_plug(
    scene: Scene, reading: Reading, strand: Strand, loom: CircuitWire, ends: tuple[Point, Point]
) -> None:
    """A loom's wire from the joint to where the car's plug takes it."""
    (x, y), (to, _) = ends
    lay(scene, loom, *ends, name=wire_name(loom), at=((x + to) / 2, y))
    scene.mark("home", ends[1], *home_ids(reading, strand, loom))


def home_ids(reading: Reading, strand: Strand, loom: CircuitWire) -> tuple[str, ...]:
    """What is one at the plug behind a loom's wire: cavities, joints, the plug itself."""
    way = strand.way
    at = way.index(loom.id) + 1
    found = tuple(takewhile(lambda each: each not in reading.index.wires, way[at:]))
    plugs = [reading.index.unit_of(each).id for each in found if each in reading.index.terminals]
    return (*found, *plugs)


def _at_speaker(scene: Scene, strand: Strand, at: Point) -> None:
    scene.mark("contact", at, strand.way[-1], strand.way[-2])


def _silent(scene: Scene, reading: Reading, lane: OutLane, cols: Columns) -> None:
    """A speaker that nothing feeds any more: its wire is closed off."""
    assert lane.strand is not None
    wire = reading.wires_in(lane.strand)[0]
    start, end = (cols.out_joint, lane.y), (cols.speaker - SPEAKER_R, lane.y)
    lay(scene, wire, start, end, name=wire_name(wire), at=(cols.out_name, lane.y))
    scene.mark("cap", start, open_end=wire.ends[0])
    scene.say("closed off", start[0] - 10, lane.y + 4, anchor="end")
    _at_speaker(scene, lane.strand, end)


def _speakers(scene: Scene, reading: Reading, side: RightSide, cols: Columns) -> None:
    heights: dict[str, list[float]] = {}
    for lane in side.outs:
        if lane.speaker:
            heights.setdefault(lane.speaker, []).append(lane.y)
    for unit, found in heights.items():
        coils = coil_stack(reading, unit)
        if coils is not None:
            draw_coils(scene, reading, coils, (cols.speaker + COILS_AT, min(found)), 1)
            continue
        middle = (min(found) + max(found)) / 2
        draw_speaker(scene, unit, (cols.speaker, middle), SPEAKER_R)
        lines = speaker_words(reading.index.units[unit])
        x, y = cols.speaker + SPEAKER_R + 8, middle + 4 - 6.5 * (len(lines) - 1)
        for at, line in enumerate(lines):
            scene.say(line, x, y + 13 * at, bold=at + 1 == len(lines))
