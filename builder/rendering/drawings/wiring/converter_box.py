"""The converter of a picture: how far its box reaches, and where its terminals stand."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.rendering.drawings.wiring.blocks import LeftSide
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.right_side import RightSide

TITLE_ROOM = 54.0
FOOT = 26.0
OPEN_PITCH = 18.0
Rows = list[tuple[float, str]]
"""Words at heights."""


@dataclass(slots=True)
class Converter:
    """The converter's box, and where its terminals stand."""

    unit: str = ""
    top: float = 0.0
    bottom: float = 0.0
    ins: dict[str, float] = field(default_factory=dict)  # height by terminal
    outs: dict[str, float] = field(default_factory=dict)
    grounded_right: float | None = None  # height of its ground at the right edge
    supplied_right: float | None = None  # the same of its supply
    unused: list[tuple[str, float]] = field(default_factory=list)


def converter_box(
    reading: Reading, left: LeftSide, right: RightSide, *, ground_right: float | None,
    supply_right: float | None,
) -> Converter:  # fmt: skip
    """Return the box that reaches over all lanes that end at it."""
    unit = reading.units("converter")[0]
    own = {terminal.id for terminal in unit.terminals}
    box = Converter(unit.id, grounded_right=ground_right, supplied_right=supply_right)
    box.ins = {
        ln.strand.way[-1]: ln.y for ln in left.lanes if ln.strand and ln.strand.way[-1] in own
    }
    for device in right.devices:
        for lead in device.inputs:
            box.outs.setdefault(lead.output, lead.y)
        for strand in device.switched:
            if strand.way[0] in own:
                box.outs[strand.way[0]] = device.strand_y(strand)
    heights = [*box.ins.values(), *box.outs.values()]
    heights += [y for y in (ground_right, supply_right) if y is not None]
    box.top, box.bottom = min(heights) - TITLE_ROOM, max(heights) + FOOT
    _unused(reading, box, max(box.ins.values(), default=box.bottom - FOOT))
    return box


def open_ends(reading: Reading, unit: str) -> list[str]:
    """Return the terminals of the converter that stay open on purpose."""
    return [each.end for each in reading.circuit.open_ends
            if each.end == each.what or each.end.startswith(f"{unit} ")]  # fmt: skip


def open_name(reading: Reading, end: str) -> str:
    """What is said of a terminal that stays open: "in 5 +: open"."""
    terminal = reading.index.terminals.get(end)
    name = terminal.name if terminal else f"in {' '.join(end.split(' ')[2:])}"
    return f"{name.replace('positive', '+').replace('negative', '−')}: open"


def named_rows(reading: Reading, box: Converter) -> tuple[Rows, Rows]:
    """Return the words at the left edge of the converter and those at its right, by height."""
    names = {t.id: t.name for t in reading.index.units[box.unit].terminals}
    ins = [(y, names[each]) for each, y in box.ins.items()]
    ins += [(y, open_name(reading, end)) for end, y in box.unused]
    outs = [(y, names[each]) for each, y in box.outs.items()]
    edges = ((box.grounded_right, "GND"), (box.supplied_right, "+12 V"))
    return ins, outs + [(y, name) for y, name in edges if y is not None]


def _unused(reading: Reading, box: Converter, last: float) -> None:
    """Inputs that stay open stand below the lanes."""
    for end in open_ends(reading, box.unit):
        last += OPEN_PITCH
        box.unused.append((end, last))
    box.bottom = max(box.bottom, last + FOOT)
