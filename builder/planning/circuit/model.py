"""A job as a circuit: units with terminals, joined by conductors, joints and elements.

Every sheet of a work pack is a view of it. Two ends that touch are named in one joint; what lies
between two ends is a conductor or an element. A link is one demand from end to end.

An end is named by text, so that a joint can hold any of them: a terminal by its id, "A.7", an end
of a conductor or an element by that one's id and the end's name: `end_of("wire 3", "from")`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from builder.model.wire import Wire
from builder.model.words import Channel
from builder.planning.power.conductors import Conductor
from builder.planning.words import (
    ElementKind,
    EndName,
    JointKind,
    LinkClass,
    TerminalRole,
    UndoneHow,
    UnitKind,
)
from builder.units import Metres

EndId: TypeAlias = str


def end_of(owner: str, name: EndName) -> EndId:
    """Return the id of one end of a conductor or an element.

    >>> end_of("wire 3", "from")
    'wire 3 @from'
    """
    return f"{owner} @{name}"


def colours_of(wire: Wire) -> str:
    """Return insulation as printed: "brown/black"."""
    return f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base


@dataclass(frozen=True, slots=True)
class Terminal:
    """One place of a unit where something can be joined. Unknown figures are None.

    `needed` must be joined, or the unit does not do what the job asks of it. `out_ohm` is the
    source's own resistance, `in_ohm` what it loads a source with.
    """

    id: str  # "A.7", "CVN-2A in 1 +"
    unit: str
    name: str  # as printed on the unit: "in 1 +"
    role: TerminalRole
    carries: LinkClass
    needed: bool = False
    floating: bool = False  # neither leg of its pair is ground
    max_ma: float | None = None  # what it gives
    draw_ma: float | None = None  # what it takes
    out_ohm: float | None = None
    in_ohm: float | None = None
    thickest_awg: str | None = None
    thinnest_awg: str | None = None
    wire: Wire | None = None  # of a cavity: the car's wire in it


@dataclass(frozen=True, slots=True)
class Unit:
    """Whatever has terminals."""

    id: str  # the name a person gives it: "sub amp", "plug A"
    kind: UnitKind
    place: str
    terminals: tuple[Terminal, ...] = ()
    record: str = ""  # the record it is a part of, or ""


@dataclass(frozen=True, slots=True)
class CircuitWire:
    """One conductor: of a cable's jacket, of a loom, of a lead, or of the car.

    `lies_in` is what it is a conductor of: "jacket 2", "loom fenn", "the car's own wire". `place`
    is where in it: "pair 1 positive". `mate` is the other conductor of its pair. `stays` is true
    for a wire that was in the car before.
    """

    id: str
    carries: LinkClass
    purpose: str
    lies_in: str
    place: str
    wire: Wire | None  # None: nobody recorded its colour
    size: Conductor | None
    length_m: Metres | None
    from_place: str
    to_place: str
    mate: str | None = None
    stays: bool = False
    piece: str = ""  # the piece of the cut list it is cut from: "jacket 2", "lead to subwoofer"
    cable: str = ""  # the record of the cable it is cut from, or ""
    route_m: Metres | None = None  # what was measured, where its length is longer

    @property
    def ends(self) -> tuple[EndId, EndId]:
        """Its two ends, as joints name them."""
        return end_of(self.id, "from"), end_of(self.id, "to")

    @property
    def colours(self) -> str:
        """The insulation as printed: "brown/black"; of a wire that nobody described, so."""
        if self.wire is None:
            return "not recorded" if self.stays else "as bought"
        return colours_of(self.wire)


@dataclass(frozen=True, slots=True)
class Element:
    """A part with two leads: a fuse [A], a resistor [Ω], a capacitor [µF], a diode [A].

    Current runs from the first lead to the second in a diode.
    """

    id: str
    kind: ElementKind
    value: float
    rating: str  # what is ordered: "560 Ω 0.25 W", "1 A"
    place: str
    purpose: str
    carries: LinkClass

    @property
    def ends(self) -> tuple[EndId, EndId]:
        """Its two leads, as joints name them."""
        return end_of(self.id, "from"), end_of(self.id, "to")


@dataclass(frozen=True, slots=True)
class Joint:
    """Where ends touch. `sleeve` and `closed_by` say what insulates it."""

    id: str
    kind: JointKind
    place: str
    joins: tuple[EndId, ...]
    closed_by: str  # "adhesive sleeve", "the plug's own shell"
    undone: UndoneHow


@dataclass(frozen=True, slots=True)
class Link:
    """One demand, end to end: ids of terminals, joints, conductors and elements, in order.

    `proved_by` are the lines of the bay sheet that would show it open or wrong.
    """

    id: str
    carries: LinkClass
    purpose: str  # "front left signal +"
    path: tuple[str, ...]
    mate: str | None = None  # the link of the other leg
    channel: Channel | None = None
    proved_by: tuple[str, ...] = ()

    @property
    def begins(self) -> str:
        """The terminal it begins at."""
        return self.path[0]

    @property
    def finishes(self) -> str:
        """The terminal it ends at."""
        return self.path[-1]


@dataclass(frozen=True, slots=True)
class OpenEnd:
    """An end that is left on purpose: why, and how it is closed off."""

    end: EndId
    what: str
    place: str
    because: str
    closed_by: str


@dataclass(frozen=True, slots=True)
class Circuit:
    """The finished job. Ids are unlike within it."""

    units: tuple[Unit, ...] = ()
    wires: tuple[CircuitWire, ...] = ()
    elements: tuple[Element, ...] = ()
    joints: tuple[Joint, ...] = ()
    links: tuple[Link, ...] = ()
    open_ends: tuple[OpenEnd, ...] = ()

    @property
    def terminals(self) -> Iterator[Terminal]:
        """Every terminal of every unit."""
        return (terminal for unit in self.units for terminal in unit.terminals)
