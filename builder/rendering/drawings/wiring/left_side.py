"""The left of the picture: plugs one below the other, and the lanes in which their wires go right.

Which rows leave a plug upwards, and which plug stands above, is chosen so that the wires of a pair
lie together, then that the converter's inputs come in their order.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import groupby, permutations, product
from typing import TypeAlias

from builder.model.housing import Housing
from builder.planning.cables.piece_names import CABLE
from builder.planning.circuit.model import CircuitWire, Unit
from builder.planning.words import LinkClass
from builder.rendering.drawings.wiring.behind_loom import wire_before
from builder.rendering.drawings.wiring.blocks import Block, Lane, LeftSide
from builder.rendering.drawings.wiring.feeds_placed import (
    feeds_crossed,
    interface_feeds,
    place_feeds,
)
from builder.rendering.drawings.wiring.plug_ends import (
    BESIDE_LOOMS,
    WIDEST_PITCH,
    Exit,
    PlugShape,
    Way,
    choices,
    exits,
    in_order,
    shape_of,
)
from builder.rendering.drawings.wiring.reading import Reading, Strand, is_there
from builder.rendering.drawings.wiring.scene import PAIR_PITCH

HEAD = 30.0  # above the first lane of a jacket: its name
CAPTION = 34.0  # below or above a housing
STAND_IN_PITCH, KEPT_PITCH = 38.0, 46.0
BEHIND_LOOM_PITCH = 88.0  # the same as KEPT_PITCH where the plug lies behind a loom
SAME_JACKET, NEXT = 22.0, 42.0
MOST_CHOICES = 4096
Housings: TypeAlias = tuple[tuple[str, Housing], ...]
"""The housings of a car's plugs, by the plug; one that is not known is left out."""
SINGLE: tuple[LinkClass, ...] = ("control", "supply", "ground")
"""What comes by itself from a cavity or a fuse position, not as a leg of a pair."""


def left_side(reading: Reading, housings: Housings) -> LeftSide:
    """Return the plugs and their lanes, the best of all orders, stacked from y = 0."""
    sources = reading.units("plug", "fuse_position", "interface", "loom")
    strands = _by_source(reading)
    fed_from = {reading.index.unit_of(each.way[0]).id for each in interface_feeds(reading)}
    sources = [unit for unit in sources if strands.get(unit.id) or unit.id in fed_from]
    by_plug = dict(housings)
    options = [_options(reading, unit, strands.get(unit.id, []), by_plug)
               for unit in sources]  # fmt: skip
    found = min(_all(options), key=lambda blocks: _cost(reading, blocks))
    side = LeftSide(list(found))
    _add_spares(reading, side)
    _stack(reading, side)
    place_feeds(reading, side)
    return side


def _by_source(reading: Reading) -> dict[str, list[Strand]]:
    """The strands that begin at each unit of the car, each cavity once."""
    found: dict[str, list[Strand]] = {}
    first = [s for s in reading.controls if reading.of_the_car(s.way[0])]
    for strand in (*reading.signals, *first, *reading.fed_by_car, *reading.stubs):
        found.setdefault(reading.index.unit_of(strand.way[0]).id, []).append(strand)
    return found


def _options(
    reading: Reading, unit: Unit, strands: list[Strand], housings: Mapping[str, Housing]
) -> list[Block]:
    """Every way a unit's wires may leave it."""
    if unit.kind not in ("plug", "loom"):
        lanes = [_lane(reading, strand, None) for strand in strands]
        return [Block(unit, None, [], lanes)]
    plug = unit.id.removeprefix("loom ") if unit.kind == "loom" else unit.record
    housing = housings.get(plug)
    names = {strand.way[0]: reading.cavity_of(strand.way[0]) for strand in strands}
    narrow = reading.units("loom") or reading.is_of_plan
    pitch = BESIDE_LOOMS if narrow else WIDEST_PITCH
    shape = shape_of(housing, list(reading.face(unit)), pitch)
    alone = [names[s.way[0]] for s in strands if s.carries in SINGLE]
    found = [exits(shape, ways) for ways in choices(shape, names.values(), alone)]
    blocks = [_block(reading, unit, shape, strands, each) for each in found if each is not None]
    fewer = [each for each in strands if each not in reading.fed_by_car]
    if blocks or fewer == strands:
        return blocks
    return _options(reading, unit, fewer, housings)  # a row below is better than none


def _block(
    reading: Reading, unit: Unit, shape: PlugShape, strands: list[Strand], found: tuple[Exit, ...]
) -> Block:
    by_cavity = {reading.cavity_of(s.way[0]): s for s in strands}
    ways: tuple[Way, ...] = ("up", "down")
    above, below = (
        [_lane(reading, by_cavity[each.cavity], each) for each in in_order(found, way)]
        for way in ways
    )
    return Block(unit, shape, above, below)


def _lane(reading: Reading, strand: Strand, out: Exit | None) -> Lane:
    wires = reading.wires_in(strand)
    jacket = next((wire.lies_in for wire in wires if not is_there(wire)), "")
    kept = reading.kept_at(strand.way[0])
    return Lane(strand, jacket, None, out, reading.index.unit_of(strand.way[0]).id, kept)


def _all(options: list[list[Block]]) -> Iterable[tuple[Block, ...]]:
    """Every order of the units, with every way each may leave."""
    count = 0
    for order in permutations(options):
        for blocks in product(*order):
            yield blocks
            count += 1
            if count >= MOST_CHOICES:
                return


def _cost(reading: Reading, blocks: tuple[Block, ...]) -> float:
    """What speaks against an order: what is split or in the way, unruly inputs, tight ways."""
    lanes = [lane for block in blocks for lane in (*block.above, *block.below)]
    strands = [lane.strand for lane in lanes if lane.strand]
    at = {strand.name: place for place, strand in enumerate(strands)}
    split = sum(abs(at[s.name] - at[s.mate]) - 1 for s in strands if s.mate in at)
    inputs = [s.way[-1] for s in strands if s.carries == "speaker_level"]
    ruled = [each for each in _terminal_order(reading) if each in inputs]
    unruly = _inversions([ruled.index(each) for each in inputs if each in ruled])
    passing = sum(
        len(strands) - 1 - at[s.name] for s in strands
        if s.carries == "control" and reading.kind_of(s.way[-1]) != "converter"
    )  # fmt: skip
    low = sum(len(strands) - 1 - at[s.name] for s in strands if s.carries == "control")
    late = sum(_below(reading, blocks, feed) for feed in interface_feeds(reading))
    beside = sum(1 for b in blocks for lane in (*b.above, *b.below) if _beside(b, lane))
    parted = _parted([lane.jacket for lane in lanes])
    apart = sum(_speaker_astride(block) for block in blocks)
    crossed = 0 if late else feeds_crossed(reading, blocks)
    return (
        1000 * late
        + 200 * crossed
        + 10 * apart
        + 100 * split
        + 30 * passing
        + 20 * parted
        + 2 * low
        + unruly
        + 0.5 * beside
    )


def _below(reading: Reading, blocks: tuple[Block, ...], feed: Strand) -> bool:
    """Whether an interface stands below the plug that feeds it: its wires run upwards."""
    order = [block.unit.id for block in blocks]
    plug, interface = (reading.index.unit_of(feed.way[at]).id for at in (0, -1))
    return order.index(interface) > order.index(plug)


def _speaker_astride(block: Block) -> int:
    """How many speakers would stand on a plug: one leg of a pair leaves upwards, one downwards."""
    below = {lane.strand.name for lane in block.below if lane.strand}
    return sum(bool(lane.kept and lane.strand and lane.strand.mate in below)
               for lane in block.above)  # fmt: skip


def _parted(jackets: list[str]) -> int:
    """How often a jacket is drawn once more because other lanes lie between its own."""
    found = [name for name, _ in groupby(jackets) if name.startswith(CABLE)]
    return len(found) - len(set(found))


def _terminal_order(reading: Reading) -> list[str]:
    return sorted(
        (t.id for t in reading.circuit.terminals if t.carries == "speaker_level"),
        key=lambda each: (len(each), each[:-1], each.endswith("−")),
    )


def _inversions(order: list[int]) -> int:
    return sum(a > b for at, a in enumerate(order) for b in order[at + 1 :])


def _beside(block: Block, lane: Lane) -> bool:
    if block.shape is None or lane.exit is None:
        return False
    return block.shape.of(lane.exit.cavity).x != lane.exit.x


def _add_spares(reading: Reading, side: LeftSide) -> None:
    """A spare core lies below the last lane of its jacket."""
    for wire in reading.spares:
        for block in side.blocks:
            for lanes in (block.below, block.above):
                last = max((i for i, ln in enumerate(lanes) if ln.jacket == wire.lies_in),
                           default=None)  # fmt: skip
                if last is not None and not _placed(side, wire):
                    lanes.insert(last + 1, Lane(None, wire.lies_in, wire))


def _placed(side: LeftSide, wire: CircuitWire) -> bool:
    return any(lane.spare == wire for lane in side.lanes)


def _stack(reading: Reading, side: LeftSide) -> None:
    """Give every lane and housing its height."""
    y = 0.0
    for block in side.blocks:
        y = _run_down(reading, block.above, y)
        y += 28.0 if block.above else CAPTION
        block.top = y
        y += block.shape.height if block.shape else 0.0
        y = _run_down(reading, block.below, y + (2.0 if block.shape else 0.0))
        y += 22.0 if block.below else CAPTION
    side.height = y


def _run_down(reading: Reading, lanes: list[Lane], y: float) -> float:
    """Stack lanes from y; return that of the last one."""
    for before, lane in zip([None, *lanes], lanes, strict=False):
        y += _pitch(reading, before, lane)
        lane.y = y
    return y


def _pitch(reading: Reading, before: Lane | None, lane: Lane) -> float:
    if before is None:
        return HEAD
    one, other = before.strand, lane.strand
    if one and other and one.mate == other.name:
        if lane.kept:
            return BEHIND_LOOM_PITCH if wire_before(reading, lane.kept) else KEPT_PITCH
        held = {joint.id for _, a, b in reading.stand_ins for joint in (a, b)}
        return STAND_IN_PITCH if held & set(one.way) else PAIR_PITCH
    if lane.jacket and lane.jacket == before.jacket:
        return PAIR_PITCH + 2 if lane.spare else SAME_JACKET
    return NEXT if lane.jacket else SAME_JACKET
