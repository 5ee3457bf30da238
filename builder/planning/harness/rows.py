"""The rows of a loom's bench sheet: its wires, what becomes of each, and how it is rung out."""

from __future__ import annotations

from typing import Final, Literal

from builder.declaring import answer, figure, listed, text, word
from builder.model.parts.loom import LoomMade

CLOSED_OFF: Final = "closed off by itself"

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
        "jacket 1 pair 1 positive, brown, from CVN-2A in 1 +",
    )  # fmt: skip
    car_side: str = text("The same of its side towards the car's plug.")


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


@answer
class LoomSheet:
    """The bench sheet of a loom: what is done on a table before the car is touched."""

    loom: str = text("What it is called on every sheet.", "loom A")
    record: str = text("The loom's record.", "ok-x16")
    title: str = text("What a person calls it.")
    made: LoomMade = word("Where it comes from.")
    between: str = text("Where it goes.", "plug A and the radio")
    length_m: float | None = figure("From end to end.", "m", above=0)
    wires: tuple[LoomWireRow, ...] = listed("Every wire, by its cavities.")
    needs: tuple[str, ...] = listed("What is laid out first, with quantities.")
    order: tuple[str, ...] = listed("What is done, in order.")
    ring_out: tuple[RingOutRow, ...] = listed("Every measurement, in order.")
    bundle: tuple[str, ...] = listed("What is tied together for the lines that want all others.")
