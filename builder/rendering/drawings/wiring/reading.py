"""A circuit read for its picture: which conductors lie in one lane, and what stands beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from builder.planning.circuit.crossover_links import behind
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, CircuitWire, Element, Joint, Link, Unit
from builder.planning.words import LinkClass, UnitKind

Way = tuple[str, ...]
"""Ids of what one lane shows, from left to right: terminals, joints, conductors, elements."""


_OF_THE_CAR: tuple[UnitKind, UnitKind] = ("factory_speaker", "factory_input")
"""What a wire that stays whole leads to."""


@dataclass(frozen=True, slots=True)
class Strand:
    """One lane of the picture. `mate` names the other lane of its pair by its own name."""

    name: str
    way: Way
    carries: LinkClass
    mate: str | None = None


class Reading:
    """The strands of a circuit by where they run."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.index = CircuitIndex(circuit)

    def kind_of(self, terminal: str) -> UnitKind:
        """What kind of unit a terminal is of."""
        return self.index.unit_of(terminal).kind

    def units(self, *kinds: UnitKind) -> list[Unit]:
        """The units of some kinds, in the order of the circuit."""
        return [unit for unit in self.circuit.units if unit.kind in kinds]

    @property
    def is_of_plan(self) -> bool:
        """Whether nobody has chosen the amplifier: the picture then stands beside readings."""
        return any(unit.is_unchosen for unit in self.circuit.units)

    def of_the_car(self, terminal: str) -> bool:
        """Whether a terminal stands at the left: of a plug, a loom on it, or a fuse position."""
        return self.kind_of(terminal) in ("plug", "fuse_position", "interface", "loom")

    def _links(self, carries: LinkClass, *finish: UnitKind) -> Iterator[Link]:
        for link in self.circuit.links:
            if link.carries == carries and (not finish or self.kind_of(link.finishes) in finish):
                yield link

    @cached_property
    def signals(self) -> list[Strand]:
        """From a plug to the converter."""
        return [_strand(link) for link in self._links("speaker_level", "converter", "amplifier")]

    @cached_property
    def kept(self) -> list[Strand]:
        """The car's wires that still lead from their plug to their speaker."""
        return [_strand(link) for link in self._links("speaker_level", *_OF_THE_CAR)]

    @cached_property
    def amplified(self) -> list[Strand]:
        """From an amplifier to a speaker; behind a crossover from its own output on."""
        return [replace(_strand(link), way=behind(self.index, link))
                for link in self._links("amplified", "speaker", "factory_speaker", "factory_input")
                if self.kind_of(link.begins) in ("amplifier", "crossover")]  # fmt: skip

    def leads_to(self, crossover: str) -> list[Strand]:
        """Both wires from an amplifier to a crossover."""
        links = self._links("amplified", "crossover")
        return [_strand(x) for x in links if self.index.unit_of(x.finishes).id == crossover]

    @cached_property
    def lines(self) -> list[Strand]:
        """From the converter to an amplifier, centre and shield apart."""
        return [_strand(link) for link in self._links("line") if any(self.index.wires_of(link))]

    @cached_property
    def controls(self) -> list[Strand]:
        """Every hop of the turn-on chain, in order."""
        return [_strand(link) for link in self._links("control")]

    @cached_property
    def supplies(self) -> list[Link]:
        """What feeds, in order: trunk, branches, the converter's."""
        return list(self._links("supply"))

    @cached_property
    def fed_by_car(self) -> list[Strand]:
        """The converter's supply and ground where the car has them, each from the car on.

        One that shares its cavity with the turn-on is none: a cavity has one lane.
        """
        taken = {strand.way[0] for strand in self.controls}
        found = [_strand(link) for link in self._links("supply", "converter")]
        found += [_turned(_strand(link)) for link in self.grounds
                  if self.kind_of(link.begins) == "converter"]  # fmt: skip
        return [s for s in found if self.of_the_car(s.way[0]) and s.way[0] not in taken]

    @cached_property
    def interface_feeds(self) -> list[Strand]:
        """What feeds a data interface, each from the car on."""
        found = [_strand(link) for link in self._links("supply", "interface")]
        found += [_turned(_strand(link)) for link in self.grounds
                  if self.kind_of(link.begins) == "interface"]  # fmt: skip
        return [strand for strand in found if self.of_the_car(strand.way[0])]

    @cached_property
    def fed_by_block(self) -> Link | None:
        """The converter's supply where it hangs on the distribution block."""
        found = self._links("supply", "converter")
        return next((x for x in found if self.kind_of(x.begins) == "distribution"), None)

    @cached_property
    def grounds(self) -> list[Link]:
        """What leads back, in order."""
        return list(self._links("ground"))

    @cached_property
    def _used(self) -> set[str]:
        return {piece for link in self.circuit.links for piece in link.path}

    @cached_property
    def stubs(self) -> list[Strand]:
        """What is left at a plug of a wire that feeds nothing."""
        return [self._stub(wire) for wire in self._idle() if self._at_plug(wire)]

    @cached_property
    def orphans(self) -> list[Strand]:
        """The other half of such a wire: speaker and wire, fed by nothing."""
        return [self._stub(wire) for wire in self._idle() if not self._at_plug(wire)]

    @cached_property
    def spares(self) -> list[CircuitWire]:
        """Conductors of a jacket that carry nothing."""
        return [w for w in self.circuit.wires if not is_there(w) and w.id not in self._used]

    def _idle(self) -> list[CircuitWire]:
        return [wire for wire in self.circuit.wires if is_there(wire) and wire.id not in self._used]

    def _at_plug(self, wire: CircuitWire) -> bool:
        ends = [end for joint in self._met(wire.ends[0]) for end in joint.joins]
        return any(self._is_plug(end) for end in ends)

    def _is_plug(self, end: str) -> bool:
        """Whether an end is a cavity that goes into the radio."""
        if end not in self.index.terminals:
            return False
        return self.kind_of(end) == "plug" or self.socket_of(end) != ""

    def socket_of(self, terminal: str) -> str:
        """The contact of the radio that a cavity is plugged into, or nothing."""
        homes = [j for j in self._met(terminal) if j.kind == "plug_home"]
        met = [end for joint in homes for end in joint.joins if end in self.index.terminals]
        return next((end for end in met if self.kind_of(end) == "radio"), "")

    def face(self, unit: Unit) -> dict[str, str]:
        """The terminals that stand in the drawn face of a plug, by cavity.

        Of a loom that is the plug that goes into the radio.
        """
        if unit.kind != "loom":
            return {each.name: each.id for each in unit.terminals}
        into = next((t.name for t in unit.terminals if self.socket_of(t.id)), "")
        end = into.rpartition(".")[0]
        return {
            each.name.rpartition(".")[2]: each.id
            for each in unit.terminals
            if each.name.startswith(f"{end}.")
        }

    def cavity_of(self, terminal: str) -> str:
        """The cavity of a terminal, whichever plug of a loom it is in."""
        return self.index.terminals[terminal].name.rpartition(".")[2]

    def kept_at(self, terminal: str) -> Strand | None:
        """The car's wire that still leads to its speaker, of a cavity or the loom's before it."""
        same = {terminal}
        if self.kind_of(terminal) == "loom":
            plug = self.index.unit_of(terminal).id.removeprefix("loom ")
            same.add(f"{plug}.{self.cavity_of(terminal)}")
        return next((each for each in self.kept if each.way[0] in same), None)

    def _met(self, end: str) -> list[Joint]:
        return self.index.joints_of.get(end, [])

    def _stub(self, wire: CircuitWire) -> Strand:
        """A terminal, its joint and the wire, in the order from left to right."""
        near, far = (self._side(end) for end in wire.ends)
        mate = wire.mate if wire.mate and wire.mate not in self._used else None
        return Strand(wire.id, (*near, wire.id, *reversed(far)), wire.carries, mate)

    def _side(self, end: str) -> Way:
        """What stands at an end of a wire: a terminal and a joint, a joint, or nothing."""
        for joint in self._met(end):
            met = [each for each in joint.joins if each in self.index.terminals]
            return (met[0], joint.id) if met else (joint.id,)
        return ()

    @cached_property
    def stand_ins(self) -> list[tuple[Element, Joint, Joint]]:
        """Each resistor across the two radio ends of a pair, with the joints that hold it."""
        found = []
        for part in self.circuit.elements:
            if part.carries == "speaker_level":
                one, other = (self._met(end)[0] for end in part.ends)
                if part.id not in self._used:
                    found.append((part, one, other))
        return found

    @cached_property
    def idle_parts(self) -> list[Element]:
        """The parts that no link passes and that hold a turn-on up."""
        return [
            part
            for part in self.circuit.elements
            if part.carries == "control" and part.id not in self._used
        ]

    def wires_in(self, strand: Strand) -> list[CircuitWire]:
        """The conductors of a lane from left to right."""
        return [self.index.wires[each] for each in strand.way if each in self.index.wires]

    def elements_in(self, strand: Strand) -> list[Element]:
        """The parts on a lane from left to right."""
        return [self.index.elements[each] for each in strand.way if each in self.index.elements]

    def terminals_in(self, strand: Strand) -> list[str]:
        """The terminals of a lane from left to right."""
        return [each for each in strand.way if each in self.index.terminals]


def is_there(wire: CircuitWire) -> bool:
    """Whether a wire was there before this job cut anything: of the car, or of a loom."""
    return wire.stays or bool(wire.loom)


def _strand(link: Link) -> Strand:
    return Strand(link.id, link.path, link.carries, link.mate)


def _turned(strand: Strand) -> Strand:
    return replace(strand, way=strand.way[::-1])
