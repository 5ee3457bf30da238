"""What has to come off before a place can be reached, and the ways through a bulkhead."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, listed, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import LINE, SENTENCE, TRI
from builder.model.words import Tri

AccessKind = Literal["panel", "seat", "cover"]
Grommet = Literal["own", "blank", "none", "unknown"]


@record
class Fastener:
    """One kind of fastener."""

    head: str = text("Its head and size.", "six-lobe 20", form=LINE)
    count: int = figure("How many there are.", "pieces", 4, least=1, most=100)


@record
class Removal:
    """How the radio comes out."""

    steps: tuple[str, ...] = listed(
        "The steps in order.", ["prise the trim ring off from below", "four screws"], least=1,
        most=60, form=SENTENCE,
    )  # fmt: skip
    fasteners: tuple[Fastener, ...] = listed(
        "What holds it.", [{"head": "six-lobe 20", "count": 4}], most=20, default=(),
    )  # fmt: skip
    hazards: tuple[str, ...] = listed(
        "What breaks or hurts on the way.", ["the hazard-switch ribbon is short"], most=20,
        form=SENTENCE, default=(),
    )  # fmt: skip
    behind: tuple[str, ...] = listed(
        "The parts of `access` that come off before it, by their names.", ["trim ring"], most=10,
        unique=True, form=LINE, default=(),
        label="Comes out after",
    )  # fmt: skip
    restraint: Tri = word(
        "Whether a restraint part, its plug or its lead is within reach of the work; left out it "
        "is unknown and counts as yes.", "no", form=TRI, default="unknown",
        label="Restraint part near when it comes out",
        settles="the vehicle maker's instructions; yellow plugs and sleeves along the way",
    )  # fmt: skip
    minutes: float | None = figure(
        "How long hands need to take the radio out, the parts before it aside, in minutes, or "
        "unknown.", "min", None, above=0, most=240, unknown=True, default=None,
        label="Time for the radio alone",
    )  # fmt: skip


@record
class AccessPart:
    """A part that comes off, and what it uncovers."""

    name: str = text("What people call it; no two in a car alike.", "trim ring", form=LINE)
    kind: AccessKind = word(
        "What it is.", "panel",
        means={"panel": "A piece of trim.", "seat": "A seat or a bench.",
        "cover": "A lid, a flap or a carpet."},
    )  # fmt: skip
    uncovers: tuple[str, ...] = listed(
        "The places that it uncovers, in the words of jobs and of this record: radio, where a "
        "plug is, a restraint zone, where a fuse panel is.", ["radio", "left luggage side"],
        least=1, most=20, unique=True, form=LINE,
    )  # fmt: skip
    behind: tuple[str, ...] = listed(
        "The parts that come off before it, by their names.", ["left sill strip"], most=10,
        unique=True, form=LINE, default=(),
    )  # fmt: skip
    steps: tuple[str, ...] = listed(
        "How it comes off, in order; left out when nobody wrote it down.",
        ["prise it off from below with a flat plastic lever"], most=60, form=SENTENCE, default=(),
    )  # fmt: skip
    fasteners: tuple[Fastener, ...] = listed(
        "What holds it.", [{"head": "plastic clip", "count": 6}], most=20, default=(),
    )  # fmt: skip
    hazards: tuple[str, ...] = listed(
        "What breaks or hurts on the way.", ["its clips break when it is cold"], most=20,
        form=SENTENCE, default=(),
    )  # fmt: skip
    restraint: Tri = word(
        "Whether a restraint part, its plug or its lead is within reach of the work: a bag, a "
        "belt tensioner; left out it is unknown and counts as yes.", "no", form=TRI,
        default="unknown",
        settles="the vehicle maker's instructions; yellow plugs and sleeves along the way",
    )  # fmt: skip
    plugs: tuple[str, ...] = listed(
        "The plugs that have to come off with it, as people call them.",
        ["yellow plug under the seat"], most=10, unique=True, form=LINE, default=(),
    )  # fmt: skip
    minutes: float | None = figure(
        "How long hands need to take it off, in minutes, or unknown.", "min", None, above=0,
        most=240,
        unknown=True, default=None,
    )  # fmt: skip
    travel_mm: float | None = figure(
        "How far a seat slides over what lies under it, in millimetres, or unknown.", "mm", None,
        above=0, most=1000, unknown=True, default=None,
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        when("Only a seat slides; a panel or a cover has no travel.", "kind", "panel",
             "cover").bars("travel_mm"),
    )  # fmt: skip


@record
class Passage:
    """A way through a bulkhead."""

    name: str = text("What people call it; no two in a car alike.", "main grommet", form=LINE)
    where: str = text(
        "Where it is.", "left of the brake booster, behind the sound mat", form=LINE,
    )  # fmt: skip
    between: tuple[str, ...] = listed(
        "The two places that it joins.", ["engine bay", "driver's footwell"], least=2, most=2,
        unique=True, form=LINE,
    )  # fmt: skip
    grommet: Grommet = word(
        "What closes it today.", "own",
        means={"own": "A grommet that a loom of the car goes through.",
        "blank": "A grommet or plug with nothing in it.", "none": "Bare sheet metal.",
        "unknown": "Nobody has looked, or nobody could tell; it counts as bare sheet metal."},
    )  # fmt: skip
    free_mm: float | None = figure(
        "How thick a cable it still takes, in millimetres, or unknown.", "mm", None, above=0,
        most=100, unknown=True, default=None,
    )  # fmt: skip
    hazards: tuple[str, ...] = listed(
        "What is to be minded there.", ["the brake pipe runs a finger's width above it"], most=20,
        form=SENTENCE, default=(),
    )  # fmt: skip
    path: DataPath = ()
