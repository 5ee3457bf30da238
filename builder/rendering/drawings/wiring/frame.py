"""Where the columns of a wiring picture stand: from the widths of the words they hold."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.wire import Wire
from builder.planning.cables.piece_names import CABLE
from builder.planning.circuit.model import CircuitWire, Unit, colours_of
from builder.planning.circuit.terminal_names import across_coil
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.battery_place import Batteries, batteries
from builder.rendering.drawings.wiring.behind_loom import plugged_into
from builder.rendering.drawings.wiring.blocks import LeftSide
from builder.rendering.drawings.wiring.canvas_marks import part_width
from builder.rendering.drawings.wiring.coils_drawn import COILS_AT, coil_stack
from builder.rendering.drawings.wiring.converter_box import Converter, Rows, named_rows
from builder.rendering.drawings.wiring.crossovers_drawn import LEAD_ROOM, crossover_width
from builder.rendering.drawings.wiring.reading import Reading, Strand, is_there
from builder.rendering.drawings.wiring.right_side import INSIDE_PITCH, OVER_COIL, RightSide
from builder.rendering.drawings.wiring.scene import (
    CLAMP_PITCH,
    FORK_FROM,
    FORK_PITCH,
    GND_FROM,
    HOLD_UP_WIDTH,
    HUNG_FROM,
    TEXT,
    TITLE,
)

NAME_GAP = 8.0  # wire between a name and what stands beside it
LOOM_GAP = 6.0  # the same beside the name of a loom's wire
PART = 36.0  # room that a part on a lane takes
JOINT = 14.0
COIL_ROOM = "turn-on, diode 1 A"  # what stands across a relay that has a diode fitted
ROW = 15.0  # words nearer than this stand beside each other


@dataclass(slots=True)
class Columns:
    """Left and right edges in units of the picture."""

    plug: float
    name: float  # middle of the names of the car's wires
    joint: float
    jacket: tuple[float, float]
    converter: tuple[float, float]
    amplifier: tuple[float, float]
    crossover: tuple[float, float]  # both at the amplifier's right edge where there is none
    out_jacket: tuple[float, float]
    out_joint: float
    out_home: float  # where the car's plug takes a loom's wire; the same without a loom
    out_name: float
    speaker: float
    width: float
    hung: tuple[float, float]  # what hangs below the converter, in the channel
    batteries: Batteries


def columns(reading: Reading, left: LeftSide, right: RightSide, box: Converter) -> Columns:
    """Return the columns, each as wide as its widest words."""
    place = batteries(reading)
    plug = place.left + left.margin
    start = plug + left.width + NAME_GAP
    named = _widest([first_name(reading, lane.strand) for lane in left.lanes if lane.strand]
                    + [wire_name(wire) for lane in left.lanes if lane.kept
                       for wire in reading.wires_in(lane.kept)])  # fmt: skip
    named = max(named, plug + left.interface_to - start)  # its lane has no name beside it
    name = start + named / 2
    joint = start + named + NAME_GAP + 6
    before = PART if any(_fused(reading, lane.strand) for lane in left.lanes) else 0.0
    near = joint + JOINT + before
    far = near + _widest(_colours(reading, left)) + 2 * NAME_GAP
    extra = max((_behind(reading, lane.strand) for lane in left.lanes if lane.strand), default=0.0)
    converter = far + extra + 12
    converter_to = converter + _box_width([box.unit], *named_rows(reading, box))
    converter_to = max(converter_to, converter + 40 + GND_FROM + CLAMP_PITCH * len(right.loads))
    clear = HUNG_FROM + (HOLD_UP_WIDTH if any(each.held_up for each in right.devices) else 0.0)
    amplifier = converter_to + max(_line_width(reading, right), clear + right.hung_wide - 4)
    amplifier_to = amplifier + _amplifier_width(reading, right)
    passed = [d for d in right.amplifiers[:-1] if any(lane.jacket.startswith(CABLE)
              for lane in d.outs)]  # fmt: skip
    crossed = amplifier_to + (LEAD_ROOM if reading.units("crossover") else 0.0)
    crossed_to = crossed + crossover_width(reading)
    out = crossed_to + 16 + (14.0 + 12.0 * (len(right.amplifiers) - 2) if passed else 0.0)
    colours = _out_colours(reading, right)
    out_far = out + (_widest(colours) + 2 * NAME_GAP if colours else 0.0)
    leads = [wire_name(w) for s in reading.amplified for w in reading.wires_in(s)
             if not is_there(w) and not w.cable]  # fmt: skip
    home = [wire_name(w) for s in (*reading.amplified, *reading.orphans)
            for w in reading.wires_in(s) if w.stays]  # fmt: skip
    out_joint = out_far + JOINT
    looms = [wire_name(w) for s in reading.amplified for w in reading.wires_in(s) if w.loom]
    out_home = out_joint + (2 * LOOM_GAP + _widest(looms) if looms else 0.0)
    out_wide = _widest(home)
    home_gap = LOOM_GAP if looms else NAME_GAP
    apart = out_home + (2 * home_gap + out_wide if home else 0.0)
    speaker = max(apart, amplifier_to + _widest(leads) + 30) + 24
    names = [w for unit in reading.units("speaker", "factory_speaker")
             if coil_stack(reading, unit.id) is None for w in speaker_words(unit)]  # fmt: skip
    stacks = [coil_stack(reading, unit.id) for unit in reading.units("speaker")]
    beside = max([26 + _widest(names), *(COILS_AT + stack.wide for stack in stacks if stack)])
    many = len(right.amplifiers)
    width = speaker + beside + 10 + (14.0 + 16 * many if many > 1 else 0.0)
    width = width if right.outs else _to_ground_name(reading, amplifier, amplifier_to)
    width += place.grounded_right
    return Columns(plug, name, joint, (near, far), (converter, converter_to),
                   (amplifier, amplifier_to), (crossed, crossed_to), (out, out_far), out_joint,
                   out_home, out_home + home_gap + out_wide / 2, speaker, width,
                   (amplifier - 16 - clear - right.hung_wide, amplifier - 16 - clear),
                   place)  # fmt: skip


def speaker_words(unit: Unit) -> list[str]:
    """The name of a speaker in lines: "factory", "speaker", "front left"."""
    if unit.kind not in ("factory_speaker", "factory_input"):
        return [unit.id]
    return unit.id.split(" ", 2)


def _widest(words: Iterable[str]) -> float:
    return max((text_width(each, TEXT) for each in words), default=0.0)


def first_name(reading: Reading, strand: Strand) -> str:
    """What stands on the car's own stretch of a lane: "A.1 white/red"."""
    terminal = reading.index.terminals[strand.way[0]]
    if reading.kind_of(terminal.id) == "loom":
        return f"{reading.cavity_of(terminal.id)} {insulation(terminal.wire)}"
    if reading.kind_of(terminal.id) != "plug":
        return ""
    return f"{terminal.id} {insulation(terminal.wire)}".strip()


def home_of(reading: Reading, unit: Unit) -> str:
    """Where a plug is home: of a loom, what its plug goes into."""
    if unit.kind == "plug":
        homes = (plugged_into(reading, terminal.id) for terminal in unit.terminals)
        return next((each for each in homes if each), unit.place)
    sockets = [reading.socket_of(terminal.id) for terminal in unit.terminals]
    into = next((each for each in sockets if each), "")
    return reading.index.unit_of(into).place if into else unit.place


def insulation(wire: Wire | None) -> str:
    """The colours of a car's wire in words, or that nobody recorded them."""
    return colours_of(wire) if wire else "not recorded"


def wire_name(wire: CircuitWire) -> str:
    """What interrupts a conductor: its place and colours, its colours, or what it is."""
    if wire.stays:
        return f"{wire.place} {wire.colours}" if wire.wire else wire.id
    if wire.loom:
        return wire.colours if wire.wire else wire.place
    return wire.colours if wire.cable else wire.purpose


def out_name(reading: Reading, strand: Strand) -> str:
    """What interrupts the first wire of a lane to a speaker: nothing where its terminal says it."""
    wire = reading.wires_in(strand)[0]
    said = reading.index.terminals.get(strand.way[0])
    bare = not (wire.cable or wire.stays or wire.size)
    return "" if bare and said and said.name.endswith(wire.purpose) else wire_name(wire)


def sized(wire: CircuitWire) -> str:
    """A single wire with what it is made of: "supply of sub amp, 6 AWG copper"."""
    return f"{wire.id}, {wire.size.words}" if wire.size else wire.id


def _colours(reading: Reading, left: LeftSide) -> list[str]:
    found = [wire_name(w) for lane in left.lanes if lane.strand
             for w in reading.wires_in(lane.strand) if not is_there(w)]  # fmt: skip
    return found + [f"{lane.spare.colours}: spare" for lane in left.lanes if lane.spare]


def _out_colours(reading: Reading, right: RightSide) -> list[str]:
    found = [out_name(reading, lane.strand) for lane in right.outs if lane.strand
             if _in_column(reading.wires_in(lane.strand))]  # fmt: skip
    return found + [f"{lane.spare.colours}: spare" for lane in right.outs if lane.spare]


def _in_column(wires: list[CircuitWire]) -> bool:
    """Whether the first wire of a lane is named in the column of the jackets: it is of one, or
    leads to a wire that was there before."""
    return not is_there(wires[0]) and (bool(wires[0].cable) or any(map(is_there, wires)))


def _fused(reading: Reading, strand: Strand | None) -> bool:
    return strand is not None and any(part.kind == "fuse" for part in reading.elements_in(strand))


def _behind(reading: Reading, strand: Strand) -> float:
    """Room for what stands between a jacket and the terminal: pads, a diode, a driver."""
    parts = [part for part in reading.elements_in(strand) if part.kind not in ("fuse", "diode")]
    held = any(part.kind == "diode" for part in reading.elements_in(strand))
    driver = len(reading.terminals_in(strand)) > 2
    wide = sum(part_width(part.rating) + 22 for part in parts)
    return wide + (110.0 if held else 0.0) + (110.0 if driver else 0.0)


def _box_width(title: Iterable[str], ins: Rows, outs: Rows) -> float:
    """A unit holds the names of its terminals at both edges, and its own above them."""
    widths = [text_width(each, TITLE) + 24 for each in title]
    widths += [text_width(each, TEXT) + 40 for _, each in (*ins, *outs)]
    widths += [
        text_width(one, TEXT) + text_width(other, TEXT) + 34
        for y, one in ins
        for at, other in outs
        if abs(y - at) < ROW
    ]
    return max(*widths, 96.0)


def _amplifier_width(reading: Reading, right: RightSide) -> float:
    names = {t.id: t.name for t in reading.circuit.terminals}
    ins = [(lead.y, names[lead.input]) for d in right.devices for lead in d.inputs]
    ins += [(d.contact_y(at), "turn-on") for d in right.devices for at in range(len(d.switched))]
    ins += [
        (d.inside_y + INSIDE_PITCH * at, words)
        for d in right.devices
        for at, (_, words) in enumerate(d.inside)
    ]
    parts = reading.index.elements
    ins += [(d.turn_on_y - OVER_COIL / 2, COIL_ROOM) for d in right.devices
            if across_coil(d.unit.id) in parts]  # fmt: skip
    outs = [(ln.y, names[ln.strand.way[0]]) for d in right.devices for ln in d.outs
            if ln.strand and not ln.crossover]  # fmt: skip
    leads = [s for d in right.devices for each in d.crossovers for s in reading.leads_to(each)]
    outs += [(d.outs[0].y, names[s.way[0]]) for d in right.devices[:1] for s in leads]
    return _box_width([device.unit.id for device in right.devices], ins, outs)


def _to_ground_name(reading: Reading, amplifier: float, amplifier_to: float) -> float:
    """How far a picture without speakers reaches: to the name of the amplifier's ground."""
    names = [sized(wire) for link in reading.grounds for wire in reading.index.wires_of(link)
             if reading.kind_of(link.begins) == "amplifier"]  # fmt: skip
    return max(amplifier_to + 22.0, amplifier + 88.0 + _widest(names))


def _line_width(reading: Reading, right: RightSide) -> float:
    """The channel between converter and amplifiers holds the names of what runs in it."""
    names = [w.purpose for s in reading.controls for w in reading.wires_in(s) if not w.cable]
    held = HOLD_UP_WIDTH if any(p.kind == "diode" for s in reading.controls
                       for p in reading.elements_in(s)) else 0.0  # fmt: skip
    forks = len(reading.units("y_lead"))
    aside = FORK_FROM + FORK_PITCH * forks if forks else 0.0
    named = _widest(names) + 28 + held
    if len(reading.units("amplifier")) > 1:  # a lead to the lower one passes the names
        return max(named, 110.0) + aside + 12.0 * max(0, len(right.loads) - 1)
    return max(named, 80.0 if reading.is_of_plan else 110.0, aside + 40.0)
