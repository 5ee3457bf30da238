"""The wiring picture for a phone: the same circuit in pieces, one for each step of the chain."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from markupsafe import Markup

from builder.planning.circuit.model import Circuit
from builder.planning.circuit.second_battery_links import THE_LINK
from builder.rendering.drawings.canvas import Canvas, identifier
from builder.rendering.drawings.wiring.blocks import Lane, LeftSide
from builder.rendering.drawings.wiring.coils_drawn import coil_stack
from builder.rendering.drawings.wiring.left_side import Housings, left_side
from builder.rendering.drawings.wiring.loom_drawn import draw_looms, passed_on
from builder.rendering.drawings.wiring.paint import paint
from builder.rendering.drawings.wiring.piece_chain import ChainPiece
from builder.rendering.drawings.wiring.piece_crossover import crossover_piece
from builder.rendering.drawings.wiring.piece_feed import feed_pieces
from builder.rendering.drawings.wiring.piece_lines import line_piece
from builder.rendering.drawings.wiring.piece_link import LinkPiece
from builder.rendering.drawings.wiring.piece_out import out_piece
from builder.rendering.drawings.wiring.piece_plug import PlugPiece
from builder.rendering.drawings.wiring.piece_supply import SupplyPiece
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.rest_drawn import FURTHER, draw_rest
from builder.rendering.drawings.wiring.right_side import Device, RightSide, right_side
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.size_notes import write_notes
from builder.rendering.drawings.wiring.upright import MOST, WIDTH, chunks

KEPT_MOST = 4
"""Lanes of wires that stay whole: their speakers need room between them."""


class Piece(NamedTuple):
    """One piece: the step it is part of, its heading, its drawing.

    `feeds`: it shows pins that feed the converter.
    """

    step: int
    title: str
    drawing: Markup
    feeds: bool = False


@dataclass(frozen=True, slots=True)
class LaidPiece:
    """A piece before it is painted."""

    step: int
    title: str
    scene: Scene
    height: float
    feeds: bool = False


def paint_pieces(pieces: Iterable[LaidPiece], *, traced: bool) -> list[Piece]:
    """Return pieces that are laid out, in their order."""
    return [
        Piece(laid.step, laid.title, _drawn(laid, at, traced=traced), laid.feeds)
        for at, laid in enumerate(pieces, 1)
    ]


def _drawn(laid: LaidPiece, number: int, *, traced: bool) -> Markup:
    canvas = Canvas()
    paint(canvas, laid.scene, f"w{number}", traced=traced)
    told = "; ".join(dict.fromkeys(run.title for run in laid.scene.runs if run.title))
    name = identifier("wiring", str(number))
    return canvas.svg((WIDTH, laid.height), name, laid.title, told or laid.title, "lb-wiring-piece")


def lay_pieces(circuit: Circuit, housings: Housings) -> list[LaidPiece]:
    """Lay every piece out, in the order of the chain."""
    reading = Reading(circuit)
    left = left_side(reading, housings)
    right = right_side(reading)
    unit = reading.units("converter")[0].id
    found = [*_plugs(reading, left), *_lines(reading, right, unit), *_outs(reading, right)]
    for title, piece in feed_pieces(reading, left):
        scene, height = piece.draw()
        found.append(LaidPiece(4, title, scene, height))
    if reading.controls:
        scene, height = ChainPiece(reading).draw()
        found.append(LaidPiece(4, "Turn-on chain", scene, height))
    if reading.supplies:
        scene, height = SupplyPiece(reading, unit).draw()
        found.append(LaidPiece(5, "Supply and ground", scene, height))
    if THE_LINK in reading.index.links:
        scene, height = LinkPiece(reading).draw()
        found.append(LaidPiece(5, "Link to the second battery", scene, height))
    found += _looms(reading)
    found += _rest(reading, found)
    noted = [replace(x, height=write_notes(reading, x.scene, x.height)) for x in found]
    return _told_apart(noted)


def _told_apart(found: list[LaidPiece]) -> list[LaidPiece]:
    """Number pieces of one title: whoever looks for a wire is not done with the first of them."""
    often = Counter(laid.title for laid in found)
    seen: Counter[str] = Counter()
    numbered = []
    for laid in found:
        seen[laid.title] += 1
        at, all_ = seen[laid.title], often[laid.title]
        title = laid.title if all_ == 1 else f"{laid.title}, {at} of {all_}"
        numbered.append(replace(laid, title=title))
    return numbered


def _looms(reading: Reading) -> Iterator[LaidPiece]:
    for unit in reading.units("loom"):
        if passed_on(reading, unit):
            scene = Scene()
            bottom = draw_looms(scene, reading, [unit], WIDTH, 0.0)
            yield LaidPiece(1, f"Passed on by {unit.id}", scene, bottom + 8)


def _rest(reading: Reading, found: list[LaidPiece]) -> list[LaidPiece]:
    """What no other piece shows."""
    scene, shown = Scene(), {each for laid in found for each in laid.scene.shown}
    bottom = draw_rest(scene, reading, shown, WIDTH, 4.0)
    return [LaidPiece(6, FURTHER, scene, bottom + 8)] if scene.shown else []


def _plugs(reading: Reading, left: LeftSide) -> Iterator[LaidPiece]:
    for block in left.blocks:
        for lanes, up in ((block.above, True), (block.below, False)):
            for group in _lane_groups(lanes):
                scene, height = PlugPiece(reading, block, group, up=up).draw()
                feeds = any(x.strand and x.strand.carries == "speaker_level" for x in group)
                yield LaidPiece(1, f"From {block.unit.id}", scene, height, feeds)


def _lane_groups(lanes: list[Lane]) -> list[list[Lane]]:
    """Lanes in pieces, a pair never parted."""
    by_name = {lane.strand.name: lane for lane in lanes if lane.strand}
    most = KEPT_MOST if any(lane.kept for lane in lanes) else MOST
    strands = [lane.strand for lane in lanes if lane.strand]
    return [[by_name[s.name] for s in group] for group in chunks(strands, most)]


def _lines(reading: Reading, right: RightSide, unit: str) -> Iterator[LaidPiece]:
    unused = True
    for device in right.devices:
        for at in range(0, len(device.inputs), MOST):
            leads = device.inputs[at : at + MOST]
            last = at + MOST >= len(device.inputs)
            inside = device.inside if last else []
            scene, height = line_piece(reading, unit, device.unit.id, leads, inside, unused=unused)
            unused = False
            yield LaidPiece(2, f"From {unit} to {device.unit.id}", scene, height)


def _out_groups(reading: Reading, device: Device) -> Iterator[list[Strand]]:
    """Lanes in pieces; a speaker of several coils, or a crossover, has one of its own."""
    alone: dict[str, list[Strand]] = {}
    others: list[Strand] = []
    for lane in device.outs:
        if lane.strand is None:
            continue
        of_coils = coil_stack(reading, lane.speaker) is not None
        apart = lane.crossover or (lane.speaker if of_coils else "")
        (alone.setdefault(apart, []) if apart else others).append(lane.strand)
    yield from (list(group) for group in chunks(others))
    yield from alone.values()


def _outs(reading: Reading, right: RightSide) -> Iterator[LaidPiece]:
    for device in right.devices:
        for group in _out_groups(reading, device):
            scene, height = out_piece(reading, group)
            unit = reading.index.unit_of(group[0].way[0]).id
            yield LaidPiece(3, f"From {unit} to its speakers", scene, height)
        for name in device.crossovers:
            scene, height = crossover_piece(reading, name)
            yield LaidPiece(3, f"From {device.unit.id} to {name}", scene, height)
