"""A piece for a phone: from an amplifier to its speakers."""

from __future__ import annotations

from collections.abc import Sequence

from builder.rendering.drawings.wiring.coils_drawn import HEAD, CoilStack, coil_stack, draw_coils
from builder.rendering.drawings.wiring.crossovers_drawn import inside_ids, said_of, ways_of
from builder.rendering.drawings.wiring.frame import speaker_words, wire_name
from builder.rendering.drawings.wiring.lane_drawn import draw_speaker
from builder.rendering.drawings.wiring.paths import level_and_upright
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.right_drawn import home_ids
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
    pitch_of,
    spread,
    terminal_room,
    write_names,
    write_terminals,
)

SPEAKER_R = 15.0
SPEAKER_ROOM = 76.0  # for a name below a speaker that has others beside it


def unit_above(
    scene: Scene, unit: str, names: Sequence[tuple[float, str]], pitch: float, room: float = 0.0
) -> float:
    """Draw a unit at the top with terminals at its lower edge, and room for what is said of its
    inside; return that edge."""
    edge = 28.0 + room + terminal_room([name for _, name in names], pitch)
    scene.frames.append(Frame("unit", (SIDE, 2.0, WIDTH - 2 * SIDE, edge - 2), (unit,), unit))
    scene.say(unit, WIDTH / 2, 20, size=TITLE, anchor="middle", bold=True)
    write_terminals(scene, names, edge, pitch, above=True)
    return edge


def unit_below(
    scene: Scene, unit: str, names: Sequence[tuple[float, str]], pitch: float, top: float
) -> float:
    """Draw a unit at the bottom with terminals at its upper edge; return its lower edge."""
    high = 28.0 + terminal_room([name for _, name in names], pitch)
    scene.frames.append(Frame("unit", (SIDE, top, WIDTH - 2 * SIDE, high), (unit,), unit))
    write_terminals(scene, names, top, pitch, above=False)
    scene.say(unit, WIDTH / 2, top + high - 9, size=TITLE, anchor="middle", bold=True)
    return top + high


def out_piece(reading: Reading, strands: Sequence[Strand]) -> tuple[Scene, float]:
    """Return an amplifier's outputs down to their speakers."""
    scene, xs, pitch = Scene(), spread(len(strands)), pitch_of(len(strands))
    unit = reading.index.unit_of(strands[0].way[0]).id
    names = [reading.index.terminals[s.way[0]].name for s in strands]
    ways = ways_of(reading, reading.index.units[unit])
    edge = unit_above(scene, unit, list(zip(xs, names, strict=True)), pitch, LINE * bool(ways))
    for at, part in enumerate(ways):
        scene.say(" ".join(said_of(part)), sum(xs[2 * at : 2 * at + 2]) / 2, 36, size=SIZE,
                  anchor="middle")  # fmt: skip
    own = [reading.wires_in(s)[0] for s in strands]
    car = [[w for w in reading.wires_in(s) if w.stays] for s in strands]
    looms = [next((w for w in reading.wires_in(s) if w.loom), None) for s in strands]
    said = [_own_name(w.lies_in, wire_name(w), cable=bool(w.cable)) for w in own]
    near = list(zip(xs, said, strict=True))
    first = write_names(scene, near, edge + 14, pitch)
    joint = edge + 14 + names_height(near, pitch) + 16
    home = [(x, wire_name(w[0])) for x, w in zip(xs, car, strict=True) if w]
    between = [(x, wire_name(w)) for x, w in zip(xs, looms, strict=True) if w]
    third = write_names(scene, between, joint + 10, pitch)
    plug = joint + 22 + names_height(between, pitch) if between else joint
    second = write_names(scene, home, plug + 10, pitch)
    end = plug + 26 + names_height(home, pitch) if home else joint
    for at, (x, strand) in enumerate(zip(xs, strands, strict=True)):
        inside = inside_ids(reading, strand.way[0])
        scene.mark("screw", (x, edge), strand.way[0], strand.way[1], *inside)
        draw_stretch(scene, own[at], (x, edge), (x, joint if car[at] else end), cut=first[at])
        if car[at]:
            cut = second[[i for i, w in enumerate(car) if w].index(at)]
            loom, top = looms[at], joint
            if loom is not None:
                top, nth = plug, [i for i, w in enumerate(looms) if w].index(at)
                draw_stretch(scene, loom, (x, joint), (x, plug), cut=third[nth])
                scene.mark("home", (x, plug), *home_ids(reading, strand, loom))
            draw_stretch(scene, car[at][0], (x, top), (x, end), cut=cut)
            scene.mark("upsleeve", (x, joint), strand.way[3])
    bottom = _speakers(scene, reading, list(zip(xs, strands, strict=True)), end)
    return scene, draw_idle(scene, reading, {w.lies_in for w in own}, bottom)


def _own_name(lies_in: str, name: str, *, cable: bool) -> str:
    return f"{lies_in} {name}" if cable else name


def _speakers(
    scene: Scene, reading: Reading, lanes: list[tuple[float, Strand]], end: float
) -> float:
    """Draw each speaker between the ends of its two wires; return the bottom."""
    found: dict[str, list[tuple[float, Strand]]] = {}
    for x, strand in lanes:
        found.setdefault(reading.index.unit_of(strand.way[-1]).id, []).append((x, strand))
    bottom = end
    for unit, ends in found.items():
        coils = coil_stack(reading, unit)
        if coils is not None:
            bottom = max(bottom, _coils(scene, reading, coils, ends, end))
            continue
        middle = sum(x for x, _ in ends) / len(ends)
        draw_speaker(scene, unit, (middle, end + 6), SPEAKER_R)
        for x, strand in ends:
            lane = middle + (-SPEAKER_R if x < middle else SPEAKER_R)
            _turn_in(scene, strand, x, lane, end + 6)
        lines = speaker_words(reading.index.units[unit])
        lines = [part for line in lines for part in folded(line, SPEAKER_ROOM)]
        for row, line in enumerate(lines):
            scene.say(line, middle, end + 36 + LINE * row, size=SIZE, anchor="middle",
                      bold=row + 1 == len(lines))  # fmt: skip
        bottom = max(bottom, end + 40 + LINE * len(lines))
    return bottom


def _coils(
    scene: Scene, reading: Reading, stack: CoilStack, ends: list[tuple[float, Strand]], end: float
) -> float:  # fmt: skip
    """The box below the first lane; the other turns in from the right."""
    first = ends[0][0]
    for x, strand in ends:
        _turn_in(scene, strand, x, first, end + HEAD + stack.heights[strand.way[-1]])
    draw_coils(scene, reading, stack, (first, end + HEAD), -1)
    return end + HEAD + stack.reach + 8


def _turn_in(scene: Scene, strand: Strand, x: float, to: float, y: float) -> None:
    """Let the last stretch of a lane turn to its speaker's side."""
    for at in range(len(scene.runs) - 1, -1, -1):
        run = scene.runs[at]
        if run.points[0][0] == x and set(run.ids) & set(strand.way):
            points = level_and_upright((*run.points[:-1], (x, y), (to, y)))
            scene.runs[at] = Run(run.ids, points, run.kind, run.carries, run.wire, run.cuts,
                                 run.title)  # fmt: skip
            break
    scene.mark("contact", (to, y), strand.way[-1], strand.way[-2])
