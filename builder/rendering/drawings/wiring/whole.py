"""The whole wiring picture: every piece of a job's circuit, laid out from left to right."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.planning.circuit.model import Circuit
from builder.rendering.drawings.canvas import Box, Canvas, Point, identifier
from builder.rendering.drawings.wiring.badges import put_badges
from builder.rendering.drawings.wiring.battery_place import batteries
from builder.rendering.drawings.wiring.blocks import Lane, LeftSide
from builder.rendering.drawings.wiring.converter_box import Converter, converter_box
from builder.rendering.drawings.wiring.frame import Columns, columns
from builder.rendering.drawings.wiring.ground_drawn import GroundDrawn
from builder.rendering.drawings.wiring.left_drawn import LeftDrawn
from builder.rendering.drawings.wiring.left_side import Housings, left_side
from builder.rendering.drawings.wiring.lines_drawn import LinesDrawn
from builder.rendering.drawings.wiring.link_drawn import LinkDrawn
from builder.rendering.drawings.wiring.loads_drawn import LoadsDrawn, place_hung
from builder.rendering.drawings.wiring.loom_drawn import draw_looms
from builder.rendering.drawings.wiring.middle_drawn import (
    ChainDrawn,
    draw_converter,
    draw_hold_up,
)
from builder.rendering.drawings.wiring.named_beside import name_beside
from builder.rendering.drawings.wiring.open_room import make_open_room
from builder.rendering.drawings.wiring.paint import paint
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.rest_drawn import draw_rest
from builder.rendering.drawings.wiring.right_drawn import draw_right
from builder.rendering.drawings.wiring.right_side import RightSide, right_side
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.supply_drawn import SupplyDrawn

TOP = 98.0  # of the uppermost device: above it runs the supply
LANES_TOP = 122.0
LARGEST = (1400.0, 850.0)
"""Width and height from which words fall under 6 pt on A4 or Letter: 285 mm by 172 mm are left."""


@dataclass(slots=True)
class Laid:
    """A picture laid out: its scene and its size."""

    scene: Scene
    width: float
    height: float


def paint_whole(laid: Laid, *, traced: bool) -> str:
    """Return what is in the picture of a circuit that is laid out, as markup."""
    canvas = Canvas()
    paint(canvas, laid.scene, "w", traced=traced)
    return canvas.inner


def named_whole(painted: str, laid: Laid, circuit: Circuit, title: str) -> Markup:
    """Return the picture that was painted, named."""
    canvas, name = Canvas(), f"wiring of {title}"
    canvas.add(painted)
    return canvas.svg((laid.width, laid.height), identifier("wiring"), name, _told(circuit),
                      "lb-wiring")  # fmt: skip


def fits_paper(laid: Laid) -> bool:
    """Whether the words of a whole picture can be read on one printed page that lies."""
    return laid.width <= LARGEST[0] and laid.height <= LARGEST[1]


def _told(circuit: Circuit) -> str:
    units = ", ".join(unit.id for unit in circuit.units if unit.kind != "radio")
    if any(unit.is_unchosen for unit in circuit.units):
        return f"{units}. Which pin feeds which terminal stands below, under Terminals."
    return f"{units}. Each wire from end to end stands in the wiring table below."


def lay_out(circuit: Circuit, housings: Housings) -> Laid:
    """Lay the whole picture out."""
    reading = Reading(circuit)
    left = left_side(reading, housings)
    make_open_room(reading, left)
    right = right_side(reading)
    over = batteries(reading).over
    _align(reading, left, right, over)
    box = converter_box(
        reading,
        left,
        right,
        ground_right=_ground_right(reading, right),
        supply_right=_supply_right(reading, right),
    )
    place_hung(right, box.bottom)
    cols = columns(reading, left, right, box)
    scene, floor = Scene(), _floor(left, right, box)
    draw_converter(scene, reading, box, left, cols)
    draw_right(scene, reading, right, cols)
    LeftDrawn(scene, reading, left, cols).draw(_ends(reading, left, right, cols))
    LinesDrawn(scene, reading, right, box, cols).draw()
    ChainDrawn(scene, reading, right, box, cols).draw()
    SupplyDrawn(scene, reading, right, box, cols).draw()
    LinkDrawn(scene, reading, cols).draw()
    LoadsDrawn(scene, reading, right, box, cols).draw()
    ground = GroundDrawn(scene, reading, right, box, cols, floor)
    ground.draw()
    _hold_up(scene, reading, right, box, cols)
    floor = draw_looms(scene, reading, reading.units("loom"), cols.width, ground.rail + 26)
    bottom = draw_rest(scene, reading, set(), cols.width, floor + 6)
    name_beside(scene, reading, _housings(left, cols), cols.width)
    laid = Laid(scene, cols.width, bottom)
    put_badges(laid.scene, (laid.width, laid.height), _steps(left, right, box, cols))
    return laid


def _housings(left: LeftSide, cols: Columns) -> list[Box]:
    shapes = [(block.top, block.shape) for block in left.blocks if block.shape]
    return [(cols.plug, top - 8, shape.width, shape.height + 16) for top, shape in shapes]


def _steps(
    left: LeftSide, right: RightSide, box: Converter, cols: Columns
) -> list[Point]:  # fmt: skip
    """Where each step of the chain is, as the pieces for a phone count them."""
    first = next((block for block in left.blocks if block.shape), left.blocks[0])
    amplifier = right.devices[0]
    between = (cols.converter[1] + cols.amplifier[0]) / 2
    lines = [lead.y for device in right.devices for lead in device.inputs] or [box.top + 60]
    return [
        (cols.plug + left.width / 2, first.top + 30),
        (between, lines[0]),
        (sum(cols.out_jacket) / 2, (amplifier.top + amplifier.bottom) / 2),
        (between, amplifier.turn_on_y + 20),
        (cols.converter[0], cols.batteries.trunk_y + 4),
    ]


def _align(reading: Reading, left: LeftSide, right: RightSide, over: float) -> None:
    """Move both sides to their heights: the inputs of amplifiers opposite the converter.

    `over` is the room above for the link to a second battery.
    """
    direct = _direct(reading, left, right)
    _shift_left(left, LANES_TOP + over)
    if direct is not None:
        lane, device_y = direct
        _shift_right(right, max(TOP + over, lane.y - device_y))
        return
    spare = left.height + LANES_TOP - 60 - (right.height + TOP)
    _shift_right(right, TOP + over + max(0.0, min(spare / 2, 80.0)))


def _direct(reading: Reading, left: LeftSide, right: RightSide) -> tuple[Lane, float] | None:
    """The lane that leads from the car straight to a device, and the height of its terminal."""
    for lane in left.lanes:
        if lane.strand and lane.strand.carries == "control":
            device = right.of(reading.index.unit_of(lane.strand.way[-1]).id)
            if device is not None:
                return lane, device.strand_y(lane.strand)
    return None


def _shift_left(left: LeftSide, dy: float) -> None:
    for block in left.blocks:
        block.top += dy
    for lane in left.lanes:
        lane.y += dy


def _shift_right(right: RightSide, dy: float) -> None:
    for device in right.devices:
        device.top, device.bottom = device.top + dy, device.bottom + dy
        device.inside_y += dy
        device.turn_on_y += dy
        device.gnd_y += dy if device.gnd_y else 0.0
        for lead in device.inputs:
            lead.y += dy
    for lane in right.outs:
        lane.y += dy


def _ground_right(reading: Reading, right: RightSide) -> float | None:
    """Grounded at an amplifier that is not the lowest, the converter's leaves to the right."""
    link = next((g for g in reading.grounds if reading.kind_of(g.begins) == "converter"), None)
    device = right.of(reading.index.unit_of(link.finishes).id) if link else None
    if device is None or device is right.amplifiers[-1]:
        return None
    return device.bottom + 28


def _supply_right(reading: Reading, right: RightSide) -> float | None:
    """Fed by an amplifier that is not the uppermost, its supply comes in from the right."""
    link = next((s for s in reading.supplies if reading.kind_of(s.finishes) == "converter"), None)
    device = right.of(reading.index.unit_of(link.begins).id) if link else None
    if device is None or device is right.amplifiers[0]:
        return None
    return device.top - 22


def _floor(left: LeftSide, right: RightSide, box: Converter) -> float:
    lowest = [box.bottom, *(device.bottom for device in right.switched)]
    lowest += [lane.y + 18 for lane in left.lanes] + [
        ln.y + max(18.0, ln.below + 4) for ln in right.outs
    ]
    lowest += [b.top + b.shape.height + 12 for b in left.blocks if b.shape]
    return max(lowest)


def _ends(
    reading: Reading, left: LeftSide, right: RightSide, cols: Columns
) -> dict[str, Point]:  # fmt: skip
    """Where each lane of the left ends at a device, by its strand's name."""
    found: dict[str, Point] = {}
    for lane in left.lanes:
        if lane.strand is None or lane.strand.way[-1] not in reading.index.terminals:
            continue
        device = right.of(reading.index.unit_of(lane.strand.way[-1]).id)
        found[lane.strand.name] = (
            (cols.converter[0], lane.y)
            if device is None
            else (cols.amplifier[0], device.strand_y(lane.strand))
        )
    return found


def _hold_up(
    scene: Scene, reading: Reading, right: RightSide, box: Converter, cols: Columns
) -> None:
    """Draw the hold-up before the terminal that it keeps up, grounded beside it."""
    strand = next((s for s in reading.controls if _is_held(reading, s)), None)
    if strand is None:
        return
    at, ground = _held_at(reading, strand, right, box, cols)
    draw_hold_up(scene, reading, strand, at, ground)


def _is_held(reading: Reading, strand: Strand) -> bool:
    return any(part.kind == "diode" for part in reading.elements_in(strand))


def _held_at(
    reading: Reading, strand: Strand, right: RightSide, box: Converter, cols: Columns
) -> tuple[Point, tuple[Point, ...]]:
    device = right.of(reading.index.unit_of(strand.way[-1]).id)
    if device is None:
        lane_y = box.ins[strand.way[-1]]
        x, bottom, to = cols.converter[0], box.bottom, cols.converter[1] - 50
        at = (x, lane_y)
    else:
        x, bottom, to = cols.amplifier[0], device.bottom, cols.amplifier[0] + 40
        at = (x, device.strand_y(strand))
    node = x - 34
    return at, ((node, bottom + 10), (to, bottom + 10), (to, bottom))
