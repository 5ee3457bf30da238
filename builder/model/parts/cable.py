"""Cables on the shelf."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, given, listed, part, record, text, when, without, word
from builder.model.forms import (
    COLOUR,
    ID,
    LINE,
    SIZE_AWG,
    SIZE_MM2,
    YES_NO,
    Colour,
    YesNo,
)
from builder.model.recorded import OWN_ID, Recorded
from builder.model.wire import Wire
from builder.model.words import Material

CableUse = Literal["multi_conductor", "speaker_pair", "power"]
Jacket = Colour | Literal["none"]


@record
class CablePair:
    """Two conductors that stay together."""

    positive: Wire = part({"base": "brown"}, description="The conductor used for the positive leg.")
    negative: Wire = part(
        {"base": "brown", "stripe": "black"},
        description="The conductor used for the negative leg.",
    )  # fmt: skip


@record
class Cable(Recorded):
    """A cable on the shelf."""

    id: str = text(OWN_ID, "five-conductor", "template-five", form=ID)
    name: str = text(
        "What a person calls the cable.", "5-conductor example", form=LINE,
        ask="Name printed on it",
    )  # fmt: skip
    use: CableUse = word(
        "What the cable is made for.", "multi_conductor",
        means={"multi_conductor": "Several pairs and singles in one jacket.",
        "speaker_pair": "One or more speaker pairs.", "power": "A single heavy conductor."},
        label="Use", ask="multi_conductor, speaker_pair or power",
    )  # fmt: skip
    size_awg: str | None = text(
        "Size of every conductor as an AWG number; give this or size_mm2.", 18, "1/0",
        form=SIZE_AWG, default=None,
        label="Size", absent="", ask="Size: 18 awg or 0.75 mm2", option="size",
    )  # fmt: skip
    size_mm2: float | None = figure(
        "Cross-section of every conductor in square millimetres; give this or size_awg.", "", 0.75,
        form=SIZE_MM2, default=None,
        label="Size", absent="",
    )  # fmt: skip
    material: Material = word(
        "What the conductors are made of.", "copper",
        means={"copper": "Copper all through.",
        "copper_clad_aluminium": "Aluminium with a copper skin; carries less.",
        "unknown": "Nobody has looked, or nobody could tell."},
        label="Material", ask="copper, copper_clad_aluminium or unknown", answer="unknown",
    )  # fmt: skip
    jacket: Jacket = word(
        "The colour of the outer jacket, or none.", "black", "none",
        means={**COLOUR.means, "none": "It has no outer jacket."},
        label="Jacket", ask="Colour of the jacket, or none",
    )  # fmt: skip
    pairs: tuple[CablePair, ...] = listed(
        "The conductors that stay together two by two.", [{"positive": {"base": "brown"},
        "negative": {"base": "brown", "stripe": "black"}}], most=20, default=(),
        ask="Pairs: brown brown/black, orange orange/black",
    )  # fmt: skip
    singles: tuple[Wire, ...] = listed(
        "The conductors that belong to no pair.", [{"base": "blue"}], most=40, default=(),
        ask="Single cores: blue, red/white; none without one",
    )  # fmt: skip
    shield: YesNo = word(
        "Whether a shield goes around the conductors.", "no", form=YES_NO,
        label="Shield", ask="Has it a shield", answer="no",
    )  # fmt: skip
    on_reel_m: float | None = figure(
        "What is left on the reel, in metres, or unknown.", "m", 50, least=0, most=10000,
        unknown=True, default=None,
        label="On the reel",
    )  # fmt: skip
    RULES = (
        given("A cable has one size: size_mm2 or size_awg, not both.", "size_mm2").bars("size_awg"),
        without("A cable needs its size: size_awg or size_mm2.", "size_mm2").needs("size_awg"),
        when(
            "A speaker cable or a multi-conductor cable has pairs; [] says that it has none.",
            "use",
            "speaker_pair",
            "multi_conductor",
        ).needs("pairs"),
        when("A power cable is a single core, so it is described under singles.", "use", "power")
        .needs("singles")
        .limits("singles", least_items=1),
    )

    @property
    def called(self) -> str:
        """What a person calls it, and the word that other sheets have for it."""
        return f"{self.name} ({self.id})"
