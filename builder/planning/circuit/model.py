"""A job as a circuit: units with terminals, joined by conductors, joints and elements.

Every sheet of a work pack is a view of it. Two ends that touch are named in one joint; what lies
between two ends is a conductor or an element. A link is one demand from end to end.

An end is named by text, so that a joint can hold any of them: a terminal by its id, "A.7", an end
of a conductor or an element by that one's id and the end's name: `end_of("wire 3", "from")`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, TypeAlias

from builder.declaring import answer, figure, listed, text, word
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


MAKERS_OWN: Final[frozenset[ElementKind]] = frozenset({"coil", "low-pass", "high-pass"})
"""Parts that their maker joined inside a unit: nobody fits them or takes them out."""


def end_of(owner: str, name: EndName) -> EndId:
    """Return the id of one end of a conductor or an element.

    >>> end_of("wire 3", "from")
    'wire 3 @from'
    """
    return f"{owner} @{name}"


def colours_of(wire: Wire) -> str:
    """Return insulation as printed: "brown/black"."""
    return f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base


@answer
class Terminal:
    """One place of a unit where something can be joined. Unknown figures are None.

    `needed` must be joined, or the unit does not do what the job asks of it.
    """

    id: str = text("Its name among all terminals.", "CVN-2A in 1 +")
    unit: str = text("The unit that has it.")
    name: str = text("Its name on the unit.", "in 1 +")
    role: TerminalRole = word("Whether it gives, takes or only passes.")
    carries: LinkClass = word("The class of what is joined to it.")
    needed: bool = word("Whether it must be joined.", default=False)
    floating: bool = word("Whether neither leg of its pair is ground.", default=False)
    limits_itself: bool = word(
        "Whether it gives far less than any wire stands, by itself.", default=False
    )
    max_ma: float | None = figure("The most it gives.", "mA", default=None)
    draw_ma: float | None = figure("What it takes.", "mA", default=None)
    out_ohm: float | None = figure("The source's own resistance.", "Ω", default=None)
    in_ohm: float | None = figure("What it loads a source with.", "Ω", default=None)
    thickest_awg: str | None = text("The thickest wire it takes.", default=None)
    thinnest_awg: str | None = text("The thinnest wire it takes.", default=None)
    wire: Wire | None = None  # of a cavity: the car's wire in it
    colour: str = text("Of a cavity: the car's wire in it, or empty.", default="")
    plays: tuple[Channel, ...] = ()  # of a line output: the factory channels whose sound it gives


@answer
class Unit:
    """Whatever has terminals."""

    id: str = text("The name a person gives it.", "sub amp")
    kind: UnitKind = word("What it is.")
    place: str = text("Where it is.")
    terminals: tuple[Terminal, ...] = listed("Its terminals.", default=())
    record: str = text("The record it is one of, or empty.", default="")

    @property
    def is_unchosen(self) -> bool:
        """Whether it is an amplifier that nobody has chosen: of a plan, no job has one."""
        return self.kind == "amplifier" and not self.record


@answer
class CircuitWire:
    """One conductor: of a cable's jacket, of a loom, of a lead, or of the car."""

    id: str = text("Its name among all conductors.", "cable 1 pair 1 positive")
    carries: LinkClass = word("The class of what it carries.")
    purpose: str = text("What it is for.")
    lies_in: str = text("What it is a conductor of.", "cable 1")
    place: str = text("Where in it.", "pair 1 positive")
    wire: Wire | None
    size: Conductor | None
    length_m: Metres | None = figure("How long it is, one way.", "m")
    from_place: str = text("Where it begins.")
    to_place: str = text("Where it ends.")
    mate: str | None = text("The other conductor of its pair.", default=None)
    stays: bool = word("Whether it was in the car before.", default=False)
    piece: str = text("The piece of the cut list it is cut from.", default="")
    cable: str = text("The record of the cable or loom it is of, or empty.", default="")
    loom: str = text("The loom it is a wire of, or empty.", "loom A", default="")
    route_m: Metres | None = figure("The measured way, where it is longer.", "m", default=None)
    way: str = text(
        "The places and ways through a bulkhead that it lies along, or empty where nobody said.",
        "main grommet, left sill", default="",
    )  # fmt: skip
    length_taken: str = text(
        "Of a length that nobody measured: where it comes from; else empty.", default=""
    )  # fmt: skip
    made_here: bool = word("Whether it is a line lead made at the bench.", default=False)
    conductor: str = text("Size and metal, or empty.", default="")
    colour: str = text("Its colours, or empty.", default="")

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


@answer
class Element:
    """A part with two leads: a fuse [A], a resistor or coil [Ω], a capacitor [µF], a diode [A].

    Current runs from the first lead to the second in a diode.
    """

    id: str = text("Its name among all parts.")
    kind: ElementKind = word("What it is.")
    value: float = figure("Its value: A of a fuse or diode, Ω, µF.", "")
    rating: str = text("What is ordered.", "560 Ω 0.25 W")
    place: str = text("Where it is fitted.")
    purpose: str = text("What it is for.")
    carries: LinkClass = word("The class of what it carries.")
    loom: str = text("The loom it was part of before, or empty.", "loom A", default="")

    @property
    def ends(self) -> tuple[EndId, EndId]:
        """Its two leads, as joints name them."""
        return end_of(self.id, "from"), end_of(self.id, "to")


@answer
class Joint:
    """Where ends touch."""

    id: str = text("Its name.", "joint 7")
    kind: JointKind = word("How the ends touch.")
    place: str = text("Where it is.")
    joins: tuple[EndId, ...] = listed("What touches: terminals, and ends of conductors and parts.")
    closed_by: str = text("What insulates it.")
    undone: UndoneHow = word("The way back.")


@answer
class Link:
    """One demand, end to end: ids of terminals, joints, conductors and elements, in order."""

    id: str = text("Its name.", "front left signal +")
    carries: LinkClass = word("The class of what it carries.")
    purpose: str = text("What it is for.")
    path: tuple[str, ...] = listed("What it runs through, from terminal to terminal.")
    mate: str | None = text("The link of the other leg.", default=None)
    channel: Channel | None = word("The channel it belongs to.", default=None)
    set_by: str = text(
        "The switch that makes it, and how that is set; empty for any other.",
        "input 5 sums inputs 1/2", default="",
    )  # fmt: skip

    @property
    def begins(self) -> str:
        """The terminal it begins at."""
        return self.path[0]

    @property
    def finishes(self) -> str:
        """The terminal it ends at."""
        return self.path[-1]


@answer
class OpenEnd:
    """An end that is left on purpose: why, and how it is closed off."""

    end: EndId = text("The end.")
    what: str = text("What it is, for a person.")
    place: str = text("Where it is.")
    because: str = text("Why it stays open.")
    closed_by: str = text("What closes it off.")


@answer
class Circuit:
    """The finished job. Ids are unlike within it."""

    units: tuple[Unit, ...] = listed("Whatever has terminals.", default=())
    wires: tuple[CircuitWire, ...] = listed("Every conductor.", default=())
    elements: tuple[Element, ...] = listed(
        "Fuses, resistors, capacitors, diodes, voice coils.", default=()
    )
    joints: tuple[Joint, ...] = listed("Where ends touch.", default=())
    links: tuple[Link, ...] = listed("Every demand, end to end.", default=())
    open_ends: tuple[OpenEnd, ...] = listed("What stays open on purpose.", default=())

    @property
    def terminals(self) -> Iterator[Terminal]:
        """Every terminal of every unit."""
        return (terminal for unit in self.units for terminal in unit.terminals)
