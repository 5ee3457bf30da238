"""The rows of a loom's bench sheet: its wires, what becomes of each, and how it is rung out."""

from __future__ import annotations

from typing import Final, Literal

from builder.declaring import answer, figure, listed, text, word
from builder.model.parts.loom import LoomMade

CLOSED_OFF: Final = "closed off by itself"

SleeveOn = Literal["before", "after", "none"]
"""When the sleeve of a joint is put on: before the crimp, on the core; after it, over the free tip;
never, where a whole wire is wrapped."""

LoomDoing = Literal["through", "cut", "beside", "branch", "closed"]
"""What becomes of a wire of a loom: it stays as it is; it is cut and both sides are used or closed
off; it stays whole and another is joined beside it; a branch brings it out already, and it is used;
or nothing is joined to it, and its bare end is closed off."""


@answer
class LoomWireRow:
    """One wire of a loom: three colours beside each other, and what becomes of it."""

    wire: str = text("Between which cavities it runs.", "radio end.1 to car end.1")
    carries: str = text("What the car sends through it.", "front left speaker leg +")
    doing: LoomDoing = word("What becomes of it.")
    car_colour: str = text("The car's wire in the same cavity.", "green/white")
    loom_colour: str = text("The loom's own.", "white")
    size: str = text("Size and metal, or that nobody recorded it.", "1 mm² copper")
    length_m: float | None = figure("How long it is, whole.", "m", above=0)
    joint_mm: float | None = figure(
        "Where it is cut or joined beside, from the face of the plug that goes into the unit.",
        "mm", above=0,
    )  # fmt: skip
    unit_side: str = text(
        "What is joined to its side towards the unit, or that it is closed off.",
        "cable 1 pair 1 positive, brown, from CVN-2A in 1 +",
    )  # fmt: skip
    car_side: str = text("The same of its side towards the car's plug.")
    joints: tuple[int, ...] = listed("Its lines of the joint list.", default=())
    fuse: str = text("The fuse in it, or empty.", "2 A", default="")


@answer
class LoomJointRow:
    """One place of a loom where something is joined or closed off. Unknown millimetres are None.

    On the bundle all are from the back of the plug that goes into the unit; on a branch, from where
    it leaves the bundle.
    """

    number: int = figure("Its place in the list.", "", least=1)
    joint: str = text("The joint of the circuit; empty where an end is closed off.", "joint 7")
    wire: str = text("The wire of the loom.", "radio end.1 to car end.1")
    side: str = text("Which side of it, or where on it.", "radio end's half")
    colour: str = text("The loom's own wire.", "white")
    branch: str = text("The branch that it lies on; empty on the bundle.", "car fronts")
    joined: str = text(
        "What is joined there, or that it is closed off.",
        "cable 1 pair 1 positive, brown, to CVN-2A in 1 +",
    )  # fmt: skip
    core: str = text("The core that is joined there, or empty.", "cable 1 pair 1 positive, brown")
    cable: str = text("The cable that it is of, or empty.", "cable 1")
    cut_mm: float | None = figure("Where the loom's wire is cut.", "mm", least=0)
    tip_mm: float | None = figure("Where its tip lies after that.", "mm", least=0)
    core_mm: float | None = figure(
        "How long the core is from its jacket to its tip.", "mm", above=0
    )
    sleeve_from_mm: float | None = figure("Where its sleeve begins.", "mm", least=0)
    sleeve_to_mm: float | None = figure("Where its sleeve ends.", "mm", above=0)
    barrel: str = text("The crimp barrel, by the copper that it holds.", "1.5 to 2.5 mm²")
    sleeve: str = text("Its sleeve: the bore as bought, and after heating.", "6 / 2 mm")
    sleeve_on: SleeveOn = word("When its sleeve is put on.", default="none")


@answer
class LoomCableRow:
    """One cable, or single wire, whose end comes to a loom."""

    cable: str = text("What it is called.", "cable 1")
    material: str = text("What it is cut from.", "five-core-18")
    length_m: float | None = figure("How long it is cut.", "m", above=0)
    bands: int = figure("How many bands of tape mark it; none on a single wire.", "", least=0)
    label: str = text("What both of its labels say.", "cable 1: from radio, to converter")
    comes: str = text("Which of its ends comes to the loom.", "radio")
    branch: str = text("The branch that it is joined at; empty on the bundle.", "car fronts")
    edge_mm: float | None = figure(
        "Where its jacket ends: from the back of the unit's plug, or from where the branch leaves.",
        "mm", above=0,
    )  # fmt: skip
    off_mm: float | None = figure("How much jacket comes off.", "mm", above=0)
    joints: tuple[int, ...] = listed("Its lines of the joint list.")
    others: tuple[str, ...] = listed("Its cores that are joined to nothing here.", default=())


@answer
class RingOutRow:
    """One measurement of a loom. Without a limit nothing may be read."""

    number: int = figure("Its place in the list.", "", least=1)
    what_for: str = text("What it finds.")
    probe: str = text("Where one probe is held.")
    other: str = text("Where the other is held, or what is tied together.")
    joined: bool = word("Whether the two must be joined; apart otherwise.")
    most: float | None = figure("The most that may be read, in `unit`; null where open or unknown.",
                                "", above=0)  # fmt: skip
    unit: str = text("Ω or mV, or empty.")
    at_a: float | None = figure("The current it is read at.", "A", above=0)
    of_cable: float | None = figure("The part of `most` that the cable itself takes.", "", least=0)
    least: float | None = figure(
        "The least that may be read, in `unit`: what its cable alone makes; null where none is "
        "known.", "", above=0, default=None,
    )  # fmt: skip


@answer
class LoomNeed:
    """Something small that a loom takes on the table, without a spare."""

    item: str = text("What.", "adhesive sleeve, of 6 to 2 mm")
    quantity: int = figure("How many.", "", least=1)


@answer
class LoomSheet:
    """The bench sheet of a loom: what is done on a table before the car is touched."""

    loom: str = text("What it is called on every sheet.", "loom A")
    record: str = text("The loom's record.", "ok-x16")
    title: str = text("What a person calls it.")
    made: LoomMade = word("Where it comes from.")
    between: str = text("Where it goes.", "plug A and the radio")
    length_m: float | None = figure("From end to end.", "m", above=0)
    unit_end: str = text("The end that goes into the unit.", "radio end")
    car_end: str = text("The end that takes the car's plug.", "car end")
    wires: tuple[LoomWireRow, ...] = listed("Every wire, by its cavities.")
    cables: tuple[LoomCableRow, ...] = listed("Every cable that comes to it.")
    joints: tuple[LoomJointRow, ...] = listed(
        "Every joint that is made on it and every end that is closed off, in the order of the work."
    )
    terms: tuple[str, ...] = listed("What the words and codes of the sheet mean.")
    needs: tuple[str, ...] = listed("What is laid out first, with quantities.")
    counts: tuple[LoomNeed, ...] = listed("What of it is small and bought, one line a size.")
    rules: tuple[str, ...] = listed("How each thing is done, for all steps that do it.")
    order: tuple[str, ...] = listed("What is done, in order.")
    measuring: tuple[str, ...] = listed("How the lines of the ring-out are measured.")
    failing: tuple[str, ...] = listed("What is done when a line of it fails.")
    ring_out: tuple[RingOutRow, ...] = listed("Every measurement, in order.")
    bundle: tuple[str, ...] = listed("What hangs on the bar for the lines that want all others.")
