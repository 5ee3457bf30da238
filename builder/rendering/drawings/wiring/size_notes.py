"""What wires are made of, said once for many: of a jacket, a loom, a plug, and below a piece."""

from __future__ import annotations

from collections.abc import Iterable

from builder.figures import shown
from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.frame import sized
from builder.rendering.drawings.wiring.named_beside import is_single
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.upright import LINE, SIDE, SIZE, WIDTH


def sizes_of(wires: Iterable[CircuitWire]) -> str:
    """Return the sizes of some wires: "18 AWG copper", or "" where nobody knows any."""
    found = list(dict.fromkeys(wire.size.words for wire in wires if wire.size))
    figures, kinds = [each.split(" ", 1)[0] for each in found], {e.partition(" ")[2] for e in found}
    return f"{_listed(figures)} {kinds.pop()}" if len(kinds) == 1 else _listed(found)


def _listed(words: list[str]) -> str:
    *before, last = words or [""]
    return f"{', '.join(before)} and {last}" if before else last


def jacket_words(reading: Reading, name: str) -> str:
    """Return a jacket with the size of its conductors and its length."""
    own = [wire for wire in reading.circuit.wires if wire.lies_in == name and wire.cable]
    length = next((wire.length_m for wire in own if wire.length_m), None)
    return ", ".join(filter(None, (name, sizes_of(own), f"{shown(length, 1)} m" if length else "")))


def source_words(reading: Reading, unit: str, cavities: Iterable[str]) -> list[str]:
    """Return what the wires of a plug are made of; of a loom its own, then the car's behind it."""
    plug = unit.rpartition(" ")[2]
    places = {f"{plug}.{cavity}" for cavity in cavities}
    wires = reading.circuit.wires
    loom = sizes_of(w for w in wires if w.loom == unit and w.carries != "through")
    car = [w for w in wires if w.stays and w.place in places and w.size]
    near = [w for w in car if _at_plug(reading, w)]
    far = sizes_of(w for w in car if not _at_plug(reading, w))
    own = [f"its wires: {loom}"] if loom else []
    sizes = dict.fromkeys(wire.size.words for wire in near if wire.size)
    if len(sizes) == 1:
        whose = "the car's wires" if loom else "its wires"
        own.append(f"{whose}: {sizes_of(near)}")
    else:
        own += [f"wires {_cavities(near, size)}: {size}" for size in sizes]
    same = far == sizes_of(near)
    return own if same or not far else [*own, f"speaker wires: {far}"]


def _at_plug(reading: Reading, wire: CircuitWire) -> bool:
    """Whether a wire of the car begins in a plug; the other half of a cut one does not."""
    met = [end for own in wire.ends for joint in reading.index.joints_of.get(own, [])
           for end in joint.joins if end in reading.index.terminals]  # fmt: skip
    return any(reading.kind_of(end) == "plug" for end in met)


def _cavities(wires: list[CircuitWire], size: str) -> str:
    """The cavities of the wires of a size: "1 to 4", or each by itself."""
    of_size = (w.place.rpartition(".")[2] for w in wires if w.size and w.size.words == size)
    found = list(dict.fromkeys(of_size))
    numbers = [int(each) for each in found if each.isdigit()]
    run = list(range(min(numbers, default=0), max(numbers, default=0) + 1))
    return f"{run[0]} to {run[-1]}" if len(found) > 2 and sorted(numbers) == run else _listed(found)


def size_notes(reading: Reading, scene: Scene) -> list[str]:
    """Return what a piece does not say yet of the wires that it shows."""
    ids = dict.fromkeys(each for run in scene.runs for each in run.ids)
    wires = [reading.index.wires[each] for each in ids if each in reading.index.wires]
    jackets = dict.fromkeys(wire.lies_in for wire in wires if wire.cable and not wire.loom)
    said = [jacket_words(reading, name) for name in jackets]
    for loom in dict.fromkeys(wire.loom for wire in wires if wire.loom):
        size = sizes_of(wire for wire in wires if wire.loom == loom)
        said += [f"wires of {loom}: {size}"] if size else []
    car = sizes_of(wire for wire in wires if wire.stays)
    said += [f"the car's wires: {car}"] if car else []
    return [*said, *_singles([wire for wire in wires if is_single(wire)], scene)]


def _singles(wires: list[CircuitWire], scene: Scene) -> list[str]:
    """One line for each size, with the wires of it."""
    words = " ".join(each.text for each in scene.words)
    by_size: dict[str, list[str]] = {}
    for wire in wires:
        if wire.size is not None and sized(wire) not in words:
            name = wire.id if wire.id in words else wire.purpose  # as it is called there
            by_size.setdefault(wire.size.words, []).append(name)
    return [f"{', '.join(names)}: {size}" for size, names in by_size.items()]


def write_notes(reading: Reading, scene: Scene, height: float) -> float:
    """Write them below a piece; return how high it is then."""
    y = height + 4
    for note in size_notes(reading, scene):
        for line in wrap(note, WIDTH - 2 * SIDE, SIZE):
            y += LINE
            scene.say(line, SIDE, y, size=SIZE)
    return height if y == height + 4 else y + 6
