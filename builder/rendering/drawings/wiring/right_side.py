"""The right of the picture: amplifiers one below the other, each with its inputs and speakers.

An amplifier takes the line leads and the turn-on at its left edge and gives to its speakers at its
right edge. Its terminals stand at the heights of their lanes, so that no lane bends.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial

from builder.planning.circuit.crossover_links import feeds
from builder.planning.circuit.model import Unit
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.inside_box import inside
from builder.rendering.drawings.wiring.out_lanes import LEG_PITCH, OutLane, out_lanes
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.scene import HUNG_WIDE, PAIR_PITCH, TITLE

HEAD_ROOM = 54.0  # from the top of an amplifier to its first lane: its name
UNCHOSEN = 14.0  # more, below the name of an amplifier that nobody has chosen
SPEAKER_PITCH = 44.0  # between two speakers
NEW_JACKET = 30.0  # more, where another jacket begins: its name
LINE_PITCH = 27.0
INSIDE_PITCH = 16.0  # between rows that say what an amplifier joins inside
CONTACT_PITCH = 14.0  # between wires in one terminal
CROSSOVER_PITCH = 66.0  # between what stands above a crossover and its first terminal
BETWEEN = 60.0  # two amplifiers
OVER_COIL = 32.0  # between the two ends of a relay's coil
HOLD_UP_BELOW = 98.0


@dataclass(slots=True)
class LineInput:
    """One line lead as it comes in: centre and shield."""

    strands: tuple[Strand, ...]
    y: float = 0.0

    @property
    def output(self) -> str:
        """The terminal it comes from."""
        return self.strands[0].way[0]

    @property
    def input(self) -> str:
        """The terminal it goes to."""
        return self.strands[0].way[-1]


@dataclass(slots=True)
class Device:
    """An amplifier, or something else that the turn-on switches."""

    unit: Unit
    inputs: list[LineInput] = field(default_factory=list)
    outs: list[OutLane] = field(default_factory=list)
    switched: list[Strand] = field(default_factory=list)  # turn-on wires that meet here
    inside: list[tuple[str, str]] = field(default_factory=list)  # terminal, and what it hears
    inside_y: float = 0.0
    turn_on_y: float = 0.0
    top: float = 0.0
    bottom: float = 0.0
    held_up: bool = False
    gnd_y: float = 0.0  # of something switched that has a ground of its own
    crossovers: list[str] = field(default_factory=list)  # that it feeds
    hangs: bool = False  # below the converter, its turn-on at the right

    def strand_y(self, strand: Strand) -> float:
        """Where a turn-on wire is clamped."""
        return self.contact_y(self.switched.index(strand))

    def contact_y(self, at: int) -> float:
        """Where the turn-on wire of that number is clamped."""
        return self.turn_on_y + at * CONTACT_PITCH


@dataclass(slots=True)
class RightSide:
    """Every device from top to bottom, then the speakers that nothing feeds."""

    devices: list[Device]
    silent: list[OutLane]
    height: float = 0.0
    hung: list[Device] = field(default_factory=list)  # what is switched beside one amplifier

    @property
    def switched(self) -> list[Device]:
        """Everything that the turn-on reaches, in the order from top to bottom."""
        return self.devices + self.hung

    @property
    def loads(self) -> list[Device]:
        """What is switched and is no amplifier, and leads its current back by a wire."""
        return [x for x in self.switched if x.unit.kind == "turn_on_load"
                and any(each.carries == "ground" for each in x.unit.terminals)]  # fmt: skip

    @property
    def hung_wide(self) -> float:
        """How wide the boxes below the converter are; 0 where there is none."""
        widths = (max(HUNG_WIDE, text_width(x.unit.id, TITLE) + 24) for x in self.hung)
        return max(widths, default=0.0)

    def of(self, unit: str) -> Device | None:
        """The device that is a unit."""
        return next((each for each in self.switched if each.unit.id == unit), None)

    @property
    def amplifiers(self) -> list[Device]:
        """Those that have a supply of their own."""
        return [each for each in self.devices if each.unit.kind == "amplifier"]

    @property
    def outs(self) -> list[OutLane]:
        """Every lane to the right of them."""
        return [lane for each in self.devices for lane in each.outs] + self.silent


def right_side(reading: Reading) -> RightSide:
    """Return the amplifiers and their lanes, stacked from y = 0."""
    order = [_device(reading, unit) for unit in _in_order(reading)]
    for device in order:
        device.switched.sort(key=partial(_nested, reading, order, device))
    alone = sum(each.unit.kind == "amplifier" for each in order) == 1
    devices = order[:1] if alone else order
    _forked_first(devices)
    silent = [OutLane(s, "", None, reading.index.unit_of(s.way[-1]).id) for s in reading.orphans]
    side = RightSide(devices, silent, hung=order[len(devices) :])
    _stack(reading, side)
    return side


def _forked_first(devices: list[Device]) -> None:
    """An input that shares its output with a device above stands before the others: the lead that
    comes down to it then passes none of theirs.
    """
    above: set[str] = set()
    for device in devices:
        device.inputs.sort(key=lambda lead: lead.output not in above)
        above |= {lead.output for lead in device.inputs}


def _nested(
    reading: Reading, devices: list[Device], own: Device, strand: Strand
) -> tuple[int, int]:
    """What leads up is clamped above what leads down, the nearest outermost: so none crosses."""
    order = [device.unit.id for device in devices]
    ends = {reading.index.unit_of(end).id for end in (strand.way[0], strand.way[-1])}
    other = next((order.index(each) for each in ends - {own.unit.id} if each in order), None)
    here = order.index(own.unit.id)
    if other is None:
        return 1, 0
    return (0, here - other) if other < here else (2, here - other)


def _in_order(reading: Reading) -> list[Unit]:
    """The one with the fewest outputs stands on top: the supply of the others passes those.

    Of equals the one that feeds the converter does; what else is switched stands below it.
    """
    amplifiers = reading.units("amplifier")
    feeds = {link.begins for link in reading.supplies if reading.kind_of(link.finishes) ==
             "converter"}  # fmt: skip
    leads = [s for unit in reading.units("crossover") for s in reading.leads_to(unit.id)]
    outputs = [strand.way[0] for strand in (*reading.amplified, *leads)]
    cabled = [s.way[0] for s in reading.amplified if any(w.cable for w in reading.wires_in(s))]
    amplifiers.sort(
        key=lambda unit: (
            sum(t.id in outputs for t in unit.terminals),
            any(t.id in cabled for t in unit.terminals),
            not any(t.id in feeds for t in unit.terminals),
        )
    )
    loads = reading.units("turn_on_load")
    first, rest = amplifiers[:1], amplifiers[1:]
    return [*first, *loads, *rest]


def _device(reading: Reading, unit: Unit) -> Device:
    own = {terminal.id for terminal in unit.terminals}
    device = Device(unit)
    device.inputs = _inputs(reading, [s for s in reading.lines if s.way[-1] in own])
    device.crossovers = [each.id for each in reading.units("crossover")
                         if unit.id in feeds(reading.index, each)]  # fmt: skip
    driving = own | {each.id for name in device.crossovers
                     for each in reading.index.units[name].terminals}  # fmt: skip
    device.outs = out_lanes(reading, [s for s in reading.amplified if s.way[0] in driving])
    device.switched = [s for s in reading.controls if own & {s.way[0], s.way[-1]}]
    device.inside = inside(reading, unit)
    into = [s for s in device.switched if s.way[-1] in own]
    device.held_up = any(reading.elements_in(s)[-1:] and reading.elements_in(s)[-1].kind == "diode"
                         for s in into)  # fmt: skip
    return device


def _inputs(reading: Reading, strands: list[Strand]) -> list[LineInput]:
    leads: dict[str, list[Strand]] = {}
    for strand in strands:
        leads.setdefault(reading.wires_in(strand)[0].piece, []).append(strand)
    found = [LineInput(tuple(each)) for each in leads.values()]
    return sorted(found, key=lambda lead: lead.output)


def _stack(reading: Reading, side: RightSide) -> None:
    y = 0.0
    for at, device in enumerate(side.devices):
        device.top = y
        if device.unit.kind == "amplifier":
            _place(device, turn_on_first=at > 0)
        else:
            _place_load(device)
        y = device.bottom + BETWEEN
        last = at + 1 == len(side.devices) or device.unit.kind != "amplifier"
        y -= 24.0 if last or side.devices[at + 1].unit.kind != "amplifier" else 0.0
    for before, lane in zip([None, *side.silent], side.silent, strict=False):
        y += _out_pitch(before, lane) if before else 34.0
        lane.y = y
    side.height = max((y for y in (y,)), default=0.0) - (0.0 if side.silent else BETWEEN - 24)


def _place_load(device: Device) -> None:
    device.turn_on_y = device.top + 32
    if any(each.carries == "ground" for each in device.unit.terminals):
        device.gnd_y = device.top + 38
        device.turn_on_y = device.gnd_y + OVER_COIL
    device.bottom = device.turn_on_y + 14 + CONTACT_PITCH * (len(device.switched) - 1)


def _place(device: Device, *, turn_on_first: bool) -> None:
    """Give an amplifier's terminals their heights."""
    head = device.top + HEAD_ROOM + (UNCHOSEN if device.unit.is_unchosen else 0.0)
    y = head
    for before, lane in zip([None, *device.outs], device.outs, strict=False):
        y += _out_pitch(before, lane) if before else (NEW_JACKET / 2 if lane.jacket else 0.0)
        lane.y = y
    right = y + 34.0 + (device.outs[-1].below if device.outs else 0.0)
    y = head
    span = CONTACT_PITCH * max(0, len(device.switched) - 1)
    if turn_on_first:
        device.turn_on_y, y = y, y + span + LINE_PITCH + 4
    for lead in device.inputs:
        lead.y, y = y, y + LINE_PITCH
    device.inside_y, y = y - LINE_PITCH / 3, y + INSIDE_PITCH * len(device.inside)
    if not turn_on_first:
        device.turn_on_y, y = y + 6, y + 6 + span + LINE_PITCH
    if device.held_up:
        y += HOLD_UP_BELOW
    device.bottom = max(right, y + 8, device.top + 110.0)


def _out_pitch(before: OutLane, lane: OutLane) -> float:
    if lane.spare:
        return PAIR_PITCH + 2
    if before.speaker == lane.speaker:
        return lane.apart
    if lane.crossover and before.crossover != lane.crossover:
        return CROSSOVER_PITCH
    apart = SPEAKER_PITCH - LEG_PITCH + before.below
    return apart + (NEW_JACKET - (17.0 if before.spare else 0.0) if lane.jacket != before.jacket
                    else 2.0)  # fmt: skip
