"""A wire as it looks."""

from __future__ import annotations

from typing import Protocol

from builder.declaring import figure, given, record, text, word
from builder.model.forms import COLOUR, SIZE_AWG, SIZE_MM2, Colour


class Sized(Protocol):
    """Whatever has the size of a conductor: a wire, a cable, a lead of a job."""

    @property
    def size_mm2(self) -> float | None:
        """Its cross-section, if that was given."""

    @property
    def size_awg(self) -> str | None:
        """Its AWG number, if that was given."""


@record(shared="wire")
class Wire:
    """A wire as it looks: base colour, stripe, conductor size."""

    base: Colour = word(
        "The colour of most of the insulation.", "yellow", form=COLOUR,
        column=("base", "base", "base colour"),
    )  # fmt: skip
    stripe: Colour | None = word(
        "The colour of the thin stripe; leave it out when there is none.", "red", form=COLOUR,
        default=None,
        column=("stripe", "stripe", "stripe colour", "tracer"),
    )  # fmt: skip
    size_mm2: float | None = figure(
        "Conductor cross-section in square millimetres; give this or size_awg.", "", 0.75,
        form=SIZE_MM2, default=None,
        column=("", "mm2", "size mm2", "size", "size mm", "mm", "cross section"),
    )  # fmt: skip
    size_awg: str | None = text(
        "Conductor size as an AWG number; give this or size_mm2.", 18, "1/0", form=SIZE_AWG,
        default=None,
        column=("", "awg", "gauge", "wire gauge", "size awg"),
    )  # fmt: skip
    RULES = (
        given("A wire has one size: size_mm2 or size_awg, not both.", "size_mm2").bars("size_awg"),
    )
