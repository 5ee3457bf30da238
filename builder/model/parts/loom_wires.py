"""The wires of a loom: between which cavities each runs, and what it looks like."""

from __future__ import annotations

from typing import Literal, NamedTuple

from builder.declaring import figure, given, listed, part, record, text, without, word
from builder.model.forms import CAVITY, NOTE
from builder.model.loom_forms import LOOM_NAME, LOOM_POINT
from builder.model.wire import Wire

LoomCarries = Literal["supply", "ground", "speaker", "control", "signal", "data"]
SpliceMade = Literal["crimp", "solder", "welded", "unknown"]


class Point(NamedTuple):
    """Where a wire ends: a cavity of an end or branch; `cavity` is "" for a bare end or splice."""

    place: str
    cavity: str = ""

    @property
    def shown(self) -> str:
        """The point as it is typed: "radio end.11", "branch 1"."""
        return f"{self.place}.{self.cavity}" if self.cavity else self.place


def point_of(typed: str) -> Point:
    """A point as a record names it."""
    place, _, cavity = typed.partition(".")
    return Point(place, cavity)


@record
class LoomWire:
    """One wire, or with `through` the wires that run straight from the first end to the second."""

    start: Point | None = text(
        "Where it begins: a cavity, a branch that ends bare, or a splice.", "radio end.1",
        form=LOOM_POINT, key="from", read=point_of, default=None,
    )  # fmt: skip
    to: Point | None = text(
        "Where it ends, in the same words.", "branch 1", form=LOOM_POINT, read=point_of,
        default=None,
    )  # fmt: skip
    through: tuple[str, ...] = listed(
        "In place of from and to: the cavities whose wires run straight from the first end to the "
        "same cavity of the second.", [9, 10, 11], least=1, most=199, unique=True, form=CAVITY,
        default=(),
    )  # fmt: skip
    wire: Wire | None = part(
        {"base": "white", "stripe": "black", "size_awg": 18},
        description="What it looks like. It says nothing of what it does: a loom's colours are its "
        "maker's.", default=None,
    )  # fmt: skip
    carries: LoomCarries | None = word(
        "What it is meant to carry, which sets how it is rung out.", "speaker",
        means={"supply": "Battery voltage that a unit is fed from.",
        "ground": "The way back of a supply.", "speaker": "One leg of a speaker pair.",
        "control": "A turn-on, the lights, a switch: milliamperes.",
        "signal": "Line level, a microphone, a picture, an aerial.",
        "data": "A data bus; it only ever passes straight through."},
        default=None,
    )  # fmt: skip
    fuse_a: float | None = figure(
        "The fuse in the wire, in amperes; leave it out when there is none.", "A", 2, above=0,
        most=100, default=None,
    )  # fmt: skip

    RULES = (
        given(
            "Wires that run straight through have neither from nor to: both ends are known.",
            "through",
        ).bars("from", "to"),
        without("A wire has two ends: from and to, or through.", "through").needs("from", "to"),
    )


@record
class Splice:
    """A place inside the loom where wires meet."""

    name: str = text("What wires call it.", "splice 1", form=LOOM_NAME)
    made: SpliceMade = word(
        "How it was made.", "crimp",
        means={"crimp": "Crimped.", "solder": "Soldered.", "welded": "Welded, as factories do.",
        "unknown": "Nobody has looked, or nobody could tell."},
        label="made",
    )  # fmt: skip
    at_m: float | None = figure(
        "Where it lies, from the first end along the bundle, in metres; leave it out when nobody "
        "measured it.", "m", 0.22, least=0, most=20, default=None,
        label="at", absent="",
    )  # fmt: skip
    note: str | None = text(
        "Anything a person should know about it.", "under the tape, 12 cm from the car end",
        form=NOTE, default=None,
        label="note",
    )  # fmt: skip
